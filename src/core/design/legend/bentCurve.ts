import { type HeightGrid, sampleGrid, solveDefinite } from '../../geometry/index.ts';
import { type BaseCurve, curveOf, resample } from './baseCurve.ts';

/**
 * The curve bent until the relief between two depths, mm inward, runs parallel to it everywhere.
 *
 * Each place of the curve has a profile R(d) of the relief at the depths d inward; their mean is T(d). Where R is T moved by δ, T(d) − R(d) ≈ T′(d) δ.
 * δ is a sum of waves along the curve, their coefficients those of least squares with a price for each wave that grows as its bending does; the curve is
 * moved by δ along its normals, and all is asked again (Lucas and Kanade 1981, in one dimension). A constant is no wave: depths tell it.
 */
export function bentCurve(relief: HeightGrid, curve: BaseCurve, fromMm: number, toMm: number): BaseCurve {
  let bent = curve;
  for (let round = 0; round < rounds; round++) bent = moved(bent, offsets(profilesOf(relief, bent, fromMm, toMm)));
  return bent;
}

const rounds = 4;
/** Waves in the round, at most; places that are asked; depths' step, mm. */
const waves = 8;
const places = 180;
const stepMm = 0.15;
/** Price of a wave, in shares of what is known of all: the least, and the shortest wave's, the others' by the fourth power of their number. */
const least = 0.001;
const stiffness = 0.02;
/** A round moves no place by more, mm. */
const mostMm = 0.5;

interface Profiles {
  readonly depths: number;
  /** Places by depths; NaN where there is nothing. */
  readonly z: Float64Array;
}

function profilesOf(relief: HeightGrid, curve: BaseCurve, fromMm: number, toMm: number): Profiles {
  const from = Math.round(fromMm / stepMm);
  const depths = Math.max(3, Math.round(toMm / stepMm) - from);
  const z = new Float64Array(places * depths).fill(Number.NaN);
  for (let p = 0; p < places; p++) {
    const k = placeOf(curve, p);
    for (let d = 0; d < depths; d++) {
      const depth = (from + d) * stepMm;
      if (depth > curve.reach[k]) break;
      z[p * depths + d] = sampleGrid(relief, curve.x[k] + depth * curve.nx[k], curve.y[k] + depth * curve.ny[k]);
    }
  }
  return { depths, z };
}

const placeOf = (curve: BaseCurve, p: number): number => Math.floor((p * curve.x.length) / places);

/** Mean over the places at each depth; few say little. */
function meanProfile({ depths, z }: Profiles): Float64Array {
  return Float64Array.from({ length: depths }, (_, d) => {
    let [sum, count] = [0, 0];
    for (let p = 0; p < places; p++)
      if (!Number.isNaN(z[p * depths + d])) {
        sum += z[p * depths + d];
        count++;
      }
    return sum / (count + 12);
  });
}

/** How far each place lies beside its own, mm: coefficients of the waves, of R(d) − T(d) ≈ Σ cⱼ φⱼ · T′(d). */
function offsets(profiles: Profiles): Float64Array {
  const n = 2 * waves;
  const h = new Float64Array(n * n);
  const g = new Float64Array(n);
  let known = 0;
  slopesOf(profiles).forEach(({ slopes, product }, p) => {
    const phi = wavesAt(p / places);
    known += slopes;
    for (let a = 0; a < n; a++) {
      g[a] += product * phi[a];
      for (let b = 0; b < n; b++) h[a * n + b] += slopes * phi[a] * phi[b];
    }
  });
  for (let a = 0; a < n; a++) h[a * n + a] += known * (least + stiffness * (((a >> 1) + 1) / waves) ** 4);
  return solveDefinite(h, g, n) ?? new Float64Array(n);
}

/** Of each place Σ T′² and Σ T′ (R − T) over the depths. */
function slopesOf(profiles: Profiles): { readonly slopes: number; readonly product: number }[] {
  const { depths, z } = profiles;
  const mean = meanProfile(profiles);
  return Array.from({ length: places }, (_, p) => {
    let [slopes, product] = [0, 0];
    for (let d = 1; d < depths - 1; d++) {
      const value = z[p * depths + d];
      if (Number.isNaN(value)) continue;
      const slope = (mean[d + 1] - mean[d - 1]) / (2 * stepMm);
      slopes += slope * slope;
      product += slope * (value - mean[d]);
    }
    return { slopes, product };
  });
}

/** Cosines and sines of 1, 2 … waves in the round. */
const wavesAt = (share: number): number[] =>
  Array.from({ length: 2 * waves }, (_, a) => {
    const t = 2 * Math.PI * ((a >> 1) + 1) * share;
    return a % 2 ? Math.sin(t) : Math.cos(t);
  });

/** A profile that lies further in, R(d) = T(d − δ), has R − T ≈ −δ T′: the curve is moved inward by −Σ cⱼ φⱼ. */
function moved(curve: BaseCurve, c: Float64Array): BaseCurve {
  const n = curve.x.length;
  const path = new Float64Array(2 * n + 2);
  for (let k = 0; k <= n; k++) {
    const i = k % n;
    const beside = wavesAt(i / n).reduce((sum, phi, a) => sum + c[a] * phi, 0);
    const by = Math.max(-mostMm, Math.min(mostMm, -beside));
    path[2 * k] = curve.x[i] + by * curve.nx[i];
    path[2 * k + 1] = curve.y[i] + by * curve.ny[i];
  }
  return curveOf(resample(path, n));
}
