// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: the sums of core/fit/alignStep.ts, which is the referee.
// Four cells in four float32 lanes; after each 64 fours the lanes' sums go into float64, so that the answers are the referee's but for
// float32's rounding of places and products. alignStep.ts beside this folder lays the signals out in the memory.

/** Six numbers that take a place of the reference to cells of the subject, and the sign. */
const askAt: usize = 1024;
const outAt: usize = 1152;

/** A multiple of four; those past the last lie far outside. */
let cells: i32 = 0;
/** x, y, value and four slopes, each an array of its own. */
let xAt: usize = 0;
let yAt: usize = 0;
let valueAt: usize = 0;
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

/** Cells from one flush of the lanes to the next. */
const flushed: i32 = 256;

/** The sums under the motion at `askAt`, left at `outAt` in the order of core/fit/alignStep.ts. */
export function sums(): void {
  memory.fill(outAt, 0, 8 * 34);
  for (let from = 0; from < cells; from += flushed) sumsOf(from, min(cells, from + flushed));
  // ΣJJᵀ is symmetric.
  for (let r: usize = 1; r < 4; r++)
    for (let c: usize = 0; c < r; c++)
      store<f64>(outAt + 8 * (18 + 4 * r + c), load<f64>(outAt + 8 * (18 + 4 * c + r)));
}

function sumsOf(from: i32, to: i32): void {
  const ux = f32x4.splat(f32(load<f64>(askAt)));
  const uy = f32x4.splat(f32(load<f64>(askAt, 8)));
  const middle = f64(size - 1) / 2;
  const u0 = f32x4.splat(f32(load<f64>(askAt, 16) + middle));
  const vx = f32x4.splat(f32(-load<f64>(askAt, 24)));
  const vy = f32x4.splat(f32(-load<f64>(askAt, 32)));
  const v0 = f32x4.splat(f32(middle - load<f64>(askAt, 40)));
  const sign = f32x4.splat(f32(load<f64>(askAt, 48)));
  const last = i32x4.splat(size - 1);
  const width = i32x4.splat(size);
  const below = 4 * usize(size);
  const array = 4 * usize(cells);
  const zero = f32x4.splat(0);
  let n = i32x4.splat(0);
  let sa = zero;
  let sb = zero;
  let saa = zero;
  let sab = zero;
  let sbb = zero;
  let s0 = zero;
  let s1 = zero;
  let s2 = zero;
  let s3 = zero;
  let a0 = zero;
  let a1 = zero;
  let a2 = zero;
  let a3 = zero;
  let b0 = zero;
  let b1 = zero;
  let b2 = zero;
  let b3 = zero;
  let h00 = zero;
  let h01 = zero;
  let h02 = zero;
  let h03 = zero;
  let h11 = zero;
  let h12 = zero;
  let h13 = zero;
  let h22 = zero;
  let h23 = zero;
  let h33 = zero;
  for (let k = from; k < to; k += 4) {
    const at = 4 * usize(k);
    const x = v128.load(xAt + at);
    const y = v128.load(yAt + at);
    const u = f32x4.add(f32x4.add(f32x4.mul(ux, x), f32x4.mul(uy, y)), u0);
    const v = f32x4.add(f32x4.add(f32x4.mul(vx, x), f32x4.mul(vy, y)), v0);
    const fromU = f32x4.floor(u);
    const fromV = f32x4.floor(v);
    const col = i32x4.trunc_sat_f32x4_s(fromU);
    const row = i32x4.trunc_sat_f32x4_s(fromV);
    let on = v128.and(i32x4.lt_u(col, last), i32x4.lt_u(row, last));
    if (!v128.any_true(on)) continue;
    const place = i32x4.shl(v128.and(i32x4.add(i32x4.mul(row, width), col), on), 2);
    const p0 = seenAt + usize(u32(i32x4.extract_lane(place, 0)));
    const p1 = seenAt + usize(u32(i32x4.extract_lane(place, 1)));
    const p2 = seenAt + usize(u32(i32x4.extract_lane(place, 2)));
    const p3 = seenAt + usize(u32(i32x4.extract_lane(place, 3)));
    // Of each cell the value and its right neighbour's, here and in the row below.
    const up01 = v128.shuffle<i64>(v128.load64_zero(p0), v128.load64_zero(p1), 0, 2);
    const up23 = v128.shuffle<i64>(v128.load64_zero(p2), v128.load64_zero(p3), 0, 2);
    const low01 = v128.shuffle<i64>(v128.load64_zero(p0 + below), v128.load64_zero(p1 + below), 0, 2);
    const low23 = v128.shuffle<i64>(v128.load64_zero(p2 + below), v128.load64_zero(p3 + below), 0, 2);
    const fu = f32x4.sub(u, fromU);
    const fv = f32x4.sub(v, fromV);
    const upper = between(v128.shuffle<f32>(up01, up23, 0, 2, 4, 6), v128.shuffle<f32>(up01, up23, 1, 3, 5, 7), fu);
    const lower = between(v128.shuffle<f32>(low01, low23, 0, 2, 4, 6), v128.shuffle<f32>(low01, low23, 1, 3, 5, 7), fu);
    let b = f32x4.mul(sign, between(upper, lower, fv));
    on = v128.and(on, f32x4.eq(b, b));
    b = v128.and(b, on);
    const a = v128.and(v128.load(valueAt + at), on);
    const j0 = v128.and(v128.load(slopesAt + at), on);
    const j1 = v128.and(v128.load(slopesAt + array + at), on);
    const j2 = v128.and(v128.load(slopesAt + 2 * array + at), on);
    const j3 = v128.and(v128.load(slopesAt + 3 * array + at), on);
    n = i32x4.sub(n, on);
    sa = f32x4.add(sa, a);
    sb = f32x4.add(sb, b);
    saa = f32x4.add(saa, f32x4.mul(a, a));
    sab = f32x4.add(sab, f32x4.mul(a, b));
    sbb = f32x4.add(sbb, f32x4.mul(b, b));
    s0 = f32x4.add(s0, j0);
    s1 = f32x4.add(s1, j1);
    s2 = f32x4.add(s2, j2);
    s3 = f32x4.add(s3, j3);
    a0 = f32x4.add(a0, f32x4.mul(j0, a));
    a1 = f32x4.add(a1, f32x4.mul(j1, a));
    a2 = f32x4.add(a2, f32x4.mul(j2, a));
    a3 = f32x4.add(a3, f32x4.mul(j3, a));
    b0 = f32x4.add(b0, f32x4.mul(j0, b));
    b1 = f32x4.add(b1, f32x4.mul(j1, b));
    b2 = f32x4.add(b2, f32x4.mul(j2, b));
    b3 = f32x4.add(b3, f32x4.mul(j3, b));
    h00 = f32x4.add(h00, f32x4.mul(j0, j0));
    h01 = f32x4.add(h01, f32x4.mul(j0, j1));
    h02 = f32x4.add(h02, f32x4.mul(j0, j2));
    h03 = f32x4.add(h03, f32x4.mul(j0, j3));
    h11 = f32x4.add(h11, f32x4.mul(j1, j1));
    h12 = f32x4.add(h12, f32x4.mul(j1, j2));
    h13 = f32x4.add(h13, f32x4.mul(j1, j3));
    h22 = f32x4.add(h22, f32x4.mul(j2, j2));
    h23 = f32x4.add(h23, f32x4.mul(j2, j3));
    h33 = f32x4.add(h33, f32x4.mul(j3, j3));
  }
  const counted =
    i32x4.extract_lane(n, 0) + i32x4.extract_lane(n, 1) + i32x4.extract_lane(n, 2) + i32x4.extract_lane(n, 3);
  store<f64>(outAt, load<f64>(outAt) + f64(counted));
  addTo(1, sa);
  addTo(2, sb);
  addTo(3, saa);
  addTo(4, sab);
  addTo(5, sbb);
  addTo(6, s0);
  addTo(7, s1);
  addTo(8, s2);
  addTo(9, s3);
  addTo(10, a0);
  addTo(11, a1);
  addTo(12, a2);
  addTo(13, a3);
  addTo(14, b0);
  addTo(15, b1);
  addTo(16, b2);
  addTo(17, b3);
  addTo(18, h00);
  addTo(19, h01);
  addTo(20, h02);
  addTo(21, h03);
  addTo(23, h11);
  addTo(24, h12);
  addTo(25, h13);
  addTo(28, h22);
  addTo(29, h23);
  addTo(33, h33);
}

function between(a: v128, b: v128, share: v128): v128 {
  return f32x4.add(a, f32x4.mul(share, f32x4.sub(b, a)));
}

function addTo(k: usize, lanes: v128): void {
  const pairs = f64x2.add(
    f64x2.promote_low_f32x4(lanes),
    f64x2.promote_low_f32x4(v128.shuffle<f32>(lanes, lanes, 2, 3, 2, 3)),
  );
  const at = outAt + 8 * k;
  store<f64>(at, load<f64>(at) + f64x2.extract_lane(pairs, 0) + f64x2.extract_lane(pairs, 1));
}
