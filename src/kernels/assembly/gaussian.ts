// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: the Gaussian of core/geometry/grid/gaussianRows.ts along
// rows and columns, and the masked mean of gaussianFilter.ts, which are the referees: the same operations in the same order on
// float64, heights and weights beside one another in two lanes, so the answers are the same numbers.
// gaussian.ts beside this folder lays the pictures out in the memory.

/** Eight coefficients of the two recursions, or, below σ = 1, the sampled weights. */
const weightsAt: usize = 1024;
const dataAt: usize = 65_536;

let length: i32 = 0;
/** Weights beside the middle one; negative where the recursions are run. */
let radius: i32 = 0;
/** What the way out leaves, or the row with its margins: a pair of float64 a cell. */
let lineAt: usize = 0;

let width: i32 = 0;
let height: i32 = 0;
let meansAt: usize = 0;
let sharesAt: usize = 0;
let maskAt: usize = 0;
let scratchAt: usize = 0;

/**
 * Heights, then weights (float32), then the mask (bytes) stand from `dataAt`; the mean is left in place of the heights. After
 * this `begin` and `end` are called for all cells, `across` for all rows and `down` for all columns, each by stretches: an engine
 * compiles well what is called again, and not what runs.
 */
export function take(columns: i32, rows: i32, sampled: i32): void {
  width = columns;
  height = rows;
  radius = sampled;
  const cells = usize(columns) * usize(rows);
  meansAt = dataAt;
  sharesAt = meansAt + 4 * cells;
  maskAt = sharesAt + 4 * cells;
  lineAt = (maskAt + cells + 15) & ~15;
  scratchAt = lineAt + 16 * usize(max(columns, rows) + 16);
}

/** Heights count where there are data, with weight 1. */
export function begin(from: usize, to: usize): void {
  for (let i = from; i < to; i++) {
    const seen = load<u8>(maskAt + i);
    if (!seen) store<f32>(meansAt + 4 * i, 0);
    store<f32>(sharesAt + 4 * i, f32(seen));
  }
}

export function across(from: i32, to: i32): void {
  length = width;
  for (let r = from; r < to; r++) {
    const row = 4 * usize(r) * usize(width);
    line(meansAt + row, sharesAt + row);
  }
}

export function end(from: usize, to: usize): void {
  for (let i = from; i < to; i++)
    store<f32>(meansAt + 4 * i, load<u8>(maskAt + i) ? load<f32>(meansAt + 4 * i) / load<f32>(sharesAt + 4 * i) : 0);
}

/** Down at most 16 columns, turned into rows in a scratch that stays in the cache. */
export function down(first: i32, end: i32): void {
  length = height;
  const count = end - first;
  const a = meansAt;
  const b = sharesAt;
  const scratch = scratchAt;
  const bytes = 4 * usize(length);
  const other = scratch + 16 * bytes;
  for (let r = 0; r < length; r++) {
    const from = 4 * (usize(r) * usize(width) + usize(first));
    for (let k: usize = 0; k < usize(count); k++) {
      store<f32>(scratch + k * bytes + 4 * usize(r), load<f32>(a + from + 4 * k));
      store<f32>(other + k * bytes + 4 * usize(r), load<f32>(b + from + 4 * k));
    }
  }
  for (let k: usize = 0; k < usize(count); k++) line(scratch + k * bytes, other + k * bytes);
  for (let r = 0; r < length; r++) {
    const to = 4 * (usize(r) * usize(width) + usize(first));
    for (let k: usize = 0; k < usize(count); k++) {
      store<f32>(a + to + 4 * k, load<f32>(scratch + k * bytes + 4 * usize(r)));
      store<f32>(b + to + 4 * k, load<f32>(other + k * bytes + 4 * usize(r)));
    }
  }
}

function line(a: usize, b: usize): void {
  if (radius >= 0) direct(a, b);
  else recursive(a, b);
}

function pair(a: usize, b: usize): v128 {
  return f64x2.replace_lane(f64x2.splat(f64(load<f32>(a))), 1, f64(load<f32>(b)));
}

function put(a: usize, b: usize, both: v128): void {
  store<f32>(a, f32(f64x2.extract_lane(both, 0)));
  store<f32>(b, f32(f64x2.extract_lane(both, 1)));
}

function direct(a: usize, b: usize): void {
  const margin = 16 * usize(radius);
  memory.fill(lineAt, 0, margin);
  memory.fill(lineAt + margin + 16 * usize(length), 0, margin);
  for (let c: usize = 0; c < usize(length); c++) v128.store(lineAt + margin + 16 * c, pair(a + 4 * c, b + 4 * c));
  for (let c: usize = 0; c < usize(length); c++) {
    const at = lineAt + margin + 16 * c;
    let sum = f64x2.mul(v128.load64_splat(weightsAt), v128.load(at));
    for (let k = 1; k <= radius; k++) {
      const beside = 16 * usize(k);
      const both = f64x2.add(v128.load(at - beside), v128.load(at + beside));
      sum = f64x2.add(sum, f64x2.mul(v128.load64_splat(weightsAt + 8 * usize(k)), both));
    }
    put(a + 4 * c, b + 4 * c, sum);
  }
}

function recursive(a: usize, b: usize): void {
  const p0 = v128.load64_splat(weightsAt);
  const p1 = v128.load64_splat(weightsAt, 8);
  const q1 = v128.load64_splat(weightsAt, 16);
  const q2 = v128.load64_splat(weightsAt, 24);
  const r0 = v128.load64_splat(weightsAt, 32);
  const r1 = v128.load64_splat(weightsAt, 40);
  const s1 = v128.load64_splat(weightsAt, 48);
  const s2 = v128.load64_splat(weightsAt, 56);
  forward(
    a,
    b,
    f64x2.add(p1, f64x2.mul(q1, p0)),
    f64x2.mul(q2, p0),
    q1,
    q2,
    f64x2.add(r1, f64x2.mul(s1, r0)),
    f64x2.mul(s2, r0),
    s1,
    s2,
  );
  backward(a, b, p0, p1, q1, q2, r0, r1, s1, s2);
}

/** w x1 + v x2 + q2 y2 + q1 y1, summed from the left. */
function next(w: v128, x1: v128, v: v128, x2: v128, q2: v128, y2: v128, q1: v128, y1: v128): v128 {
  const out = f64x2.add(f64x2.mul(w, x1), f64x2.mul(v, x2));
  return f64x2.add(f64x2.add(out, f64x2.mul(q2, y2)), f64x2.mul(q1, y1));
}

function forward(
  a: usize,
  b: usize,
  pf: v128,
  pg: v128,
  q1: v128,
  q2: v128,
  rf: v128,
  rg: v128,
  s1: v128,
  s2: v128,
): void {
  let x1 = f64x2.splat(0);
  let x2 = x1;
  let y1 = x1;
  let y2 = x1;
  let v1 = x1;
  let v2 = x1;
  for (let c: usize = 0; c < usize(length); c++) {
    const y = next(pf, x1, pg, x2, q2, y2, q1, y1);
    const v = next(rf, x1, rg, x2, s2, v2, s1, v1);
    v128.store(lineAt + 16 * c, f64x2.add(y, v));
    x2 = x1;
    x1 = pair(a + 4 * c, b + 4 * c);
    y2 = y1;
    y1 = y;
    v2 = v1;
    v1 = v;
  }
}

function backward(
  a: usize,
  b: usize,
  p0: v128,
  p1: v128,
  q1: v128,
  q2: v128,
  r0: v128,
  r1: v128,
  s1: v128,
  s2: v128,
): void {
  let x1 = f64x2.splat(0);
  let y1 = x1;
  let y2 = x1;
  let v1 = x1;
  let v2 = x1;
  for (let c: usize = usize(length); c > 0; ) {
    c--;
    const x = pair(a + 4 * c, b + 4 * c);
    const y = next(p0, x, p1, x1, q2, y2, q1, y1);
    const v = next(r0, x, r1, x1, s2, v2, s1, v1);
    put(a + 4 * c, b + 4 * c, f64x2.add(f64x2.add(v128.load(lineAt + 16 * c), y), v));
    x1 = x;
    y2 = y1;
    y1 = y;
    v2 = v1;
    v1 = v;
  }
}
