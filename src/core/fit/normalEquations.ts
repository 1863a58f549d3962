import { inStretches, type NormalRows, normalRows, normalSystems } from '../geometry/index.ts';
import type { PairOptions, Pairs } from './correspondences.ts';
import { warpParameters, warpPriorMm } from './warp.ts';

/** Which motions are free. */
export interface IcpModel {
  readonly scale: boolean;
  readonly warp: boolean;
}

type RowOptions = IcpModel & PairOptions;

/** Pairs with their weights, and the root mean square of their residuals, mm. */
interface Weighed {
  readonly pairs: Pairs;
  readonly weights: Float64Array;
  readonly rmsMm: number;
}

/**
 * JᵀWJ and JᵀWr. For a point m with normal n: turn ω moves it by ω × m, so the derivative of p · n is (m × n) · ω;
 * the shift's is n, the size's m · n (of which only x and y are used), a warp field's f · n. Turn and size are taken times R, so all are in mm at the rim.
 */
export function normalEquations(weighed: Weighed, bending: Float64Array, parameters: number, options: RowOptions) {
  const rows = normalRows(weighed.weights.length, parameters);
  inStretches(layRows, { rows, weighed, options }, weighed.weights.length, atOnce);
  const [{ h, g }] = normalSystems(rows, parameters);
  if (options.warp) holdWarp(h, g, bending, parameters, weighed.rmsMm);
  return { h, g };
}

/** Few, since a round has some thousand and there are dozens of rounds. */
const atOnce = 512;

interface Laid {
  readonly rows: NormalRows;
  readonly weighed: Weighed;
  readonly options: RowOptions;
}

function layRows({ rows, weighed, options }: Laid, from: number, to: number): void {
  const { pairs, weights } = weighed;
  const { moved, normals, residual } = pairs;
  for (let i = from; i < to; i++) {
    if (weights[i] === 0 || Number.isNaN(weights[i])) continue;
    fillRow(rows.rows, i * rows.stride, moved, normals, 3 * i, options);
    rows.curvatures[i] = weights[i];
    rows.pulls[i] = weights[i] * residual[i];
  }
}

/**
 * Where half the face is gone, stretch and growth look alike: each warp coefficient is held toward zero as a normal
 * prior would, σ²/σ_k², with the residuals' variance taken as shared by `together` neighbouring points.
 */
export function holdWarp(
  h: Float64Array,
  g: Float64Array,
  bending: Float64Array,
  parameters: number,
  rmsMm: number,
): void {
  const first = parameters - warpParameters;
  for (let k = 0; k < warpParameters; k++) {
    const pull = (together * rmsMm ** 2) / warpPriorMm(k) ** 2;
    h[(first + k) * (parameters + 1)] += pull;
    g[first + k] -= pull * bending[k];
  }
}

const together = 40;

/** Writes a row of J from place `at` on. */
export function fillRow(
  j: Float64Array,
  at: number,
  moved: Float64Array,
  normals: Float64Array,
  k: number,
  options: RowOptions,
): void {
  const R = options.radiusMm;
  const x = moved[k];
  const y = moved[k + 1];
  const z = moved[k + 2];
  const nx = normals[k];
  const ny = normals[k + 1];
  const nz = normals[k + 2];
  j[at] = (y * nz - z * ny) / R;
  j[at + 1] = (z * nx - x * nz) / R;
  j[at + 2] = (x * ny - y * nx) / R;
  j[at + 3] = nx;
  j[at + 4] = ny;
  j[at + 5] = nz;
  // Size is read in the plane alone: rubbed tops lack height, and would be taken for growth.
  if (options.scale) j[at + 6] = (x * nx + y * ny) / R;
  if (options.warp) fillWarp(j, at + (options.scale ? 7 : 6), x / R, y / R, nx, ny, nz);
}

/** Every field of the warp along the normal: `warpField` written out, as `bend` is. */
function fillWarp(j: Float64Array, k: number, u: number, v: number, nx: number, ny: number, nz: number): void {
  const squares = u * u + v * v;
  const difference = u * u - v * v;
  const twice = 2 * u * v;
  j[k] = u * u * nz;
  j[k + 1] = u * v * nz;
  j[k + 2] = v * v * nz;
  j[k + 3] = u * u * u * nz;
  j[k + 4] = u * u * v * nz;
  j[k + 5] = u * v * v * nz;
  j[k + 6] = v * v * v * nz;
  j[k + 7] = u * nx - v * ny;
  j[k + 8] = v * nx + u * ny;
  j[k + 9] = squares * (u * nx + v * ny);
  j[k + 10] = difference * nx + twice * ny;
  j[k + 11] = difference * ny - twice * nx;
}
