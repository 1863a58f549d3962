// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: cells beside a plane, as `planeCellsPlainly` of core/face/planeCells.ts
// does it, which is the referee: the same operations in the same order on float64, so the answers are the same numbers. plane.ts beside
// this folder lays the picture out in the memory.

/** a, b and c of a plane z = a + b x + c y fitted to the cells. */
const planeAt: usize = 512;
/** float32 heights of the picture; then where it has data, a byte each. */
const heightsAt: usize = 1024;

/** Every cell with data as x, y, z, float64, from `cellsAt` on; their number. */
export function lay(width: i32, height: i32, left: f64, top: f64, pitch: f64, cellsAt: usize): i32 {
  const maskAt = heightsAt + 4 * usize(width) * usize(height);
  let to = cellsAt;
  for (let row = 0; row < height; row++) {
    const y = top - f64(row) * pitch;
    for (let col = 0; col < width; col++) {
      const i = usize(row * width + col);
      if (!load<u8>(maskAt + i)) continue;
      store<f64>(to, left + f64(col) * pitch);
      store<f64>(to, y, 8);
      store<f64>(to, f64(load<f32>(heightsAt + 4 * i)), 16);
      to += 24;
    }
  }
  return i32((to - cellsAt) / 24);
}

/** Of every `step`-th cell, how many lie within `tolerance` of the plane; fewer where they could not be more than `most`. */
export function inliers(cellsAt: usize, count: i32, a: f64, b: f64, c: f64, tolerance: f64, step: i32, most: i32): i32 {
  let found = 0;
  for (let from = 0; from < count; from += 256 * step) {
    if (f64(found) + f64(count - from) / f64(step) < f64(most)) break;
    const to = min(count, from + 256 * step);
    for (let i = from; i < to; i += step) {
      const at = cellsAt + 24 * usize(i);
      const height = a + b * load<f64>(at) + c * load<f64>(at, 8);
      if (Math.abs(load<f64>(at, 16) - height) < tolerance) found++;
    }
  }
  return found;
}

/** The plane of least squares by Tukey's weights, none from `reach` off the last plane on; 0 where the cells do not tell one. */
export function refine(cellsAt: usize, count: i32, a: f64, b: f64, c: f64, reach: f64): i32 {
  let w: f64 = 0;
  let wx: f64 = 0;
  let wy: f64 = 0;
  let wz: f64 = 0;
  let wxx: f64 = 0;
  let wxy: f64 = 0;
  let wyy: f64 = 0;
  let wxz: f64 = 0;
  let wyz: f64 = 0;
  const end = cellsAt + 24 * usize(count);
  for (let at = cellsAt; at < end; at += 24) {
    const x = load<f64>(at);
    const y = load<f64>(at, 8);
    const z = load<f64>(at, 16);
    const off = Math.abs(z - (a + b * x + c * y)) / reach;
    if (!(off < 1)) continue;
    const root = 1 - off * off;
    const weight = root * root;
    w += weight;
    wx += weight * x;
    wy += weight * y;
    wz += weight * z;
    wxx += weight * x * x;
    wxy += weight * x * y;
    wyy += weight * y * y;
    wxz += weight * x * z;
    wyz += weight * y * z;
  }
  const sxx = wxx - (wx * wx) / w;
  const sxy = wxy - (wx * wy) / w;
  const syy = wyy - (wy * wy) / w;
  const sxz = wxz - (wx * wz) / w;
  const syz = wyz - (wy * wz) / w;
  const det = sxx * syy - sxy * sxy;
  if (!(Math.abs(det) > 1e-12)) return 0;
  const slope = (sxz * syy - syz * sxy) / det;
  const rise = (syz * sxx - sxz * sxy) / det;
  store<f64>(planeAt, (wz - slope * wx - rise * wy) / w);
  store<f64>(planeAt, slope, 8);
  store<f64>(planeAt, rise, 16);
  return 1;
}
