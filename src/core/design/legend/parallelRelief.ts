import { parallelReliefKernel } from '../../../kernels/index.ts';
import type { HeightGrid } from '../../geometry/index.ts';
import { type CurvePlace, curveOf, type IdealShape, idealOutline, idealPath } from './baseCurve.ts';
import { ringProfile } from './ringProfile.ts';

/** Share of the energy of one of the reliefs that a relief running parallel to the outline explains, 0 to 1. */
export type ExplainedShare = (relief: number, shape: IdealShape, place: CurvePlace) => number;

/**
 * For reliefs that are asked some thousand times each; by a compiled kernel where the engine lets it run, which gives the same
 * numbers as `explainedPlainly`.
 */
export function explainedShares(reliefs: readonly HeightGrid[]): ExplainedShare {
  const energies = reliefs.map(energyOf);
  const explained = explainedByKernel(reliefs) ?? explainedPlainly(reliefs);
  return (k, shape, place) => (Math.min(place.a, place.b) > leastHalfMm ? explained(k, shape, place) / energies[k] : 0);
}

const leastHalfMm = 3;

/** What is looked at of an outline: points round it, and how deep and how finely inward, mm. */
function sampling(pitch: number, { a, b }: CurvePlace) {
  const least = Math.min(a, b);
  const stepMm = Math.max(0.1, pitch, least / 120);
  const count = Math.min(pitch > 0.15 ? 120 : 240, Math.max(72, Math.round((5 * least) / stepMm)));
  return { stepMm, count, depthMm: 0.75 * least };
}

/** Σ over depths of area · mean², mm² × unit²: what a relief parallel to the outline explains. */
export function explainedPlainly(reliefs: readonly HeightGrid[]): ExplainedShare {
  return (k, shape, place) => {
    const { stepMm, count, depthMm } = sampling(reliefs[k].pitch, place);
    const curve = curveOf(idealOutline(shape, place, count), true);
    return ringProfile(reliefs[k], curve, 0, depthMm, stepMm).explained;
  };
}

export function explainedByKernel(reliefs: readonly HeightGrid[]): ExplainedShare | null {
  const kernel = parallelReliefKernel(reliefs);
  if (!kernel) return null;
  const { ask, path, explained } = kernel;
  return (k, shape, place) => {
    const { stepMm, count, depthMm } = sampling(reliefs[k].pitch, place);
    const points = idealPath(shape, place);
    path.set(points);
    const t = (-place.turnDeg * Math.PI) / 180;
    ask[0] = k;
    ask[1] = points.length / 2;
    ask[2] = count;
    ask[3] = place.cx;
    ask[4] = place.cy;
    ask[5] = Math.cos(t);
    ask[6] = Math.sin(t);
    ask[7] = depthMm;
    ask[8] = stepMm;
    return explained();
  };
}

/** ∫ z² over the grid, mm² × unit². */
export function energyOf(grid: HeightGrid): number {
  let sum = 0;
  for (let i = 0; i < grid.z.length; i++) if (grid.mask[i]) sum += grid.z[i] ** 2;
  return Math.max(1e-12, sum * grid.pitch ** 2);
}
