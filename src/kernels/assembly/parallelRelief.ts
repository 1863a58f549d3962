// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: curves, and what relief runs parallel to one, as `curvePlainly`
// (core/design/legend/baseCurve.ts), `ringSumsPlainly` (ringProfile.ts) and `explainedPlainly` (parallelRelief.ts) do it, which are the
// referees: the same operations in the same order on float64, so the answers are the same numbers. parallelRelief.ts beside this folder
// lays the reliefs out in the memory.

/** Number of the relief, of the path's points and of those wanted; then the place (x, y, cosine, sine), depth and step, mm. */
const askAt: usize = 1024;
/** What of a relief is kept, a stretch of 64 bytes each: address of heights (NaN without data), width, height; pitch, left, top. */
const gridsAt: usize = 2048;
/** An open path, x, y pairs. */
const pathAt: usize = 4096;
/** Lengths along the path. */
const alongAt: usize = 16_384;
/** Of the curve, 1,024 points at most: x, y pairs; normals; least reach and bend. */
const pointsAt: usize = 24_576;
const normalsAt: usize = 40_960;
const boundsAt: usize = 57_344;
/** By depth, 1,024 at most: weighted sum; weight; count. */
const sumsAt: usize = 73_728;
const weightsAt: usize = 82_944;
const countsAt: usize = 92_160;

/** Σ over depths of area · mean². */
export function explained(): f64 {
  const n = i32(load<f64>(askAt, 16));
  resample(i32(load<f64>(askAt, 8)), n);
  const spacing = curve(n, max(3, n >> 5));
  const stepMm = load<f64>(askAt, 64);
  const steps = max(1, i32(Math.floor(load<f64>(askAt, 56) / stepMm + 0.5)) + 1);
  gather(i32(load<f64>(askAt)), n, steps, 0, stepMm);
  let sum: f64 = 0;
  for (let k = 0; k < steps; k++) {
    const weight = load<f64>(weightsAt + 8 * usize(k));
    const count = f64(load<i32>(countsAt + 4 * usize(k)));
    let mean = load<f64>(sumsAt + 8 * usize(k));
    if (weight > 0) mean /= weight;
    sum += weight * mean * mean * (count / (count + 24));
  }
  return sum * stepMm * spacing;
}

/** `count` points at even spacing along the path of n, turned and put at their place. */
function resample(n: i32, count: i32): void {
  store<f64>(alongAt, 0);
  let length: f64 = 0;
  for (let i = 1; i < n; i++) {
    const at = pathAt + 16 * usize(i);
    const dx = load<f64>(at) - load<f64>(at - 16);
    const dy = load<f64>(at, 8) - load<f64>(at - 8);
    length += Math.sqrt(dx * dx + dy * dy);
    store<f64>(alongAt + 8 * usize(i), length);
  }
  const cx = load<f64>(askAt, 24);
  const cy = load<f64>(askAt, 32);
  const c = load<f64>(askAt, 40);
  const s = load<f64>(askAt, 48);
  let i = 1;
  for (let k = 0; k < count; k++) {
    const wanted = (length * f64(k)) / f64(count);
    while (i < n - 1 && load<f64>(alongAt + 8 * usize(i)) < wanted) i++;
    const before = load<f64>(alongAt + 8 * usize(i - 1));
    const span = load<f64>(alongAt + 8 * usize(i)) - before;
    const t = (wanted - before) / (span === 0 ? 1 : span);
    const at = pathAt + 16 * usize(i);
    const x = load<f64>(at - 16) + t * (load<f64>(at) - load<f64>(at - 16));
    const y = load<f64>(at - 8) + t * (load<f64>(at, 8) - load<f64>(at - 8));
    const to = pointsAt + 16 * usize(k);
    store<f64>(to, cx + c * x - s * y);
    store<f64>(to, cy + s * x + c * y, 8);
  }
}

/** Normals, then reach and bend of each of n points, for the reach beside every so-manyth of them; returns the spacing. */
export function curve(n: i32, every: i32): f64 {
  for (let i = 0; i < n; i++) {
    const before = pointsAt + 16 * usize(i === 0 ? n - 1 : i - 1);
    const after = pointsAt + 16 * usize(i === n - 1 ? 0 : i + 1);
    const tx = load<f64>(after) - load<f64>(before);
    const ty = load<f64>(after, 8) - load<f64>(before, 8);
    const size = Math.sqrt(tx * tx + ty * ty);
    const by: f64 = size === 0 ? 1 : size;
    store<f64>(normalsAt + 16 * usize(i), ty / by);
    store<f64>(normalsAt + 16 * usize(i), -tx / by, 8);
  }
  const dx = load<f64>(pointsAt, 16) - load<f64>(pointsAt);
  const dy = load<f64>(pointsAt, 24) - load<f64>(pointsAt, 8);
  const spacing = Math.sqrt(dx * dx + dy * dy);
  for (let i = 0; i < n; i++) {
    const before = normalsAt + 16 * usize(i === 0 ? n - 1 : i - 1);
    const after = normalsAt + 16 * usize(i === n - 1 ? 0 : i + 1);
    const turn = load<f64>(before, 8) * load<f64>(after) - load<f64>(before) * load<f64>(after, 8);
    const to = boundsAt + 16 * usize(i);
    store<f64>(to, reachOf(i, n, every));
    store<f64>(to, Math.asin(max<f64>(-1, min<f64>(1, turn))) / (2 * spacing), 8);
  }
  return spacing;
}

/** How far inward the point may be moved before another is nearer; two others in two lanes. */
function reachOf(i: i32, n: i32, every: i32): f64 {
  const x = v128.load64_splat(pointsAt + 16 * usize(i));
  const y = v128.load64_splat(pointsAt + 16 * usize(i) + 8);
  const nx = v128.load64_splat(normalsAt + 16 * usize(i));
  const ny = v128.load64_splat(normalsAt + 16 * usize(i) + 8);
  const step = 16 * usize(every);
  const end = pointsAt + 16 * usize(n);
  let least = f64x2.splat(Infinity);
  for (let at = pointsAt + 16 * usize(i % every); at < end; at += 2 * step) {
    const a = v128.load(at);
    // The last of an odd number stands for both.
    const b = v128.load(at + step < end ? at + step : at);
    const dx = f64x2.sub(v128.shuffle<f64>(a, b, 0, 2), x);
    const dy = f64x2.sub(v128.shuffle<f64>(a, b, 1, 3), y);
    const toward = f64x2.add(f64x2.mul(dx, nx), f64x2.mul(dy, ny));
    const squares = f64x2.add(f64x2.mul(dx, dx), f64x2.mul(dy, dy));
    const reach = f64x2.div(squares, f64x2.add(toward, toward));
    const ahead = f64x2.gt(toward, f64x2.splat(1e-9));
    least = f64x2.pmin(least, v128.bitselect(reach, f64x2.splat(Infinity), ahead));
  }
  return min<f64>(f64x2.extract_lane(least, 0), f64x2.extract_lane(least, 1));
}

/**
 * Sums of a relief along the parallels of a curve of n points, so many of them from `fromMm` inward. Places go in 65,536ths of a cell.
 * Four depths in four lanes: each depth has sums of its own, so the order in which they grow stays.
 */
export function gather(relief: i32, n: i32, steps: i32, fromMm: f64, stepMm: f64): void {
  const grid = gridsAt + 64 * usize(relief);
  const padded = usize(steps + 3);
  memory.fill(sumsAt, 0, 8 * padded);
  memory.fill(weightsAt, 0, 8 * padded);
  memory.fill(countsAt, 0, 4 * padded);
  const heights = usize(load<f64>(grid));
  const width = i32x4.splat(i32(load<f64>(grid, 8)));
  const height = i32x4.splat(i32(load<f64>(grid, 16)));
  const pitch = load<f64>(grid, 24);
  const left = load<f64>(grid, 32);
  const top = load<f64>(grid, 40);
  const lanes = i32x4(0, 1, 2, 3);
  const two = f64x2.splat(2);
  const none = f64x2.splat(0);
  for (let i = 0; i < n; i++) {
    const point = pointsAt + 16 * usize(i);
    const normal = normalsAt + 16 * usize(i);
    const reach = load<f64>(boundsAt + 16 * usize(i));
    const deepest = i32(min<f64>(f64(steps), Math.floor((reach - fromMm) / stepMm) + 1));
    const nx = load<f64>(normal);
    const ny = load<f64>(normal, 8);
    const dc = i32(Math.floor((65536 * stepMm * nx) / pitch + 0.5));
    const dr = i32(Math.floor((65536 * -stepMm * ny) / pitch + 0.5));
    const c0 = i32(Math.floor(65536 * ((load<f64>(point) + fromMm * nx - left) / pitch + 0.5)));
    const r0 = i32(Math.floor(65536 * ((top - load<f64>(point, 8) - fromMm * ny) / pitch + 0.5)));
    let c = i32x4.add(i32x4.splat(c0), i32x4.mul(i32x4.splat(dc), lanes));
    let r = i32x4.add(i32x4.splat(r0), i32x4.mul(i32x4.splat(dr), lanes));
    const dc4 = i32x4.splat(4 * dc);
    const dr4 = i32x4.splat(4 * dr);
    const bend = load<f64>(boundsAt + 16 * usize(i), 8);
    const shrink = max<f64>(0, min<f64>(bend, 1 / max<f64>(1e-9, reach)));
    const first = f64x2.splat(1 - shrink * fromMm);
    const less = f64x2.splat(stepMm * shrink);
    let depth = f64x2(0, 1);
    for (let k = 0; k < deepest; k += 4) {
      const col = i32x4.shr_s(c, 16);
      const row = i32x4.shr_s(r, 16);
      let seen = v128.and(i32x4.lt_u(col, width), i32x4.lt_u(row, height));
      seen = v128.and(seen, i32x4.lt_s(i32x4.add(i32x4.splat(k), lanes), i32x4.splat(deepest)));
      const at = i32x4.shl(v128.and(i32x4.add(i32x4.mul(row, width), col), seen), 2);
      let z = f32x4.splat(load<f32>(heights + usize(u32(i32x4.extract_lane(at, 0)))));
      z = f32x4.replace_lane(z, 1, load<f32>(heights + usize(u32(i32x4.extract_lane(at, 1)))));
      z = f32x4.replace_lane(z, 2, load<f32>(heights + usize(u32(i32x4.extract_lane(at, 2)))));
      z = f32x4.replace_lane(z, 3, load<f32>(heights + usize(u32(i32x4.extract_lane(at, 3)))));
      seen = v128.and(seen, f32x4.eq(z, z));
      z = v128.and(z, seen);
      const counts = countsAt + 4 * usize(k);
      v128.store(counts, i32x4.sub(v128.load(counts), seen));
      const nearer = f64x2.pmax(none, f64x2.sub(first, f64x2.mul(less, depth)));
      depth = f64x2.add(depth, two);
      const farther = f64x2.pmax(none, f64x2.sub(first, f64x2.mul(less, depth)));
      depth = f64x2.add(depth, two);
      const w0 = v128.and(nearer, i64x2.extend_low_i32x4_s(seen));
      const w1 = v128.and(farther, i64x2.extend_high_i32x4_s(seen));
      const z0 = f64x2.promote_low_f32x4(z);
      const z1 = f64x2.promote_low_f32x4(v128.shuffle<i32>(z, z, 2, 3, 2, 3));
      const sums = sumsAt + 8 * usize(k);
      v128.store(sums, f64x2.add(v128.load(sums), f64x2.mul(w0, z0)));
      v128.store(sums, f64x2.add(v128.load(sums, 16), f64x2.mul(w1, z1)), 16);
      const weights = weightsAt + 8 * usize(k);
      v128.store(weights, f64x2.add(v128.load(weights), w0));
      v128.store(weights, f64x2.add(v128.load(weights, 16), w1), 16);
      c = i32x4.add(c, dc4);
      r = i32x4.add(r, dr4);
    }
  }
}
