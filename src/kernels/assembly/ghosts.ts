// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: how well what stands up follows a ghost of the relief, as
// `agreementsPlainly` of core/condition/marks/ghosts.ts does it, which is the referee: the same operations in the same order on float64, so the
// answers are the same numbers. ghosts.ts beside this folder lays relief and cells out in the memory.

/** float32 heights of the relief, then where it has data, a byte each. */
const heightsAt: usize = 1024;

/**
 * e·p / √(e·e p·p) over every `every`-th of `count` cells (x, y, height, excess e, four float64 each, from `cellsAt` on), p the ghost's height
 * over the relief: the relief turned (cosine, sine), shifted by (dx, dy) and `weaker`.
 */
export function agreement(
  cellsAt: usize,
  count: i32,
  every: i32,
  width: i32,
  height: i32,
  pitch: f64,
  left: f64,
  top: f64,
  dx: f64,
  dy: f64,
  cos: f64,
  sin: f64,
  weaker: f64,
  clear: f64,
): f64 {
  const maskAt = heightsAt + 4 * usize(width) * usize(height);
  const end = cellsAt + 32 * usize(count);
  let ep: f64 = 0;
  let ee: f64 = 1e-9;
  let pp: f64 = 1e-9;
  for (let at = cellsAt; at < end; at += 32 * usize(every)) {
    const e = load<f64>(at, 24);
    ee += e * e;
    const x = load<f64>(at) - dx;
    const y = load<f64>(at, 8) - dy;
    const col = i32(Math.round((cos * x + sin * y - left) / pitch));
    const row = i32(Math.round((top - (cos * y - sin * x)) / pitch));
    if (u32(col) >= u32(width) || u32(row) >= u32(height)) continue;
    const i = usize(row * width + col);
    if (!load<u8>(maskAt + i)) continue;
    const p = Math.max(0, weaker * f64(load<f32>(heightsAt + 4 * i)) - load<f64>(at, 16) - clear);
    ep += e * p;
    pp += p * p;
  }
  return ep / Math.sqrt(ee * pp);
}
