// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: the power of one wave along a few rows, as core/design/legend/ringWaves.ts
// sums it plainly, which is the referee. Two rows in two float64 lanes, each summed in the same order, so the answers are the same numbers.
// The turning vector is carried along once for all rows. ringWaves.ts beside this folder lays the rows out in the memory.

/** Column after column, six float64 each: that many rows, those beyond the last are 0. */
const rowsAt: usize = 65_536;
const columnBytes: usize = 48;
/** Powers of the six rows, float64. */
const outAt: usize = 1024;

/** |Σ z exp(i c t)|² of every row, exp(i t) = stepC + i stepS. */
export function wave(columns: i32, stepC: f64, stepS: f64): void {
  let re0 = f64x2.splat(0);
  let re1 = re0;
  let re2 = re0;
  let im0 = re0;
  let im1 = re0;
  let im2 = re0;
  let c: f64 = 1;
  let s: f64 = 0;
  const end = rowsAt + columnBytes * usize(columns);
  for (let at = rowsAt; at < end; at += columnBytes) {
    const cc = f64x2.splat(c);
    const ss = f64x2.splat(s);
    const a = v128.load(at);
    const b = v128.load(at, 16);
    const d = v128.load(at, 32);
    re0 = f64x2.add(re0, f64x2.mul(a, cc));
    im0 = f64x2.add(im0, f64x2.mul(a, ss));
    re1 = f64x2.add(re1, f64x2.mul(b, cc));
    im1 = f64x2.add(im1, f64x2.mul(b, ss));
    re2 = f64x2.add(re2, f64x2.mul(d, cc));
    im2 = f64x2.add(im2, f64x2.mul(d, ss));
    const next = c * stepC - s * stepS;
    s = c * stepS + s * stepC;
    c = next;
  }
  v128.store(outAt, squared(re0, im0));
  v128.store(outAt, squared(re1, im1), 16);
  v128.store(outAt, squared(re2, im2), 32);
}

function squared(re: v128, im: v128): v128 {
  return f64x2.add(f64x2.mul(re, re), f64x2.mul(im, im));
}
