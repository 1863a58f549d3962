import {
  countCells,
  distanceTransform,
  erode,
  everyNth,
  gaussianFilter,
  type HeightGrid,
  quantile,
  removeForm,
  stepAcross,
  type Vec2,
} from '../geometry/index.ts';
import { wallCourseDefaults, wallPlaces } from './wallCourse.ts';
import { beyondSide, type WallHull, type WallSide, wallHull, withinSides } from './wallSides.ts';

export const wallDefaults = {
  /** Cells along a side at most: a wall is a coarse form. */
  mostAcross: 128,
  /** Relief is what is left without waves longer than this share of the size, up to its own highest tenth. */
  wave: 2 / 15,
  highest: 0.9,
  /** With a wall in fewer directions than this share there is none. */
  leastPlaces: 0.1,
  /** A place lies on the hull of all of them within this share of the size; a side of the hull is wall where no gap is wider than this. */
  onHull: 0.02,
  gap: 0.12,
  /** So much of the hull's length is wall, and it holds so much of the face. */
  leastWall: 0.5,
  leastArea: 0.3,
  /**
   * Waves of this share of the wall's width, a letter's strokes and no lip's, so far from the wall and the edge (shares of the size): beyond a side, where
   * there is more than a sliver, they are at most so strong as within.
   */
  fine: 1 / 22,
  apart: 0.025,
  strong: 0.98,
  sliver: 0.02,
  plain: 0.6,
};

/**
 * The cells beyond the wall that a matrix left in a cake of wax wider than itself; all 0 where there is no such wall. What was printed lies lower than the
 * wax around, up to a step that runs all round it but for what is broken off. Matrices of seals are convex, so that what lies beyond the line of
 * any side of the wall is none of their image.
 */
export function beyondWall(grid: HeightGrid, sizeMm: number, options = wallDefaults): Uint8Array {
  const step = stepAcross(grid, options.mostAcross);
  const field = removeForm(everyNth(grid, step), 2).detail;
  const relief = reliefOf(field, sizeMm, options);
  const hull = relief && hullOfWall(field, relief, sizeMm / field.pitch, options);
  const none = new Uint8Array(grid.mask.length);
  if (!hull) return none;
  const sides = plainBeyond(grid, hull, step, sizeMm, options);
  if (sides.reduce((sum, { length }) => sum + length, 0) < options.leastWall * hull.length) return none;
  const inside = withinSides(grid, sides, 1 / step);
  return grid.mask.map((there, i) => (there && !inside[i] ? 1 : 0));
}

/** The hull of the wall round where the relief is, sought once more from the middle of what it holds. */
function hullOfWall(
  field: HeightGrid,
  relief: Float64Array,
  size: number,
  options: typeof wallDefaults,
): WallHull | null {
  const strength = Math.sqrt(
    relief.reduce((sum, value) => sum + value, 0) / relief.filter((value) => value > 0).length,
  );
  const leastArea = options.leastArea * countCells(field.mask);
  let hull: WallHull | null = null;
  for (let held = relief, round = 0; round < 2; round++) {
    const places = wallPlaces(field, middleOf(held, field.width), strength, size);
    if (places.length < options.leastPlaces * wallCourseDefaults.directions) return null;
    hull = wallHull(places, options.onHull * size, options.gap * size);
    if (!hull || hull.area < leastArea) return null;
    const inside = withinSides(field, hull.sides);
    held = relief.map((value, i) => (inside[i] ? value : 0));
    if (!held.some((value) => value > 0)) return null;
  }
  return hull;
}

/** Squares of the heights in short waves, away from the edge and up to their highest tenth; null where there are none. */
function reliefOf(field: HeightGrid, sizeMm: number, options: typeof wallDefaults): Float64Array | null {
  const long = gaussianFilter(field, options.wave * sizeMm).z;
  const inner = erode(field.mask, field.width, Math.max(2, Math.round(sizeMm / field.pitch / 60)));
  const squares = Float64Array.from(field.z, (z, i) => (inner[i] ? (z - long[i]) ** 2 : 0));
  const known = squares.filter((_, i) => inner[i]);
  const most = known.length > 0 ? quantile(known, options.highest) : 0;
  return most > 0 ? squares.map((value) => Math.min(value, most)) : null;
}

/** Column and row that halve the relief. */
function middleOf(relief: Float64Array, width: number): Vec2 {
  const columns = new Float64Array(width);
  const rows = new Float64Array(relief.length / width);
  relief.forEach((value, i) => {
    columns[i % width] += value;
    rows[Math.floor(i / width)] += value;
  });
  return [halfOf(columns), halfOf(rows)];
}

function halfOf(weights: Float64Array): number {
  const half = weights.reduce((sum, value) => sum + value, 0) / 2;
  let sum = 0;
  return weights.findIndex((value) => {
    sum += value;
    return sum >= half;
  });
}

/** The sides beyond which nothing is engraved: fine relief is weak there, beside what is within all of them. `step`: cells of the grid to one of the wall's. */
function plainBeyond(
  grid: HeightGrid,
  hull: WallHull,
  step: number,
  sizeMm: number,
  options: typeof wallDefaults,
): WallSide[] {
  const { width, pitch } = grid;
  const apart = (options.apart * sizeMm) / pitch;
  const smooth = gaussianFilter(grid, options.fine * Math.sqrt((4 / Math.PI) * hull.area) * step * pitch).z;
  const away = erode(grid.mask, width, Math.max(2, Math.round(apart)));
  const cells = [...away.keys()].filter((i) => away[i]);
  const strength = (found: readonly number[]): number =>
    quantile(
      found.map((i) => Math.abs(grid.z[i] - smooth[i])),
      options.strong,
    );
  const depth = distanceTransform(withinSides(grid, hull.sides, 1 / step), width);
  const inner = cells.filter((i) => depth[i] > apart);
  if (inner.length === 0) return [];
  const most = options.plain * strength(inner);
  return hull.sides.filter((side) => {
    const beyond = cells.filter(
      (i) => step * beyondSide(side, (i % width) / step, Math.floor(i / width) / step) > apart,
    );
    return beyond.length < options.sliver * cells.length || strength(beyond) <= most;
  });
}
