// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: a form fitted to a relief with iterated weights and taken off it, as
// core/geometry/grid/form.ts does, which is the referee: the same operations in the same order, so the answers are the same numbers.
// form.ts beside this folder lays the relief out in the memory.

/** Up to six coefficients of the form, float64. */
const formAt: usize = 1024;
/** Right side of the normal equations, six float64, then their matrix, row after row. */
const rightAt: usize = 1088;
const normalAt: usize = 1152;
/** x, y and height of the sampled cells, their weights, and room to find a median: 16,384 float64 each. */
const xAt: usize = 65536;
const column: usize = 131072;
const yAt: usize = xAt + column;
const zAt: usize = yAt + column;
const weightAt: usize = zAt + column;
const roomAt: usize = weightAt + column;
/** float32 heights of the relief, then where it has data. */
const reliefAt: usize = roomAt + column;

let count: i32 = 0;

/** Every `stride`-th cell with data as (x − cx)/R, (y − cy)/R, z; their number. */
export function sample(
  width: i32,
  height: i32,
  stride: i32,
  left: f64,
  top: f64,
  pitch: f64,
  cx: f64,
  cy: f64,
  radius: f64,
): i32 {
  const maskAt = reliefAt + 4 * usize(width) * usize(height);
  count = 0;
  for (let r = 0; r < height; r += stride) {
    const y = (top - f64(r) * pitch - cy) / radius;
    for (let c = 0; c < width; c += stride) {
      const i = usize(r * width + c);
      if (!load<u8>(maskAt + i)) continue;
      const at: usize = 8 * usize(count++);
      store<f64>(xAt + at, (left + f64(c) * pitch - cx) / radius);
      store<f64>(yAt + at, y);
      store<f64>(zAt + at, f64(load<f32>(reliefAt + 4 * i)));
    }
  }
  return count;
}

function heightOf(terms: i32, x: f64, y: f64): f64 {
  const plane = load<f64>(formAt) + load<f64>(formAt, 8) * x + load<f64>(formAt, 16) * y;
  if (terms < 6) return plane;
  return plane + load<f64>(formAt, 24) * x * x + load<f64>(formAt, 32) * x * y + load<f64>(formAt, 40) * y * y;
}

/** Weights of Huber, or of Tukey, about the form; 0 where it is exact already. */
export function weigh(terms: i32, tukey: i32, sigmaFromMad: f64): i32 {
  for (let i = 0; i < count; i++) {
    const at: usize = 8 * usize(i);
    const away = Math.abs(load<f64>(zAt + at) - heightOf(terms, load<f64>(xAt + at), load<f64>(yAt + at)));
    store<f64>(weightAt + at, away);
    store<f64>(roomAt + at, away);
  }
  const scale = sigmaFromMad * median();
  if (!(scale > 1e-12)) return 0;
  const end = weightAt + 8 * usize(count);
  if (tukey)
    for (let at = weightAt; at < end; at += 8) {
      const u = load<f64>(at) / (4.685 * scale);
      const square = u * u;
      store<f64>(at, square < 1 ? (1 - square) * (1 - square) : 0);
    }
  else
    for (let at = weightAt; at < end; at += 8)
      store<f64>(at, Math.min(1, (1.345 * scale) / Math.max(load<f64>(at), 1e-300)));
  return 1;
}

/** Median of what stands in the room, between order statistics. */
function median(): f64 {
  const place = 0.5 * f64(count - 1);
  const low = i32(Math.floor(place));
  const below = select(low);
  if (low + 1 >= count) return below;
  let above = load<f64>(roomAt + 8 * usize(low + 1));
  for (let i = low + 2; i < count; i++) {
    const value = load<f64>(roomAt + 8 * usize(i));
    if (value < above) above = value;
  }
  return below + (place - f64(low)) * (above - below);
}

/** Value number k in ascending order (Hoare 1961, FIND). */
function select(k: i32): f64 {
  const kAt = roomAt + 8 * usize(k);
  let from = 0;
  let to = count - 1;
  while (from < to) {
    const pivot = load<f64>(kAt);
    let i = from;
    let j = to;
    while (i <= j) {
      while (load<f64>(roomAt + 8 * usize(i)) < pivot) i++;
      while (load<f64>(roomAt + 8 * usize(j)) > pivot) j--;
      if (i > j) break;
      const one = roomAt + 8 * usize(i++);
      const other = roomAt + 8 * usize(j--);
      const kept = load<f64>(one);
      store<f64>(one, load<f64>(other));
      store<f64>(other, kept);
    }
    if (j < k) from = i;
    if (i > k) to = j;
  }
  return load<f64>(kAt);
}

/** The sums of the weighted normal equations, below the diagonal, two columns in two lanes; what that leaves above it means nothing. */
export function equations(terms: i32, weighted: i32): void {
  memory.fill(rightAt, 0, 64);
  memory.fill(normalAt, 0, 288);
  const end: usize = 8 * usize(count);
  for (let at: usize = 0; at < end; at += 8) {
    const w = weighted ? load<f64>(weightAt + at) : 1;
    if (w !== 0) addPoint(usize(terms), load<f64>(xAt + at), load<f64>(yAt + at), load<f64>(zAt + at), w);
  }
}

/** Six float64: the terms of the form at a point. */
const basisAt: usize = 1536;

function addPoint(terms: usize, x: f64, y: f64, z: f64, w: f64): void {
  store<f64>(basisAt, 1);
  store<f64>(basisAt, x, 8);
  store<f64>(basisAt, y, 16);
  store<f64>(basisAt, x * x, 24);
  store<f64>(basisAt, x * y, 32);
  store<f64>(basisAt, y * y, 40);
  for (let a: usize = 0; a < terms; a++) {
    const weighted = w * load<f64>(basisAt + 8 * a);
    const right = rightAt + 8 * a;
    store<f64>(right, load<f64>(right) + weighted * z);
    const row = normalAt + 8 * a * terms;
    const both = f64x2.splat(weighted);
    for (let b: usize = 0; b <= a; b += 2) {
      const at = row + 8 * b;
      v128.store(at, f64x2.add(v128.load(at), f64x2.mul(both, v128.load(basisAt + 8 * b))));
    }
  }
}

/** Rows `from` to `to` of the relief less the form; 0 where there is no data. */
export function remove(width: i32, height: i32, from: i32, to: i32, terms: i32, left: f64, top: f64, pitch: f64): void {
  const maskAt = reliefAt + 4 * usize(width) * usize(height);
  for (let r = from; r < to; r++) {
    const y = top - f64(r) * pitch;
    for (let c = 0; c < width; c++) {
      const i = usize(r * width + c);
      const at = reliefAt + 4 * i;
      if (load<u8>(maskAt + i)) store<f32>(at, f32(f64(load<f32>(at)) - heightOf(terms, left + f64(c) * pitch, y)));
      else store<f32>(at, 0);
    }
  }
}
