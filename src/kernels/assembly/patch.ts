// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: what one round of registering a patch does over its cells, as
// core/judge/patchRound.ts does it plainly, which is the referee. Four cells in four float32 lanes; the lanes' sums are added up in float64.
// patch.ts beside this folder lays subject and cells out in the memory.

/** Twenty float64: the lower triangle of JᵀWJ row by row (15), then JᵀWr (5); or what `clipped` or `agreement` sum up. */
const outAt: usize = 1024;
/** Cells that there is room for, and arrays of so many float32 each, one after another. */
const most: usize = 16_384;
const firstAt: usize = 65_536;
/** Column and row from the patch's middle; the reference's height. Past the last cell the height is NaN. */
const columnAt: usize = firstAt;
const rowAt: usize = firstAt + 4 * most;
const heightAt: usize = firstAt + 8 * most;
/** Of cells that are seen: the reference's height (NaN where unseen), the subject's and its slopes along columns and rows. */
const aAt: usize = firstAt + 12 * most;
const bAt: usize = firstAt + 16 * most;
const gxAt: usize = firstAt + 20 * most;
const gyAt: usize = firstAt + 24 * most;
const weightAt: usize = firstAt + 28 * most;
/** Deviations, for their median. */
const leftAt: usize = firstAt + 32 * most;
/** The subject's heights, NaN without data. */
const subjectAt: usize = firstAt + 36 * most;

let width: i32 = 0;
let height: i32 = 0;
/** Of this patch: cells, rounded up to fours. */
let end: usize = 0;

export function take(wide: i32, high: i32): void {
  width = wide;
  height = high;
}

/** Samples the subject under a shift of the patch about (col, row) and a turn; returns how many of the cells are seen. */
export function sample(count: i32, col: f64, row: f64, turn: f64): i32 {
  end = 16 * ((usize(count) + 3) >> 2);
  const c = f32x4.splat(f32(col));
  const r = f32x4.splat(f32(row));
  const t = f32x4.splat(f32(turn));
  const lastColumn = i32x4.splat(width - 1);
  const lastRow = i32x4.splat(height - 1);
  const wide = i32x4.splat(width);
  const below = 4 * usize(width);
  const nan = f32x4.splat(NaN);
  let seen = i32x4.splat(0);
  for (let at: usize = 0; at < end; at += 16) {
    const pc = v128.load(columnAt + at);
    const pr = v128.load(rowAt + at);
    const u = f32x4.sub(f32x4.add(c, pc), f32x4.mul(t, pr));
    const v = f32x4.add(f32x4.add(r, pr), f32x4.mul(t, pc));
    const fromU = f32x4.floor(u);
    const fromV = f32x4.floor(v);
    const c0 = i32x4.trunc_sat_f32x4_s(fromU);
    const r0 = i32x4.trunc_sat_f32x4_s(fromV);
    let on = v128.and(i32x4.lt_u(c0, lastColumn), i32x4.lt_u(r0, lastRow));
    const place = i32x4.shl(v128.and(i32x4.add(i32x4.mul(r0, wide), c0), on), 2);
    const p0 = subjectAt + usize(u32(i32x4.extract_lane(place, 0)));
    const p1 = subjectAt + usize(u32(i32x4.extract_lane(place, 1)));
    const p2 = subjectAt + usize(u32(i32x4.extract_lane(place, 2)));
    const p3 = subjectAt + usize(u32(i32x4.extract_lane(place, 3)));
    // Of each cell the height and its right neighbour's, here and in the row below.
    const up01 = v128.shuffle<i64>(v128.load64_zero(p0), v128.load64_zero(p1), 0, 2);
    const up23 = v128.shuffle<i64>(v128.load64_zero(p2), v128.load64_zero(p3), 0, 2);
    const low01 = v128.shuffle<i64>(v128.load64_zero(p0 + below), v128.load64_zero(p1 + below), 0, 2);
    const low23 = v128.shuffle<i64>(v128.load64_zero(p2 + below), v128.load64_zero(p3 + below), 0, 2);
    const p = v128.shuffle<f32>(up01, up23, 0, 2, 4, 6);
    const q = v128.shuffle<f32>(up01, up23, 1, 3, 5, 7);
    const s = v128.shuffle<f32>(low01, low23, 0, 2, 4, 6);
    const o = v128.shuffle<f32>(low01, low23, 1, 3, 5, 7);
    const fu = f32x4.sub(u, fromU);
    const fv = f32x4.sub(v, fromV);
    const b = between(between(p, q, fu), between(s, o, fu), fv);
    const a = v128.load(heightAt + at);
    on = v128.and(on, v128.and(f32x4.eq(b, b), f32x4.eq(a, a)));
    seen = i32x4.sub(seen, on);
    v128.store(aAt + at, v128.bitselect(a, nan, on));
    v128.store(bAt + at, v128.and(b, on));
    v128.store(gxAt + at, v128.and(between(f32x4.sub(q, p), f32x4.sub(o, s), fv), on));
    v128.store(gyAt + at, v128.and(between(f32x4.sub(s, p), f32x4.sub(o, q), fu), on));
  }
  return (
    i32x4.extract_lane(seen, 0) +
    i32x4.extract_lane(seen, 1) +
    i32x4.extract_lane(seen, 2) +
    i32x4.extract_lane(seen, 3)
  );
}

function between(a: v128, b: v128, share: v128): v128 {
  return f32x4.add(a, f32x4.mul(share, f32x4.sub(b, a)));
}

/** Added to σ, mm: what lies within float32 of the model is not told apart. */
const leastSigma: f64 = 1e-6;

/** Tukey weights about the median deviation, which is returned as σ. */
export function reweigh(gain: f64, level: f64): f64 {
  const k = f32x4.splat(f32(gain));
  const l = f32x4.splat(f32(level));
  let n: i32 = 0;
  for (let at: usize = 0; at < end; at += 16) {
    const left = f32x4.abs(f32x4.sub(f32x4.sub(v128.load(aAt + at), f32x4.mul(k, v128.load(bAt + at))), l));
    v128.store(weightAt + at, left);
  }
  for (let at: usize = 0; at < end; at += 4) {
    const left = load<f32>(weightAt + at);
    store<f32>(leftAt + 4 * usize(n), left);
    n += left >= 0 ? 1 : 0;
  }
  const sigma = 1.4826 * f64(nth(n, n >> 1)) + leastSigma;
  const by = f32x4.splat(f32(1 / (4.685 * sigma)));
  const one = f32x4.splat(1);
  for (let at: usize = 0; at < end; at += 16) {
    const r = f32x4.mul(v128.load(weightAt + at), by);
    const rest = f32x4.sub(one, f32x4.mul(r, r));
    // No number is not below one.
    v128.store(weightAt + at, v128.and(f32x4.mul(rest, rest), f32x4.lt(r, one)));
  }
  return sigma;
}

/** The k-th least of the first n deviations (Hoare's quickselect, Comm. ACM 4 (1961) 321); they end in another order. */
function nth(n: i32, k: i32): f32 {
  let low = 0;
  let high = n - 1;
  while (low < high) {
    const pivot = load<f32>(leftAt + 4 * usize((low + high) >> 1));
    let i = low;
    let j = high;
    while (i <= j) {
      while (load<f32>(leftAt + 4 * usize(i)) < pivot) i++;
      while (load<f32>(leftAt + 4 * usize(j)) > pivot) j--;
      if (i > j) break;
      const x = load<f32>(leftAt + 4 * usize(i));
      store<f32>(leftAt + 4 * usize(i), load<f32>(leftAt + 4 * usize(j)));
      store<f32>(leftAt + 4 * usize(j), x);
      i++;
      j--;
    }
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else break;
  }
  return load<f32>(leftAt + 4 * usize(k));
}

/** Weighted normal equations of shift, turn, gain and height, left at `outAt`. */
export function equations(gain: f64, level: f64): void {
  const k = f32x4.splat(f32(gain));
  const l = f32x4.splat(f32(level));
  const zero = f32x4.splat(0);
  let h00 = zero;
  let h10 = zero;
  let h11 = zero;
  let h20 = zero;
  let h21 = zero;
  let h22 = zero;
  let h30 = zero;
  let h31 = zero;
  let h32 = zero;
  let h33 = zero;
  let h40 = zero;
  let h41 = zero;
  let h42 = zero;
  let h43 = zero;
  let h44 = zero;
  let g0 = zero;
  let g1 = zero;
  let g2 = zero;
  let g3 = zero;
  let g4 = zero;
  for (let at: usize = 0; at < end; at += 16) {
    const w = v128.load(weightAt + at);
    if (!v128.any_true(w)) continue;
    const b = v128.load(bAt + at);
    const j0 = f32x4.mul(k, v128.load(gxAt + at));
    const j1 = f32x4.mul(k, v128.load(gyAt + at));
    const j2 = f32x4.sub(f32x4.mul(v128.load(columnAt + at), j1), f32x4.mul(v128.load(rowAt + at), j0));
    const left = f32x4.sub(f32x4.sub(v128.load(aAt + at), f32x4.mul(k, b)), l);
    const r = v128.and(left, f32x4.eq(left, left));
    const w0 = f32x4.mul(w, j0);
    const w1 = f32x4.mul(w, j1);
    const w2 = f32x4.mul(w, j2);
    const w3 = f32x4.mul(w, b);
    h00 = f32x4.add(h00, f32x4.mul(w0, j0));
    h10 = f32x4.add(h10, f32x4.mul(w1, j0));
    h11 = f32x4.add(h11, f32x4.mul(w1, j1));
    h20 = f32x4.add(h20, f32x4.mul(w2, j0));
    h21 = f32x4.add(h21, f32x4.mul(w2, j1));
    h22 = f32x4.add(h22, f32x4.mul(w2, j2));
    h30 = f32x4.add(h30, f32x4.mul(w3, j0));
    h31 = f32x4.add(h31, f32x4.mul(w3, j1));
    h32 = f32x4.add(h32, f32x4.mul(w3, j2));
    h33 = f32x4.add(h33, f32x4.mul(w3, b));
    h40 = f32x4.add(h40, w0);
    h41 = f32x4.add(h41, w1);
    h42 = f32x4.add(h42, w2);
    h43 = f32x4.add(h43, w3);
    h44 = f32x4.add(h44, w);
    g0 = f32x4.add(g0, f32x4.mul(w0, r));
    g1 = f32x4.add(g1, f32x4.mul(w1, r));
    g2 = f32x4.add(g2, f32x4.mul(w2, r));
    g3 = f32x4.add(g3, f32x4.mul(w3, r));
    g4 = f32x4.add(g4, f32x4.mul(w, r));
  }
  put(0, h00);
  put(1, h10);
  put(2, h11);
  put(3, h20);
  put(4, h21);
  put(5, h22);
  put(6, h30);
  put(7, h31);
  put(8, h32);
  put(9, h33);
  put(10, h40);
  put(11, h41);
  put(12, h42);
  put(13, h43);
  put(14, h44);
  put(15, g0);
  put(16, g1);
  put(17, g2);
  put(18, g3);
  put(19, g4);
}

function put(k: usize, lanes: v128): void {
  const pairs = f64x2.add(
    f64x2.promote_low_f32x4(lanes),
    f64x2.promote_low_f32x4(v128.shuffle<f32>(lanes, lanes, 2, 3, 2, 3)),
  );
  store<f64>(outAt + 8 * k, f64x2.extract_lane(pairs, 0) + f64x2.extract_lane(pairs, 1));
}

/** Σ over the cells that are seen of 1, a, b, ab and b², both clipped; in the order of the cells on float64. */
export function clipped(mostA: f64, mostB: f64): void {
  let n: f64 = 0;
  let a: f64 = 0;
  let b: f64 = 0;
  let ab: f64 = 0;
  let bb: f64 = 0;
  for (let at: usize = 0; at < end; at += 4) {
    const here = load<f32>(aAt + at);
    if (isNaN<f32>(here)) continue;
    const p = max<f64>(-mostA, min<f64>(mostA, f64(here)));
    const q = max<f64>(-mostB, min<f64>(mostB, f64(load<f32>(bAt + at))));
    n += 1;
    a += p;
    b += q;
    ab += p * q;
    bb += q * q;
  }
  store<f64>(outAt, n);
  store<f64>(outAt, a, 8);
  store<f64>(outAt, b, 16);
  store<f64>(outAt, ab, 24);
  store<f64>(outAt, bb, 32);
}

/** Σ over the cells that are seen of 1, a, b, a², b², then of w, wa, wb, wa², wab, wb²; in the order of the cells on float64. */
export function agreement(): void {
  memory.fill(outAt, 0, 8 * 11);
  for (let at: usize = 0; at < end; at += 4) {
    const here = load<f32>(aAt + at);
    if (isNaN<f32>(here)) continue;
    const a = f64(here);
    const b = f64(load<f32>(bAt + at));
    const w = f64(load<f32>(weightAt + at));
    add(0, 1);
    add(1, a);
    add(2, b);
    add(3, a * a);
    add(4, b * b);
    add(5, w);
    add(6, w * a);
    add(7, w * b);
    add(8, w * (a * a));
    add(9, w * a * b);
    add(10, w * (b * b));
  }
}

function add(k: usize, value: f64): void {
  store<f64>(outAt + 8 * k, load<f64>(outAt + 8 * k) + value);
}
