import { cellOutline, placeOf as placeOnFace } from '../condition/index.ts';
import { type Face, longSide } from '../face/index.ts';
import {
  eigenSymmetric,
  gaussianSum,
  type HeightGrid,
  invertSmall,
  median,
  withHeights,
  xOf,
  yOf,
} from '../geometry/index.ts';
import { causesOf } from './causes.ts';
import { type Ground, grown } from './commonGrid.ts';
import { goesOnFrom, lineShapeOf } from './lineShape.ts';
import { partsOf } from './noise.ts';
import { allTerms, derivatives } from './nuisance.ts';
import type { NoiseScales, Region } from './regions.ts';
import type { Registered } from './register.ts';
import type { Change } from './types.ts';

export const measureDefaults = {
  /** A change is summed over its extent and so far beside it, mm, gaps twice as wide as the second filled. */
  besideMm: 0.25,
  gapMm: 0.6,
  /** Cells that cannot be read take the mean about them, standard deviation, mm; so much of what they add is in doubt. */
  fillMm: 0.4,
  fillDoubt: 0.3,
  /** A part without surface counts from this width, mm, and area, mm², and only where it reaches the edge of the face. */
  absentWidthMm: 1,
  absentAreaMm2: 4,
};

export interface Measured {
  readonly ground: Ground;
  readonly face: Face;
  readonly registered: Registered;
  readonly scales: NoiseScales;
  /** Covariance of all terms of the registration, noise shared by neighbours included. */
  readonly covariance: Float64Array | null;
}

/** Covariance of the registration's terms: H⁻¹ times the square of the inflation at its longest scale. */
export function covarianceOf({ solved }: Registered, { inflation }: NoiseScales): Float64Array | null {
  if (!solved || solved.free !== allTerms) return null;
  // A term that nothing holds keeps a finite variance.
  const { values } = eigenSymmetric(solved.hessian, allTerms);
  const held = solved.hessian.slice();
  for (let k = 0; k < allTerms; k++) held[k * (allTerms + 1)] += 1e-9 * values[allTerms - 1];
  const inverse = invertSmall(held, allTerms);
  const times = Math.max(...inflation) ** 2;
  return inverse?.map((value) => value * times) ?? null;
}

/** A region as a change: its volume Σ d a over its extent, with what noise and registration leave open. */
export function measureRegion(measured: Measured, region: Region, id: string): Change {
  const { ground, registered, scales } = measured;
  const { difference } = registered;
  const fine = scales.maps[0].mean;
  const over = extentOf(difference, ground, region);
  const fill = filled(difference, over);
  const cell = difference.pitch ** 2;
  let [sum, unread, noise] = [0, 0, 0];
  for (const i of over) {
    if (difference.mask[i]) sum += difference.z[i];
    else unread += fill(i);
    noise += registered.sigma[i] ** 2;
  }
  sum += unread;
  const meanVariance = registrationVariance(measured, over);
  const inflation = inflationAt(scales, over.length * cell);
  const volumeSdMm3 = Math.hypot(
    Math.sqrt(noise) * cell * inflation,
    Math.sqrt(meanVariance) * over.length * cell,
    measureDefaults.fillDoubt * unread * cell,
  );
  const farthest = region.area.reduce((most, i) => (Math.abs(fine[i]) > Math.abs(most) ? fine[i] : most), 0);
  const areaMm2 = region.area.length * cell;
  const meanMm = region.area.reduce((total, i) => total + fine[i], 0) / Math.max(1, region.area.length);
  const direction = region.sign < 0 ? 'lowered' : 'raised';
  const line = lineShapeOf(difference, region.cells);
  const shape = line ? 'line' : 'area';
  const usualSigma = median(over.map((i) => registered.sigma[i]));
  return {
    id,
    direction,
    shape,
    at: middleOf(difference, region.cells, fine, measured.face),
    areaMm2,
    meanMm,
    farthestMm: farthest,
    volumeMm3: sum * cell,
    volumeSdMm3,
    timesLeast: region.timesLeast,
    ...(line && {
      lengthMm: line.lengthMm,
      widthMm: Math.abs((sum * cell) / (line.lengthMm * farthest)),
      goesOn: direction === 'lowered' && goesOnFrom(ground.earlier, line, Math.abs(farthest), usualSigma),
    }),
    causes: causesOf(direction, shape, meanMm),
    outline: cellOutline(difference, region.area.length > 0 ? region.area : region.cells),
  };
}

/** Σ g d / Σ g over the cells about one that carry a difference. */
function filled(difference: HeightGrid, over: readonly number[]): (i: number) => number {
  if (over.every((i) => difference.mask[i])) return () => 0;
  const sum = gaussianSum(difference, measureDefaults.fillMm);
  const ones = new Float32Array(difference.z.length).fill(1);
  const weight = gaussianSum(withHeights(difference, ones), measureDefaults.fillMm);
  return (i) => (weight[i] > 0.05 ? sum[i] / weight[i] : 0);
}

function extentOf(difference: HeightGrid, { earlier }: Ground, { over }: Region): number[] {
  const { besideMm, gapMm } = measureDefaults;
  const set = new Uint8Array(difference.mask.length);
  for (const i of over) set[i] = 1;
  const { width, pitch } = difference;
  const gap = Math.round(gapMm / pitch);
  const closed = eroded(grown(set, width, gap), width, gap);
  const wide = grown(closed, width, Math.round(besideMm / pitch));
  const out: number[] = [];
  for (let i = 0; i < wide.length; i++) if (wide[i] && earlier.mask[i]) out.push(i);
  return out;
}

/** Standard deviation of a volume even over an area at a usual place of the face, mm³: noise and registration. */
export function usualVolumeSd(measured: Measured, areaMm2: number): number {
  const { registered, scales } = measured;
  const { mask, pitch } = registered.difference;
  const step = Math.max(1, Math.floor(mask.length / 400));
  const places: number[] = [];
  for (let i = 0; i < mask.length; i += step) if (mask[i]) places.push(i);
  const open = median(places.map((i) => registrationVariance(measured, [i])));
  const noise = inflationAt(scales, areaMm2) * median(places.map((i) => registered.sigma[i]));
  return Math.hypot(noise * pitch * Math.sqrt(areaMm2), Math.sqrt(open) * areaMm2);
}

/** Variance of the mean difference over cells that the registration leaves open, mm². */
function registrationVariance({ ground, covariance }: Measured, cells: readonly number[]): number {
  if (!covariance || cells.length === 0) return 0;
  const mean = new Float64Array(allTerms);
  const j = new Float64Array(allTerms);
  for (const i of cells) {
    derivatives(ground, i, j);
    for (let k = 0; k < allTerms; k++) mean[k] += j[k] / cells.length;
  }
  let variance = 0;
  for (let r = 0; r < allTerms; r++)
    for (let c = 0; c < allTerms; c++) variance += mean[r] * covariance[r * allTerms + c] * mean[c];
  return Math.max(0, variance);
}

/** Inflation of noise at the scale whose Gaussian has as much area, 4πσ². */
function inflationAt({ maps, inflation }: NoiseScales, areaMm2: number): number {
  const sigma = Math.sqrt(areaMm2 / (4 * Math.PI));
  const k = maps.findIndex(({ sigmaMm }) => sigmaMm >= sigma);
  return k < 0 ? Math.max(...inflation) : Math.max(inflation[k], inflation[Math.max(0, k - 1)]);
}

function middleOf(grid: HeightGrid, cells: readonly number[], weight: Float32Array, { sense }: Face): Change['at'] {
  let [x, y, all] = [0, 0, 0];
  for (const i of cells) {
    const w = Math.abs(weight[i]) + 1e-9;
    x += w * xOf(grid, i % grid.width);
    y += w * yOf(grid, Math.floor(i / grid.width));
    all += w;
  }
  return placeOnFace(((sense === 'intaglio' ? -1 : 1) * x) / all, y / all);
}

/** Parts of the earlier's face, at its edge, over which the later has no surface. */
export function absentParts({ ground, face }: Measured, later: HeightGrid): Change[] {
  const { earlier } = ground;
  const { width, pitch } = earlier;
  const half = Math.max(1, Math.round(measureDefaults.absentWidthMm / 2 / pitch));
  const lacking = earlier.mask.map((m, i) => (m && !later.mask[i] ? 1 : 0));
  const opened = grown(eroded(lacking, width, half), width, half);
  const beyond = grown(earlier.mask.map((m) => 1 - m) as Uint8Array, width, 2);
  const changes: Change[] = [];
  for (const { cells } of partsOf(opened, width)) {
    const areaMm2 = cells.length * pitch ** 2;
    if (areaMm2 < measureDefaults.absentAreaMm2 || !cells.some((i) => beyond[i])) continue;
    changes.push({
      id: '',
      direction: 'absent',
      shape: 'area',
      at: middleOf(earlier, cells, new Float32Array(earlier.z.length), face),
      areaMm2,
      meanMm: Number.NaN,
      farthestMm: Number.NaN,
      volumeMm3: Number.NaN,
      volumeSdMm3: Number.NaN,
      timesLeast: areaMm2 / measureDefaults.absentAreaMm2,
      causes: causesOf('absent', 'area', Number.NaN),
      outline: cellOutline(earlier, cells),
    });
  }
  return changes.sort((a, b) => b.areaMm2 - a.areaMm2).slice(0, Math.ceil(longSide(face)));
}

const eroded = (set: Uint8Array, width: number, cells: number): Uint8Array => {
  const outside = grown(set.map((m) => 1 - m) as Uint8Array, width, cells);
  return outside.map((m) => 1 - m) as Uint8Array;
};
