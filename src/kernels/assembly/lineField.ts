// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: the strongest ridge and groove through each cell, as
// core/condition/marks/lines/lineField.ts finds them plainly, which is the referee. Four cells in four float32 lanes; means along a
// direction are added up in float32, so they are the referee's but for that rounding. lineField.ts beside this folder lays grids out.

/** Cells of a grid: all are of one size, with a margin of cells without data on every side that no step leaves. */
let cells: i32 = 0;
let first: i32 = 0;
let end: i32 = 0;

let gridsAt: usize = 0;
/** Across one direction: ridge and groove, and all ones where there is data on both sides of all grids. */
let ridgeAt: usize = 0;
let grooveAt: usize = 0;
let validAt: usize = 0;
/** The best of all directions: means and numbers of directions (int32). */
let bestRidgeAt: usize = 0;
let bestGrooveAt: usize = 0;
let ridgeAlongAt: usize = 0;
let grooveAlongAt: usize = 0;

/** Cells from `from` to `to` hold all that carry data; `at` is the first of grids and what follows, each of `count` four-byte cells. */
export function take(count: i32, from: i32, to: i32, at: usize, grids: i32): void {
  cells = count;
  first = from;
  end = to;
  const one = 4 * usize(count);
  gridsAt = at;
  ridgeAt = at + usize(grids) * one;
  grooveAt = ridgeAt + one;
  validAt = grooveAt + one;
  bestRidgeAt = validAt + one;
  bestGrooveAt = bestRidgeAt + one;
  ridgeAlongAt = bestGrooveAt + one;
  grooveAlongAt = ridgeAlongAt + one;
}

/** Ridge and groove between the cells `step` before and after each; the least of `grids` (heights NaN without data). */
export function across(grids: i32, step: i32): void {
  const s = 4 * step;
  const zero = f32x4.splat(0);
  for (let at = 4 * usize(first); at < 4 * usize(end); at += 16) {
    let ridge = f32x4.splat(Infinity);
    let groove = f32x4.splat(Infinity);
    let valid = i32x4.splat(-1);
    for (let g = 0; g < grids; g++) {
      const z = gridsAt + 4 * usize(g) * usize(cells) + at;
      const here = v128.load(z);
      const one = v128.load(usize(i32(z) + s));
      const two = v128.load(usize(i32(z) - s));
      const sum = f32x4.add(here, f32x4.add(one, two));
      valid = v128.and(valid, f32x4.eq(sum, sum));
      ridge = f32x4.pmin(ridge, f32x4.sub(here, f32x4.max(one, two)));
      groove = f32x4.pmin(groove, f32x4.sub(f32x4.min(one, two), here));
    }
    v128.store(validAt + at, valid);
    v128.store(ridgeAt + at, v128.bitselect(ridge, zero, valid));
    v128.store(grooveAt + at, v128.bitselect(groove, zero, valid));
  }
}

/** Steps along a direction, in bytes (int32). */
const stepsAt: usize = 1024;

/** Keeps direction k where a mean along it, over `least` valid cells or more of the `count`, is the best so far. */
export function along(count: i32, least: i32, k: i32, ridgesOnly: bool): void {
  average(ridgeAt, bestRidgeAt, ridgeAlongAt, count, least, k);
  if (!ridgesOnly) average(grooveAt, bestGrooveAt, grooveAlongAt, count, least, k);
}

function average(values: usize, best: usize, alongAt: usize, count: i32, least: i32, k: i32): void {
  const zero = f32x4.splat(0);
  const enough = i32x4.splat(least);
  const direction = i32x4.splat(k);
  for (let at = 4 * usize(first); at < 4 * usize(end); at += 16) {
    // A cell that is no crest itself is none of the line's. (Where it is not valid its value is 0.)
    const crest = f32x4.gt(v128.load(values + at), zero);
    if (!v128.any_true(crest)) continue;
    let n = i32x4.splat(0);
    let sum = zero;
    for (let t = 0; t < count; t++) {
      const j = i32(at) + load<i32>(stepsAt + 4 * usize(t));
      n = i32x4.sub(n, v128.load(validAt + usize(j)));
      sum = f32x4.add(sum, v128.load(values + usize(j)));
    }
    const mean = f32x4.div(sum, f32x4.convert_i32x4_s(n));
    const before = v128.load(best + at);
    const better = v128.and(v128.and(crest, i32x4.ge_s(n, enough)), f32x4.gt(mean, before));
    if (!v128.any_true(better)) continue;
    v128.store(best + at, v128.bitselect(mean, before, better));
    v128.store(alongAt + at, v128.bitselect(direction, v128.load(alongAt + at), better));
  }
}
