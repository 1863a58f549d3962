// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: the sums of core/fit/alignStep.ts, which is the referee.
// The same operations in the same order on float64, two sums abreast, so the answers are the same numbers.
// alignStep.ts beside this folder lays the signals out in the memory.

/** Six numbers that take a place of the reference to cells of the subject, and the sign. */
const askAt: usize = 1024;
const outAt: usize = 1152;

let cells: i32 = 0;
let xAt: usize = 0;
let yAt: usize = 0;
let valueAt: usize = 0;
/** Four a cell. */
let slopesAt: usize = 0;
/** The subject's values, NaN where it has none. */
let seenAt: usize = 0;
let size: i32 = 0;

/** Tells the kernel where its arrays stand. */
export function take(count: i32, x: usize, y: usize, value: usize, slopes: usize, seen: usize, side: i32): void {
  cells = count;
  xAt = x;
  yAt = y;
  valueAt = value;
  slopesAt = slopes;
  seenAt = seen;
  size = side;
}

/** The sums under the motion at `askAt`, left at `outAt` in the order of core/fit/alignStep.ts. */
export function sums(): void {
  const ux = load<f64>(askAt);
  const uy = load<f64>(askAt, 8);
  const u0 = load<f64>(askAt, 16);
  const vx = load<f64>(askAt, 24);
  const vy = load<f64>(askAt, 32);
  const v0 = load<f64>(askAt, 40);
  const sign = load<f64>(askAt, 48);
  const middle = f64(size - 1) / 2;
  const last = size - 1;
  const below = 4 * usize(size);
  let n: f64 = 0;
  const zero = f64x2.splat(0);
  let sab = zero;
  let aab = zero;
  let bab = zero;
  let s01 = zero;
  let s23 = zero;
  let a01 = zero;
  let a23 = zero;
  let b01 = zero;
  let b23 = zero;
  let h0 = zero;
  let h0b = zero;
  let h1 = zero;
  let h1b = zero;
  let h2b = zero;
  let h3b = zero;
  for (let k = 0; k < cells; k++) {
    const at = 4 * usize(k);
    const x = f64(load<f32>(xAt + at));
    const y = f64(load<f32>(yAt + at));
    const u = ux * x + uy * y + u0 + middle;
    const v = middle - (vx * x + vy * y + v0);
    const fromU = Math.floor(u);
    const fromV = Math.floor(v);
    const col = i32(fromU);
    const row = i32(fromV);
    if (col < 0 || row < 0 || col >= last || row >= last) continue;
    const i = seenAt + 4 * usize(row * size + col);
    const fu = u - fromU;
    const fv = v - fromV;
    const b =
      sign *
      ((1 - fv) * ((1 - fu) * f64(load<f32>(i)) + fu * f64(load<f32>(i, 4))) +
        fv * ((1 - fu) * f64(load<f32>(i + below)) + fu * f64(load<f32>(i + below, 4))));
    if (!(abs(b) <= Infinity)) continue;
    const a = f64(load<f32>(valueAt + at));
    const slopes = v128.load(slopesAt + 4 * at);
    const j01 = f64x2.promote_low_f32x4(slopes);
    const j23 = f64x2.promote_low_f32x4(v128.shuffle<f32>(slopes, slopes, 2, 3, 2, 3));
    const aa = f64x2.splat(a);
    const bb = f64x2.splat(b);
    const ab = f64x2.replace_lane(aa, 1, b);
    n += 1;
    sab = f64x2.add(sab, ab);
    aab = f64x2.add(aab, f64x2.mul(ab, aa));
    bab = f64x2.add(bab, f64x2.mul(ab, bb));
    s01 = f64x2.add(s01, j01);
    s23 = f64x2.add(s23, j23);
    a01 = f64x2.add(a01, f64x2.mul(j01, aa));
    a23 = f64x2.add(a23, f64x2.mul(j23, aa));
    b01 = f64x2.add(b01, f64x2.mul(j01, bb));
    b23 = f64x2.add(b23, f64x2.mul(j23, bb));
    const j0 = v128.shuffle<f64>(j01, j01, 0, 0);
    const j1 = v128.shuffle<f64>(j01, j01, 1, 1);
    h0 = f64x2.add(h0, f64x2.mul(j0, j01));
    h0b = f64x2.add(h0b, f64x2.mul(j0, j23));
    h1 = f64x2.add(h1, f64x2.mul(j1, j01));
    h1b = f64x2.add(h1b, f64x2.mul(j1, j23));
    h2b = f64x2.add(h2b, f64x2.mul(v128.shuffle<f64>(j23, j23, 0, 0), j23));
    h3b = f64x2.add(h3b, f64x2.mul(v128.shuffle<f64>(j23, j23, 1, 1), j23));
  }
  store<f64>(outAt, n);
  v128.store(outAt, sab, 8);
  // Σa², Σab, Σb².
  v128.store(outAt, aab, 24);
  store<f64>(outAt, f64x2.extract_lane(bab, 1), 40);
  v128.store(outAt, s01, 48);
  v128.store(outAt, s23, 64);
  v128.store(outAt, a01, 80);
  v128.store(outAt, a23, 96);
  v128.store(outAt, b01, 112);
  v128.store(outAt, b23, 128);
  v128.store(outAt, h0, 144);
  v128.store(outAt, h0b, 160);
  v128.store(outAt, v128.shuffle<f64>(h0, h1, 1, 3), 176);
  v128.store(outAt, h1b, 192);
  v128.store(outAt, v128.shuffle<f64>(h0b, h1b, 0, 2), 208);
  v128.store(outAt, h2b, 224);
  v128.store(outAt, v128.shuffle<f64>(h0b, h1b, 1, 3), 240);
  v128.store(outAt, v128.shuffle<f64>(h2b, h3b, 1, 3), 256);
}
