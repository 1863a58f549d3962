import { columnOf, type HeightGrid, invertSmall, rowOf } from '../geometry/index.ts';
import { bestShift, type Shift, type ShiftOptions } from './bestShift.ts';
import { agreementFrom } from './correlation.ts';
import { type PatchCells, patchRound } from './patchRound.ts';

/** A place of the reference and where the subject has it. Frame: the reference's face, mm, x right and y up. */
export interface Patch {
  readonly x: number;
  readonly y: number;
  /** Shift of the subject's place against the reference's, mm. */
  readonly dx: number;
  readonly dy: number;
  /** Turn about the patch's middle, degrees counter-clockwise. */
  readonly turnDeg: number;
  /** Robust correlation at that place: cells that disagree with the rest of the patch have no weight. */
  readonly correlation: number;
  /** Covariance of (dx, dy), mm²: xx, xy, yy. */
  readonly covariance: readonly [number, number, number];
  /** Share of the patch's disc that carries data on the reference. */
  readonly whole: number;
  /** Share of the patch's cells that kept weight. */
  readonly kept: number;
  /** RMS of the band-passed relief, mm, on the reference and on the subject at its place. */
  readonly relief: readonly [number, number];
  /** The best place lies within the reach, not on its edge. */
  readonly inside: boolean;
}

/** A patch that was found on both faces. */
export interface Place extends Patch {
  /** How likely it was matched with what does not correspond, whatever the two objects are, 0 to 1. */
  readonly doubt: number;
}

export interface PatchOptions extends ShiftOptions {
  /** Radius of a patch, cells. */
  readonly radius: number;
  /** Cells over which what is left of two reliefs is correlated: their noise counts so many times less. */
  readonly noiseCells: number;
  /** By how much patches are turned, 1 σ about nought, degrees. Where it is not given any turn is as likely as another. */
  readonly turnSdDeg?: number;
}

/**
 * Registers a round patch of the reference alone on the subject: the best correlation over whole shifts, then Gauss–Newton
 * steps in shift, turn, gain and height with Tukey weights, so that a cut, a chip or dirt across a patch does not spoil
 * it. A turn that is held (`turnSdDeg`) counts as one observation more. Null where too few cells have data. Both grids: same cells,
 * band-passed, mm.
 *
 * Covariance σ² κ (JᵀWJ)⁻¹, σ from what is left, κ its correlated cells (`noiseCells`).
 */
export function registerPatch(a: HeightGrid, b: HeightGrid, x: number, y: number, options: PatchOptions): Patch | null {
  const col = Math.round(columnOf(a, x));
  const row = Math.round(rowOf(a, y));
  const cells = cellsOf(a, col, row, options.radius);
  if (cells.length < 20) return null;
  const start = bestShift(a, b, cells, options);
  return start && refine(a, b, cells, col, row, start, options);
}

/** Index of each cell of the disc that carries data on the reference. */
function cellsOf(a: HeightGrid, col: number, row: number, radius: number): Int32Array {
  const out = new Int32Array((2 * radius + 1) ** 2);
  let n = 0;
  for (let dr = -radius; dr <= radius; dr++)
    for (let dc = -radius; dc <= radius; dc++) {
      const r = row + dr;
      const c = col + dc;
      if (dr * dr + dc * dc > radius * radius || r < 1 || c < 1 || r >= a.height - 1 || c >= a.width - 1) continue;
      const i = r * a.width + c;
      if (a.mask[i]) out[n++] = i;
    }
  return out.slice(0, n);
}

/** Cells of a whole disc. */
function discCells(radius: number): number {
  let n = 0;
  for (let dr = -radius; dr <= radius; dr++) n += 2 * Math.floor(Math.sqrt(radius * radius - dr * dr)) + 1;
  return n;
}

const rounds = 16;

function refine(
  a: HeightGrid,
  b: HeightGrid,
  cells: Int32Array,
  col: number,
  row: number,
  start: Shift,
  { noiseCells, radius, reach, clipMm, offset = [0, 0], turnSdDeg = Number.POSITIVE_INFINITY }: PatchOptions,
): Patch | null {
  let [dc, dr, turn, gain, level] = [start.dc, start.dr, 0, Number.NaN, 0];
  const n = cells.length;
  const work = patchRound(b, placesOf(a, cells, col, row));
  const held = noiseCells / ((turnSdDeg * Math.PI) / 180) ** 2;
  let result: Patch | null = null;
  for (let round = 0; round < rounds; round++) {
    const seen = work.sample(col + dc, row + dr, turn);
    if (2 * seen < n || seen < 20) return result;
    if (round === 0) [gain, level] = lineFrom(work.clipped(...clipMm));
    const sigma = work.reweigh(gain, level);
    const step = stepOf(withTurnHeld(work.equations(gain, level), turn, held * sigma * sigma));
    if (!step) return result;
    const [x, inverse] = step;
    dc += clamp(x[0], 1);
    dr += clamp(x[1], 1);
    turn += clamp(x[2], 0.05);
    gain = Math.max(gain + x[3], 1e-3);
    level += x[4];
    const settled = Math.hypot(x[0], x[1]) < 0.01;
    if (settled || round === rounds - 1) {
      const k = noiseCells * sigma * sigma * a.pitch * a.pitch;
      const [correlation, kept, ra, rb] = agreementFrom(work.agreement());
      result = {
        x: a.left + col * a.pitch,
        y: a.top - row * a.pitch,
        dx: dc * a.pitch,
        dy: -dr * a.pitch,
        turnDeg: (-turn * 180) / Math.PI,
        correlation,
        covariance: [k * inverse[0], -k * inverse[1], k * inverse[2]],
        whole: n / discCells(radius),
        kept: kept * (seen / n),
        relief: [ra, rb],
        inside:
          start.inside &&
          Math.abs(dc - offset[0]) <= reach + 0.5 &&
          Math.abs(dr - offset[1]) <= reach + 0.5 &&
          Math.hypot(dc - start.dc, dr - start.dr) < radius / 2 + 1,
      };
      if (settled) break;
    }
  }
  return result;
}

const clamp = (v: number, most: number): number => Math.max(-most, Math.min(most, v));

function placesOf({ width, z }: HeightGrid, cells: Int32Array, col: number, row: number): PatchCells {
  const [columns, rows] = [new Float32Array(cells.length), new Float32Array(cells.length)];
  const heights = new Float32Array(cells.length);
  for (let k = 0; k < cells.length; k++) {
    columns[k] = (cells[k] % width) - col;
    rows[k] = Math.floor(cells[k] / width) - row;
    heights[k] = z[cells[k]];
  }
  return { columns, rows, heights };
}

/** Least-squares line a = gain b + level over the cells that are seen, both clipped. */
function lineFrom([n, sa, sb, sab, sbb]: Float64Array): [number, number] {
  const gain = (sab - (sa * sb) / n) / Math.max(sbb - (sb * sb) / n, 1e-18);
  return [gain, (sa - gain * sb) / n];
}

/** The normal equations with one observation more: a turn of nought, of `precision` (mm²). */
function withTurnHeld(sums: Float64Array, turn: number, precision: number): Float64Array {
  sums[5] += precision;
  sums[17] -= precision * turn;
  return sums;
}

/** The Gauss–Newton step, and the xx, xy, yy part of the inverse; null where the equations do not tell. */
function stepOf(sums: Float64Array): [Float64Array, [number, number, number]] | null {
  const h = new Float64Array(25);
  for (let p = 0, at = 0; p < 5; p++)
    for (let q = 0; q <= p; q++, at++) {
      h[5 * p + q] = sums[at];
      h[5 * q + p] = sums[at];
    }
  const inverse = invertSmall(h, 5);
  if (!inverse) return null;
  const x = new Float64Array(5);
  for (let p = 0; p < 5; p++) for (let q = 0; q < 5; q++) x[p] += inverse[5 * p + q] * sums[15 + q];
  return [x, [inverse[0], inverse[1], inverse[6]]];
}
