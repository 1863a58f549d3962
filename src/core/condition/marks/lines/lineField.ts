import { lineFieldKernel } from '../../../../kernels/index.ts';
import type { HeightGrid } from '../../../geometry/index.ts';

export const lineDefaults = {
  /** Directions looked along. */
  directions: 12,
  /** Length over which a line is averaged, mm. */
  lengthMm: 2.4,
  /** Distance of the places on both sides that a line must stand out from, mm; at least two cells. */
  besideMm: 0.75,
};

/** The strongest ridge and the strongest groove through each cell. */
export interface LineField {
  /** Mean height over both sides along the best direction, mm; 0 or more. */
  readonly ridge: Float32Array;
  readonly groove: Float32Array;
  /** Index of those directions: k · 180°/directions counter-clockwise from x. */
  readonly ridgeAlong: Uint8Array;
  readonly grooveAlong: Uint8Array;
}

/**
 * Oriented line detection. Across direction k with normal n, at distance s,
 *
 *   ridge(p) = z(p) − max(z(p + s n), z(p − s n)),  groove(p) = min(z(p + s n), z(p − s n)) − z(p),
 *
 * averaged along the direction over `lengthMm`, so that a step has neither and a short bump has little. Each cell keeps its
 * best direction. Of several grids on the same cells the least counts: what all of them show. Cells without data on
 * their sides take no part. `ridgesOnly` leaves the grooves at 0. Heights mm. By a compiled kernel where the engine lets it run, on
 * float32; `lineFieldPlainly` is its referee.
 */
export function lineField(grids: readonly HeightGrid[], ridgesOnly = false, options = lineDefaults): LineField {
  const { beside, reach } = reaches(grids[0], options);
  const kernel = lineFieldKernel(grids, Math.ceil(Math.max(beside, reach)) + 1);
  if (!kernel) return lineFieldPlainly(grids, ridgesOnly, options);
  for (let k = 0; k < options.directions; k++) {
    const angle = (k * Math.PI) / options.directions;
    const { columns, rows } = waySteps(angle, reach, grids[0].width);
    const aside = [Math.round(Math.sin(angle) * beside), Math.round(Math.cos(angle) * beside)] as const;
    kernel.direction(k, aside, columns, rows, leastOf(columns.length), ridgesOnly);
  }
  return kernel.found();
}

/** Distance of the places on both sides, and half the length averaged over, in cells. */
const reaches = ({ pitch }: HeightGrid, { besideMm, lengthMm }: typeof lineDefaults) => ({
  beside: Math.max(2, besideMm / pitch),
  reach: Math.max(1, Math.round(lengthMm / 2 / pitch)),
});

/** Of so many cells along a direction, how many must have data. */
const leastOf = (count: number): number => Math.ceil(0.6 * count);

/** The same without the kernel, means on float64. */
export function lineFieldPlainly(grids: readonly HeightGrid[], ridgesOnly = false, options = lineDefaults): LineField {
  const [grid] = grids;
  const n = grid.z.length;
  const out: LineField = {
    ridge: new Float32Array(n),
    groove: new Float32Array(n),
    ridgeAlong: new Uint8Array(n),
    grooveAlong: new Uint8Array(n),
  };
  const { beside, reach } = reaches(grid, options);
  const across = { ridge: new Float32Array(n), groove: new Float32Array(n), valid: new Uint8Array(n) };
  for (let k = 0; k < options.directions; k++) {
    const angle = (k * Math.PI) / options.directions;
    grids.forEach((one, g) => {
      acrossDirection(one, angle, beside, across, g === 0);
    });
    alongDirection(grid, angle, reach, across, k, out, ridgesOnly);
  }
  return out;
}

interface Across {
  readonly ridge: Float32Array;
  readonly groove: Float32Array;
  readonly valid: Uint8Array;
}

/** Ridge and groove across one direction; 0 where there is none, `valid` 0 without data. `first`: of several grids. */
function acrossDirection(
  { width, height, z, mask }: HeightGrid,
  angle: number,
  beside: number,
  out: Across,
  first: boolean,
): void {
  // Rows run downward: the normal of (cos, −sin) in cells.
  const dc = Math.round(Math.sin(angle) * beside);
  const dr = Math.round(Math.cos(angle) * beside);
  const step = dr * width + dc;
  const [left, up] = [Math.abs(dc), Math.abs(dr)];
  const { ridge, groove, valid } = out;
  if (first) {
    valid.fill(0);
    ridge.fill(0);
    groove.fill(0);
  }
  for (let row = up; row < height - up; row++)
    for (let col = left, i = row * width + left; col < width - left; col++, i++) {
      if (!first && !valid[i]) continue;
      if (!(mask[i] && mask[i + step] && mask[i - step])) {
        valid[i] = 0;
        ridge[i] = 0;
        groove[i] = 0;
        continue;
      }
      const one = z[i + step];
      const two = z[i - step];
      const up = z[i] - Math.max(one, two);
      const down = Math.min(one, two) - z[i];
      valid[i] = 1;
      ridge[i] = first || up < ridge[i] ? up : ridge[i];
      groove[i] = first || down < groove[i] ? down : groove[i];
    }
  if (!first) clearBorder(out, width, height, left, up);
}

/** Cells without a place on both sides have no ridge in a later grid either: the border is the same for all. */
function clearBorder({ valid }: Across, width: number, height: number, left: number, up: number): void {
  valid.fill(0, 0, up * width);
  valid.fill(0, (height - up) * width);
  for (let row = up; row < height - up; row++) {
    valid.fill(0, row * width, row * width + left);
    valid.fill(0, (row + 1) * width - left, (row + 1) * width);
  }
}

/** Averages along the direction and keeps it where it is the best so far. */
function alongDirection(
  { width, height }: HeightGrid,
  angle: number,
  reach: number,
  { ridge, groove, valid }: Across,
  k: number,
  out: LineField,
  ridgesOnly: boolean,
): void {
  const { steps, columns, rows } = waySteps(angle, reach, width);
  const count = steps.length;
  const least = leastOf(count);
  const inner = (col: number, row: number): boolean =>
    col >= reach && col < width - reach && row >= reach && row < height - reach;
  // A cell that is no crest itself is none of the line's: two thirds of the cells are spared for either kind.
  const average = (values: Float32Array, best: Float32Array, along: Uint8Array): void => {
    for (let row = 0, i = 0; row < height; row++)
      for (let col = 0; col < width; col++, i++) {
        if (values[i] <= 0 || valid[i] === 0) continue;
        let n = 0;
        let sum = 0;
        if (inner(col, row))
          for (let t = 0; t < count; t++) {
            const j = i + steps[t];
            n += valid[j];
            sum += values[j];
          }
        else
          for (let t = 0; t < count; t++) {
            const c = col + columns[t];
            const r = row + rows[t];
            if (c < 0 || c >= width || r < 0 || r >= height) continue;
            n += valid[i + steps[t]];
            sum += values[i + steps[t]];
          }
        if (n >= least && sum > n * best[i]) {
          best[i] = sum / n;
          along[i] = k;
        }
      }
  };
  average(ridge, out.ridge, out.ridgeAlong);
  if (!ridgesOnly) average(groove, out.groove, out.grooveAlong);
}

/** Cells along a direction within `reach`, about nine of them. */
function waySteps(angle: number, reach: number, width: number) {
  const columns: number[] = [];
  const rows: number[] = [];
  for (let t = -reach; t <= reach + 1e-9; t += Math.max(1, reach / 4)) {
    columns.push(Math.round(Math.cos(angle) * t));
    rows.push(-Math.round(Math.sin(angle) * t));
  }
  return { columns, rows, steps: Int32Array.from(columns, (c, k) => rows[k] * width + c) };
}
