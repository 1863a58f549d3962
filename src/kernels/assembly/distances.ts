// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: distances to the nearest cell outside a region, as `distancesPlainly` of
// core/geometry/grid/distanceTransform.ts finds them, which is the referee: the same operations in the same order, so the answers are the same
// numbers. distances.ts beside this folder lays the region out in the memory.

/** By cell, a 4-byte number each: 1 within the region, then steps along the column, at last the distance, float32. */
const cellsAt: usize = 65_536;

/** Steps from each cell to the nearest outside the region in its own column. */
export function steps(width: i32, count: i32): void {
  const row: usize = 4 * usize(width);
  const end = cellsAt + 4 * usize(count);
  for (let at = cellsAt + row; at < end; at += 4) if (load<i32>(at)) store<i32>(at, load<i32>(at - row) + 1);
  for (let at = end - row; at < end; at += 4) if (load<i32>(at)) store<i32>(at, 1);
  for (let at = end - row - 4; at >= cellsAt; at -= 4) store<i32>(at, min(load<i32>(at), load<i32>(at + row) + 1));
}

/** Distances in rows `first` to `last`; a line's squares, parabolas and their beginnings stand from `lineAt` on. */
export function rows(width: i32, first: i32, last: i32, lineAt: usize): void {
  const n = width + 2;
  const fromAt = lineAt + 8 * usize(n);
  const apexAt = fromAt + 8 * usize(n);
  store<f64>(lineAt, 0);
  store<f64>(lineAt + 8 * usize(n - 1), 0);
  for (let row = first; row < last; row++) {
    const cells = cellsAt + 4 * usize(row) * usize(width);
    for (let col: usize = 0; col < usize(width); col++) {
      const down = f64(load<i32>(cells + 4 * col));
      store<f64>(lineAt + 8 * (col + 1), down * down);
    }
    distancesAlong(n, lineAt, fromAt, apexAt, cells - 4);
  }
}

/** √ min over q of (p − q)² + f(q), float32 from `out` on but for both ends. */
function distancesAlong(n: i32, f: usize, from: usize, apex: usize, out: usize): void {
  let k = -1;
  for (let q = 0; q < n; q++) {
    const square = load<f64>(f + 8 * usize(q)) + f64(q) * f64(q);
    let s: f64 = -Infinity;
    for (; k >= 0; k--) {
      const p = load<i32>(apex + 4 * usize(k));
      s = (square - load<f64>(f + 8 * usize(p)) - f64(p) * f64(p)) / f64(2 * (q - p));
      if (s > load<f64>(from + 8 * usize(k))) break;
    }
    k++;
    store<i32>(apex + 4 * usize(k), q);
    store<f64>(from + 8 * usize(k), k === 0 ? -Infinity : s);
  }
  for (let p = 1, at = 0; p < n - 1; p++) {
    while (at < k && load<f64>(from + 8 * usize(at + 1)) < f64(p)) at++;
    const nearest = load<i32>(apex + 4 * usize(at));
    const away = f64(p - nearest);
    store<f32>(out + 4 * usize(p), f32(Math.sqrt(away * away + load<f64>(f + 8 * usize(nearest)))));
  }
}
