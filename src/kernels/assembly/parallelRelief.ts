// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: what relief runs parallel to an outline, as
// `explainedPlainly` of core/design/legend/parallelRelief.ts does it, which is the referee: the same operations in the same order
// on float64, so the answers are the same numbers. parallelRelief.ts beside this folder lays the reliefs out in the memory.

/** Number of the relief, of the path's points and of those wanted; then the place (x, y, cosine, sine), depth and step, mm. */
const askAt: usize = 1024;
/** What of a relief is kept, a stretch of 64 bytes each: address of heights (NaN without data), width, height; pitch, left, top. */
const gridsAt: usize = 2048;
/** An open path, x, y pairs. */
const pathAt: usize = 4096;
/** Lengths along the path. */
const alongAt: usize = 16_384;
/** Of the curve: x, y pairs; normals; least reach and bend. */
const pointsAt: usize = 24_576;
const normalsAt: usize = 32_768;
const boundsAt: usize = 40_960;
/** By depth: weighted sum and weight; count. */
const sumsAt: usize = 49_152;
const countsAt: usize = 57_344;

/** Σ over depths of area · mean². */
export function explained(): f64 {
  const grid = gridsAt + 64 * usize(load<f64>(askAt));
  const n = i32(load<f64>(askAt, 16));
  resample(i32(load<f64>(askAt, 8)), n);
  const spacing = curve(n);
  const stepMm = load<f64>(askAt, 64);
  const steps = gather(grid, n, load<f64>(askAt, 56), stepMm);
  let sum: f64 = 0;
  for (let k = 0; k < steps; k++) {
    const at = sumsAt + 16 * usize(k);
    const weight = load<f64>(at, 8);
    const count = f64(load<i32>(countsAt + 4 * usize(k)));
    let mean = load<f64>(at);
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

/** Normals, then reach and bend of each point; returns the spacing. */
function curve(n: i32): f64 {
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
  const every = max(3, n >> 5);
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

/** How far inward the point may be moved before another is nearer. */
function reachOf(i: i32, n: i32, every: i32): f64 {
  const x = load<f64>(pointsAt + 16 * usize(i));
  const y = load<f64>(pointsAt + 16 * usize(i), 8);
  const nx = load<f64>(normalsAt + 16 * usize(i));
  const ny = load<f64>(normalsAt + 16 * usize(i), 8);
  let least: f64 = Infinity;
  for (let k = i % every; k < n; k += every) {
    const at = pointsAt + 16 * usize(k);
    const dx = load<f64>(at) - x;
    const dy = load<f64>(at, 8) - y;
    const toward = dx * nx + dy * ny;
    if (toward <= 1e-9) continue;
    const reach = (dx * dx + dy * dy) / (2 * toward);
    // The engine's own min is slow, since it minds signs of nought.
    if (reach < least) least = reach;
  }
  return least;
}

/** Sums of the relief along the parallels, to `toMm` inward; returns their number. Places go in 65,536ths of a cell. */
function gather(grid: usize, n: i32, toMm: f64, stepMm: f64): i32 {
  const steps = max(1, i32(Math.floor(toMm / stepMm + 0.5)) + 1);
  memory.fill(sumsAt, 0, 16 * usize(steps));
  memory.fill(countsAt, 0, 4 * usize(steps));
  const heights = usize(load<f64>(grid));
  const width = u32(load<f64>(grid, 8));
  const height = u32(load<f64>(grid, 16));
  const pitch = load<f64>(grid, 24);
  const left = load<f64>(grid, 32);
  const top = load<f64>(grid, 40);
  for (let i = 0; i < n; i++) {
    const point = pointsAt + 16 * usize(i);
    const normal = normalsAt + 16 * usize(i);
    const reach = load<f64>(boundsAt + 16 * usize(i));
    const deepest = i32(min<f64>(f64(steps), Math.floor(reach / stepMm) + 1));
    let c = i32(Math.floor(65536 * ((load<f64>(point) - left) / pitch + 0.5)));
    let r = i32(Math.floor(65536 * ((top - load<f64>(point, 8)) / pitch + 0.5)));
    const dc = i32(Math.floor((65536 * stepMm * load<f64>(normal)) / pitch + 0.5));
    const dr = i32(Math.floor((65536 * -stepMm * load<f64>(normal, 8)) / pitch + 0.5));
    const shrink = stepMm * max<f64>(0, min<f64>(load<f64>(boundsAt + 16 * usize(i), 8), 1 / max<f64>(1e-9, reach)));
    for (let k = 0; k < deepest; k++, c += dc, r += dr) {
      const col = u32(c >> 16);
      const row = u32(r >> 16);
      if (col >= width || row >= height) continue;
      const z = f64(load<f32>(heights + 4 * usize(row * width + col)));
      if (!(abs(z) <= Infinity)) continue;
      const w = max<f64>(0, 1 - shrink * f64(k));
      const at = sumsAt + 16 * usize(k);
      store<f64>(at, load<f64>(at) + w * z);
      store<f64>(at, load<f64>(at, 8) + w, 8);
      store<i32>(countsAt + 4 * usize(k), load<i32>(countsAt + 4 * usize(k)) + 1);
    }
  }
  return steps;
}
