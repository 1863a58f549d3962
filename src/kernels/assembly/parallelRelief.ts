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
/**
 * Ways inward from the points, 32 bytes each: column and row of the first place and from one to the next, in 65,536ths of a cell; number
 * of places; how much of the curve's length goes with each mm of depth.
 */
const raysAt: usize = 98_304;

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

/** Sums of a relief along the parallels of a curve of n points, so many of them from `fromMm` inward. */
export function gather(relief: i32, n: i32, steps: i32, fromMm: f64, stepMm: f64): void {
  const grid = gridsAt + 64 * usize(relief);
  const padded = usize(steps + 3);
  memory.fill(sumsAt, 0, 8 * padded);
  memory.fill(weightsAt, 0, 8 * padded);
  memory.fill(countsAt, 0, 4 * padded);
  layRays(grid, n, steps, fromMm, stepMm);
  for (let i = 0; i < n; i += 2) addTwo(grid, raysAt + 32 * usize(i), fromMm, stepMm);
}

/** The way inward from each point; an odd number of them is followed by one of no places. */
function layRays(grid: usize, n: i32, steps: i32, fromMm: f64, stepMm: f64): void {
  const pitch = load<f64>(grid, 24);
  const left = load<f64>(grid, 32);
  const top = load<f64>(grid, 40);
  for (let i = 0; i < n; i++) {
    const point = pointsAt + 16 * usize(i);
    const normal = normalsAt + 16 * usize(i);
    const reach = load<f64>(boundsAt + 16 * usize(i));
    const bend = load<f64>(boundsAt + 16 * usize(i), 8);
    const nx = load<f64>(normal);
    const ny = load<f64>(normal, 8);
    const ray = raysAt + 32 * usize(i);
    store<i32>(ray, i32(Math.floor(65536 * ((load<f64>(point) + fromMm * nx - left) / pitch + 0.5))));
    store<i32>(ray, i32(Math.floor(65536 * ((top - load<f64>(point, 8) - fromMm * ny) / pitch + 0.5))), 4);
    store<i32>(ray, i32(Math.floor((65536 * stepMm * nx) / pitch + 0.5)), 8);
    store<i32>(ray, i32(Math.floor((65536 * -stepMm * ny) / pitch + 0.5)), 12);
    store<i32>(ray, i32(min<f64>(f64(steps), Math.floor((reach - fromMm) / stepMm) + 1)), 16);
    store<f64>(ray, max<f64>(0, min<f64>(bend, 1 / max<f64>(1e-9, reach))), 24);
  }
  if (n & 1) memory.fill(raysAt + 32 * usize(n), 0, 32);
}

/**
 * Adds the heights along two neighbouring rays: their sums are fetched and put back once for both. Four depths in four lanes: each depth
 * has sums of its own, to which the first ray is added before the second, so the order in which they grow stays.
 */
function addTwo(grid: usize, one: usize, fromMm: f64, stepMm: f64): void {
  const heights = usize(load<f64>(grid));
  const width = i32x4.splat(i32(load<f64>(grid, 8)));
  const height = i32x4.splat(i32(load<f64>(grid, 16)));
  const other = one + 32;
  const deepestA = load<i32>(one, 16);
  const deepestB = load<i32>(other, 16);
  const deepest = max(deepestA, deepestB);
  const dcA = load<i32>(one, 8);
  const drA = load<i32>(one, 12);
  const dcB = load<i32>(other, 8);
  const drB = load<i32>(other, 12);
  const lanes = i32x4(0, 1, 2, 3);
  let cA = i32x4.add(v128.load32_splat(one), i32x4.mul(i32x4.splat(dcA), lanes));
  let rA = i32x4.add(v128.load32_splat(one, 4), i32x4.mul(i32x4.splat(drA), lanes));
  let cB = i32x4.add(v128.load32_splat(other), i32x4.mul(i32x4.splat(dcB), lanes));
  let rB = i32x4.add(v128.load32_splat(other, 4), i32x4.mul(i32x4.splat(drB), lanes));
  const firstA = f64x2.splat(1 - load<f64>(one, 24) * fromMm);
  const lessA = f64x2.splat(stepMm * load<f64>(one, 24));
  const firstB = f64x2.splat(1 - load<f64>(other, 24) * fromMm);
  const lessB = f64x2.splat(stepMm * load<f64>(other, 24));
  const two = f64x2.splat(2);
  let nearer = f64x2(0, 1);
  for (let k = 0; k < deepest; k += 4) {
    const depth = i32x4.add(i32x4.splat(k), lanes);
    let zA = heightsOf(heights, width, height, cA, rA, i32x4.lt_s(depth, i32x4.splat(deepestA)));
    let zB = heightsOf(heights, width, height, cB, rB, i32x4.lt_s(depth, i32x4.splat(deepestB)));
    const seenA = f32x4.eq(zA, zA);
    const seenB = f32x4.eq(zB, zB);
    zA = v128.and(zA, seenA);
    zB = v128.and(zB, seenB);
    const counts = countsAt + 4 * usize(k);
    v128.store(counts, i32x4.sub(i32x4.sub(v128.load(counts), seenA), seenB));
    const farther = f64x2.add(nearer, two);
    const sums = sumsAt + 8 * usize(k);
    const weights = weightsAt + 8 * usize(k);
    const lowA = v128.and(lengthsAt(firstA, lessA, nearer), i64x2.extend_low_i32x4_s(seenA));
    const lowB = v128.and(lengthsAt(firstB, lessB, nearer), i64x2.extend_low_i32x4_s(seenB));
    addBoth(weights, lowA, lowB);
    addBoth(sums, f64x2.mul(lowA, f64x2.promote_low_f32x4(zA)), f64x2.mul(lowB, f64x2.promote_low_f32x4(zB)));
    const highA = v128.and(lengthsAt(firstA, lessA, farther), i64x2.extend_high_i32x4_s(seenA));
    const highB = v128.and(lengthsAt(firstB, lessB, farther), i64x2.extend_high_i32x4_s(seenB));
    addBoth(weights + 16, highA, highB);
    addBoth(sums + 16, f64x2.mul(highA, upper(zA)), f64x2.mul(highB, upper(zB)));
    nearer = f64x2.add(farther, two);
    cA = i32x4.add(cA, i32x4.splat(4 * dcA));
    rA = i32x4.add(rA, i32x4.splat(4 * drA));
    cB = i32x4.add(cB, i32x4.splat(4 * dcB));
    rB = i32x4.add(rB, i32x4.splat(4 * drB));
  }
}

/** Heights at four places in 65,536ths of a cell; NaN where there is none, or where the place is not among those wanted. */
function heightsOf(heights: usize, width: v128, height: v128, c: v128, r: v128, wanted: v128): v128 {
  const col = i32x4.shr_s(c, 16);
  const row = i32x4.shr_s(r, 16);
  const inside = v128.and(v128.and(i32x4.lt_u(col, width), i32x4.lt_u(row, height)), wanted);
  const at = i32x4.shl(v128.and(i32x4.add(i32x4.mul(row, width), col), inside), 2);
  let z = f32x4.splat(load<f32>(heights + usize(u32(i32x4.extract_lane(at, 0)))));
  z = f32x4.replace_lane(z, 1, load<f32>(heights + usize(u32(i32x4.extract_lane(at, 1)))));
  z = f32x4.replace_lane(z, 2, load<f32>(heights + usize(u32(i32x4.extract_lane(at, 2)))));
  z = f32x4.replace_lane(z, 3, load<f32>(heights + usize(u32(i32x4.extract_lane(at, 3)))));
  return v128.or(z, v128.not(inside));
}

/** Lengths of the parallels at two depths, in steps, as shares of the curve's. */
function lengthsAt(first: v128, less: v128, depth: v128): v128 {
  return f64x2.pmax(f64x2.splat(0), f64x2.sub(first, f64x2.mul(less, depth)));
}

function upper(z: v128): v128 {
  return f64x2.promote_low_f32x4(v128.shuffle<i32>(z, z, 2, 3, 2, 3));
}

function addBoth(to: usize, a: v128, b: v128): void {
  v128.store(to, f64x2.add(f64x2.add(v128.load(to), a), b));
}
