import { gaussianFilter, type HeightGrid, median, sigmaFromMad, xOf, yOf } from '../geometry/index.ts';
import type { Ground } from './commonGrid.ts';
import { derivatives, motionTerms, solveTerms } from './nuisance.ts';
import { cutoffOf } from './scales.ts';

export const agreementDefaults = {
  /** Standard deviation of the mean that must agree, mm, and how many of its local spreads off it still does. */
  aboutMm: 0.8,
  within: 3,
  /** Every so manyth cell is looked at. */
  stride: 3,
};

/** Spread of a mean from places three of its widths apart: a step or a tilt of the whole leaves it as it is. */
export function localSpread(about: HeightGrid, aboutMm: number): number {
  const { width, z, mask, pitch } = about;
  const far = Math.max(1, Math.round((3 * aboutMm) / pitch));
  const values: number[] = [];
  for (let i = 0; i < z.length; i += 3)
    for (const step of [far, far * width]) {
      const other = i + step;
      if (mask[i] && mask[other] && (step !== far || (i % width) + far < width)) values.push(Math.abs(z[other] - z[i]));
    }
  return values.length > 20 ? (sigmaFromMad * median(values)) / Math.SQRT2 : 0;
}

/**
 * The small motion under which most of the face agrees, of those fitted to the whole, to each half and to each quarter of
 * it: a third of a face that lies lower as a whole draws a fit of the whole after it, but not those of the parts beside it.
 * Least squares of the linearised difference; agreement is counted in the mean about each cell. A consensus over chosen
 * parts, after Fischler and Bolles, Comm. ACM 24, 1981.
 */
export function mostAgreed(
  ground: Ground,
  raw: HeightGrid,
  sigma: Float32Array,
  options = agreementDefaults,
): Float64Array {
  const about = gaussianFilter(raw, cutoffOf(options.aboutMm));
  const near = options.within * localSpread(about, options.aboutMm);
  let best: { terms: Float64Array; agree: number } = { terms: new Float64Array(motionTerms), agree: 0 };
  for (const part of parts(raw)) {
    const weights = new Float32Array(sigma.length);
    for (let i = 0; i < weights.length; i += options.stride)
      if (raw.mask[i] && part(i)) weights[i] = Math.max(0, 1 - Math.abs(raw.z[i]) / (20 * sigma[i])) / sigma[i] ** 2;
    const solved = solveTerms(ground, raw.z, weights, motionTerms);
    if (!solved) continue;
    const agree = agreeing(ground, about, solved.terms, near, options.stride);
    if (agree > best.agree) best = { terms: solved.terms, agree };
  }
  return best.terms;
}

function agreeing(ground: Ground, { z, mask }: HeightGrid, terms: Float64Array, near: number, stride: number): number {
  const j = new Float64Array(20);
  let agree = 0;
  for (let i = 0; i < z.length; i += stride) {
    if (!mask[i]) continue;
    derivatives(ground, i, j);
    let left = z[i];
    for (let k = 0; k < motionTerms; k++) left += j[k] * terms[k];
    if (Math.abs(left) < near) agree++;
  }
  return agree;
}

/** The whole, four halves and four quarters about the middle of the face. */
function parts(grid: HeightGrid): Array<(i: number) => boolean> {
  const x = (i: number): number => xOf(grid, i % grid.width);
  const y = (i: number): number => yOf(grid, Math.floor(i / grid.width));
  const signs = [-1, 1];
  return [
    () => true,
    ...signs.flatMap((s) => [(i: number) => s * x(i) > 0, (i: number) => s * y(i) > 0]),
    ...signs.flatMap((s) => signs.map((t) => (i: number) => s * x(i) > 0 && t * y(i) > 0)),
  ];
}
