import { type HeightGrid, sampleCells, type Vec2 } from '../geometry/index.ts';

export const wallCourseDefaults = {
  /** Directions round the middle. */
  directions: 120,
  /** Heights are compared over this share of the size on either side of a place. */
  beside: 0.045,
  /** A step up is what this share of the heights outside exceeds, less what this share of those inside stays below: no stroke is one. */
  outside: 0.2,
  inside: 0.8,
  /** A step counts in multiples of the relief's own strength, within these limits and less what a place must be worth to be sought. */
  least: -2,
  most: 4,
  worth: 0.7,
  /** No wall is nearer to the middle than this share of the size. */
  nearest: 0.08,
  /** The course may run so much outward for its length around. */
  steepest: 3,
  /** From such a step on a place of the course is a wall. */
  wall: 1,
};

/**
 * Where the ground steps up on the way outward, all round `middle` (column, row): the closed course with the greatest sum of steps, found by dynamic
 * programming over directions (Bellman 1957), and of it the places that are a wall. Where data end a course costs nothing: a broken
 * side has no wall. `strength`: root mean square relief, mm.
 */
export function wallPlaces(
  grid: HeightGrid,
  middle: Vec2,
  strength: number,
  size: number,
  options = wallCourseDefaults,
): Vec2[] {
  const { directions, nearest, least, most, worth } = options;
  const steps = smoothedRound(stepsRound(grid, middle, size, options), strength);
  const gains = steps.map((ray) =>
    ray.map((step, r) => (r < nearest * size ? -5 : Number.isNaN(step) ? 0 : clamp(step, least, most) - worth)),
  );
  const reach = Array.from({ length: gains[0].length }, (_, r) =>
    Math.max(2, Math.ceil((options.steepest * r * 2 * Math.PI) / directions)),
  );
  const course = bestCourse(gains, reach);
  return [...course].flatMap((r, k): Vec2[] =>
    steps[k][r] > options.wall ? [placeOf(middle, r, k / directions)] : [],
  );
}

const clamp = (value: number, least: number, most: number): number => Math.min(most, Math.max(least, value));

const placeOf = ([x, y]: Vec2, r: number, turn: number): Vec2 => [
  x + r * Math.cos(2 * Math.PI * turn),
  y + r * Math.sin(2 * Math.PI * turn),
];

/** Steps up, mm, by direction and distance in cells; NaN where either side lacks data. */
function stepsRound(grid: HeightGrid, middle: Vec2, size: number, options: typeof wallCourseDefaults): Float64Array[] {
  const beside = Math.max(3, Math.round(options.beside * size));
  const [x, y] = middle;
  const distances = Math.ceil(Math.hypot(Math.max(x, grid.width - x), Math.max(y, grid.height - y)));
  return Array.from({ length: options.directions }, (_, k) => {
    const heights = Float64Array.from({ length: distances }, (__, r) =>
      sampleCells(grid, ...placeOf(middle, r, k / options.directions)),
    );
    return stepsAlong(heights, beside, Math.floor(options.outside * beside), Math.floor(options.inside * beside));
  });
}

/** Steps along a ray between so many heights to either side, `low` and `high` the ranks that are taken of those outside and inside. */
function stepsAlong(heights: Float64Array, beside: number, low: number, high: number): Float64Array {
  const steps = new Float64Array(heights.length).fill(Number.NaN);
  const scratch = new Float64Array(beside);
  for (let r = beside; r + beside < heights.length; r++)
    steps[r] = ranked(heights, r + 1, low, scratch) - ranked(heights, r - beside, high, scratch);
  return steps;
}

/** The height of a rank among as many as `scratch` holds from one on; NaN where one of them is. */
function ranked(heights: Float64Array, from: number, rank: number, scratch: Float64Array): number {
  for (let n = 0; n < scratch.length; n++) {
    const height = heights[from + n];
    if (Number.isNaN(height)) return height;
    let at = n;
    for (; at > 0 && scratch[at - 1] > height; at--) scratch[at] = scratch[at - 1];
    scratch[at] = height;
  }
  return scratch[rank];
}

/** Over neighbouring directions, two to either side. */
const smoothing = [0.054, 0.244, 0.404, 0.244, 0.054];

/** Smoothed over neighbouring directions, in multiples of the relief's strength; NaN stays where it is and counts as no step beside it. */
function smoothedRound(rays: readonly Float64Array[], strength: number): Float64Array[] {
  const n = rays.length;
  return rays.map((ray, k) => {
    const sum = new Float64Array(ray.length);
    for (let j = -2; j <= 2; j++) {
      const beside = rays[(k + j + n) % n];
      const weight = smoothing[j + 2] / strength;
      for (let r = 0; r < sum.length; r++) if (!Number.isNaN(beside[r])) sum[r] += weight * beside[r];
    }
    for (let r = 0; r < sum.length; r++) if (Number.isNaN(ray[r])) sum[r] = Number.NaN;
    return sum;
  });
}

/** Distance by direction of the closed course of greatest gain; from direction to direction it moves by at most `reach` of where it arrives. */
function bestCourse(gains: readonly Float64Array[], reach: readonly number[]): Int32Array {
  const n = gains.length;
  const distances = reach.length;
  let best = new Float64Array(distances);
  const from: Int16Array[] = [];
  // Three times round, of which the one between is taken: it starts where it ends.
  for (let k = 0; k < 3 * n; k++) {
    const next = new Float64Array(distances);
    const came = new Int16Array(distances);
    for (let r = 0; r < distances; r++) {
      let at = r;
      for (let q = Math.max(0, r - reach[r]); q <= Math.min(distances - 1, r + reach[r]); q++)
        if (best[q] > best[at]) at = q;
      next[r] = best[at] + gains[k % n][r];
      came[r] = at;
    }
    from.push(came);
    best = next;
  }
  const course = new Int32Array(n);
  let at = best.indexOf(Math.max(...best));
  for (let k = 3 * n - 1; k >= n; k--) {
    if (k < 2 * n) course[k - n] = at;
    at = from[k][at];
  }
  return course;
}
