// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: the search of core/geometry/spatial/closestPlainly.ts.
// That file is the referee: what is computed, and why the answer does not depend on the order, stands there. Distances and
// feet are the same operations in the same order on float64, so the answers are the same numbers. Only what leaves nodes
// and triangles out is done otherwise: on four float32 lanes, with every bound widened by more than their rounding.
// closestPlace.ts beside this folder lays the index out in the memory.

/** Where things stand in the memory; the same numbers stand in ../closestPlace.ts. */
const frameAt: usize = 0;
const gridAt: usize = 256;
const gridBytes: usize = 256;
/** Question, answer and stacks are the asker's own, since several threads may ask of one memory: at `own`, and so on. */
let own: usize = 0;
const askAt: usize = 1024;
const outAt: usize = 1152;
/** Greatest coordinate of what this asker made ready. */
const sizeAt: usize = 1216;
const stackNodeAt: usize = 2048;
const stackSquaredAt: usize = 4096;

let gridCount: i32 = 0;
/** xyz float32 of the vertices. */
let positionsAt: usize = 0;
/**
 * Four slots after four, sixteen times four float32: four half-spaces (unit normal m, m · v) of every triangle. The first is its
 * plane; of the others each has a side v in its edge and the triangle inside. Zeros where a triangle is all but a line.
 */
let planesAt: usize = 0;
let openAt: usize = 0;
/** Vertex numbers of the slots' corners; normals of the vertices, 0 where the index has none. */
let idsAt: usize = 0;
let normalsAt: usize = 0;
let slotCount: i32 = 0;
let tie: f64 = 0;
let reach: f64 = 0;
/** Greatest coordinate of the surface. */
let size: f64 = 0;

const normalSlack: f64 = 1e-6;
/** Of the coordinates: a good ten times what they and three products of them lose as float32. */
const laneSlack: f64 = 1.5e-6;

let px: f64 = 0;
let py: f64 = 0;
let pz: f64 = 0;
let tu: f64 = 0;
let tv: f64 = 0;
let toX: f64 = 0;
let toY: f64 = 0;
let toZ: f64 = 0;
let leastCosine: f64 = 0;
let slack: f64 = 0;

/** Squared distance of the best so far; a hair above it, so that ties are looked at. */
let best: f64 = 0;
let bestAndTie: f64 = 0;
/** The same, wide enough for float32. */
let near: f32 = 0;
let bestSlot: i32 = -1;
let bestA: f64 = 0;
let bestB: f64 = 0;
let bestC: f64 = 0;
let bestNx: f64 = 0;
let bestNy: f64 = 0;
let bestNz: f64 = 0;

let footA: f64 = 0;
let footB: f64 = 0;
let footC: f64 = 0;
let footSquared: f64 = 0;
let normalX: f64 = 0;
let normalY: f64 = 0;
let normalZ: f64 = 0;

let laneX: v128 = f32x4.splat(0);
let laneY: v128 = f32x4.splat(0);
let laneZ: v128 = f32x4.splat(0);
/** (u, v, w, u) less the slack, and (u, v, w, u) more the slack. */
let lowPoint: v128 = f32x4.splat(0);
let highPoint: v128 = f32x4.splat(0);

/** Tells the kernel where its index stands, and its greatest coordinate where all is made ready. */
export function take(
  grids: i32,
  slots: i32,
  positions: usize,
  planes: usize,
  open: usize,
  ids: usize,
  normals: usize,
  tieMm: f64,
  reachMm: f64,
  ownAt: usize,
  sizeMm: f64,
): void {
  gridCount = grids;
  slotCount = slots;
  positionsAt = positions;
  planesAt = planes;
  openAt = open;
  idsAt = ids;
  normalsAt = normals;
  tie = tieMm;
  reach = reachMm;
  own = ownAt;
  size = sizeMm;
  // Past the last stands nothing: infinitely far beyond its sides.
  for (let slot = slots; slot % 4 !== 0; slot++)
    for (let lane: usize = 0; lane < 16; lane++) store<f32>(laneAt(slot, lane), lane % 4 === 3 ? -Infinity : 0);
}

/**
 * What is made of the corners of the slots from `first`, a multiple of 4, up to `end`. By stretches: an engine compiles well what
 * is called again, and not what runs.
 */
export function prepare(first: i32, end: i32): void {
  let most = f32x4.splat(0);
  for (let slot = first; slot < end; slot++) most = f32x4.pmax(most, writePlanes(slot));
  const two = f32x4.pmax(most, v128.shuffle<i32>(most, most, 2, 3, 0, 1));
  size = max<f64>(size, f64(max<f32>(f32x4.extract_lane(two, 0), f32x4.extract_lane(two, 1))));
  store<f64>(own + sizeAt, size);
}

function cornerOf(slot: i32, corner: usize): usize {
  return positionsAt + 12 * usize(load<u32>(idsAt + 12 * usize(slot) + 4 * corner));
}

/** |x|, |y|, |z| and 0 of the vertex at `v`. */
function sizesAt(v: usize): v128 {
  return v128.and(f32x4.abs(v128.load(v)), i32x4(-1, -1, -1, 0));
}

function laneAt(slot: i32, lane: usize): usize {
  return planesAt + (usize(slot >> 2) << 8) + (lane << 4) + (usize(slot & 3) << 2);
}

/** Share of its longest side's square below which twice the area of a triangle says nothing of its plane. */
const flat: f64 = 1e-8;

/** Returns the greatest coordinates of its corners. */
function writePlanes(slot: i32): v128 {
  const a = cornerOf(slot, 0);
  const b = cornerOf(slot, 1);
  const c = cornerOf(slot, 2);
  const ax = f64(load<f32>(a));
  const ay = f64(load<f32>(a, 4));
  const az = f64(load<f32>(a, 8));
  const ux = f64(load<f32>(b)) - ax;
  const uy = f64(load<f32>(b, 4)) - ay;
  const uz = f64(load<f32>(b, 8)) - az;
  const vx = f64(load<f32>(c)) - ax;
  const vy = f64(load<f32>(c, 4)) - ay;
  const vz = f64(load<f32>(c, 8)) - az;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const area = Math.sqrt(nx * nx + ny * ny + nz * nz);
  const length: f64 = area === 0 ? 1 : area;
  const plain = area > flat * (ux * ux + uy * uy + uz * uz) && area > flat * (vx * vx + vy * vy + vz * vz);
  writePlane(slot, 0, nx / length, ny / length, nz / length, ax, ay, az, plain);
  writeSide(slot, 4, ux, uy, uz, nx, ny, nz, a, plain);
  writeSide(slot, 8, vx - ux, vy - uy, vz - uz, nx, ny, nz, b, plain);
  writeSide(slot, 12, -vx, -vy, -vz, nx, ny, nz, c, plain);
  return f32x4.pmax(f32x4.pmax(sizesAt(a), sizesAt(b)), sizesAt(c));
}

/** The half-space beyond the side (ex, ey, ez) that begins at the corner `v`: its normal is side × normal. */
function writeSide(
  slot: i32,
  lane: usize,
  ex: f64,
  ey: f64,
  ez: f64,
  nx: f64,
  ny: f64,
  nz: f64,
  v: usize,
  plain: bool,
): void {
  const x = ey * nz - ez * ny;
  const y = ez * nx - ex * nz;
  const z = ex * ny - ey * nx;
  const length = Math.sqrt(x * x + y * y + z * z);
  const by: f64 = plain && length > 0 ? 1 / length : 0;
  writePlane(slot, lane, x * by, y * by, z * by, f64(load<f32>(v)), f64(load<f32>(v, 4)), f64(load<f32>(v, 8)), plain);
}

/** Normals stay where the plane says nothing, since the answer's normal is read here; only the offset is no number. */
function writePlane(slot: i32, lane: usize, x: f64, y: f64, z: f64, vx: f64, vy: f64, vz: f64, plain: bool): void {
  const at = laneAt(slot, lane);
  const mx = f32(x);
  const my = f32(y);
  const mz = f32(z);
  store<f32>(at, mx);
  store<f32>(at, my, 16);
  store<f32>(at, mz, 32);
  const offset = f64(mx) * vx + f64(my) * vy + f64(mz) * vz;
  store<f32>(at, plain ? f32(offset) : NaN, 48);
}

/** The slot of the place closest to what is asked at `askAt`, −1 where there is none; the place itself at `outAt`. */
export function closest(startSlot: i32): i32 {
  const x = load<f64>(own + askAt);
  const y = load<f64>(own + askAt, 8);
  const z = load<f64>(own + askAt, 16);
  px = x;
  py = y;
  pz = z;
  const maxDistance = load<f64>(own + askAt, 24);
  toX = load<f64>(own + askAt, 32);
  toY = load<f64>(own + askAt, 40);
  toZ = load<f64>(own + askAt, 48);
  leastCosine = load<f64>(own + askAt, 56);
  const f = frameAt;
  tu = load<f64>(f) * x + load<f64>(f, 8) * y + load<f64>(f, 16) * z;
  tv = load<f64>(f, 24) * x + load<f64>(f, 32) * y + load<f64>(f, 40) * z;
  const tw = load<f64>(f, 48) * x + load<f64>(f, 56) * y + load<f64>(f, 64) * z;
  slack = laneSlack * (size + abs(x) + abs(y) + abs(z));
  laneX = f32x4.splat(f32(x));
  laneY = f32x4.splat(f32(y));
  laneZ = f32x4.splat(f32(z));
  const turned = f32x4.replace_lane(
    f32x4.replace_lane(f32x4.replace_lane(f32x4.splat(f32(tu)), 1, f32(tv)), 2, f32(tw)),
    3,
    f32(tu),
  );
  const wide = f32x4.splat(f32(slack));
  lowPoint = f32x4.add(turned, wide);
  highPoint = f32x4.sub(turned, wide);
  bestSlot = -1;
  setBest(maxDistance * maxDistance);
  if (startSlot >= 0 && startSlot < slotCount) testOne(startSlot);
  for (let k = 0; k < gridCount; k++) {
    const grid = gridAt + usize(k) * gridBytes;
    search(grid, testOwnColumn(grid));
  }
  if (bestSlot >= 0) writeOut();
  return bestSlot;
}

function setBest(squared: f64): void {
  const distance = Math.sqrt(squared);
  best = squared;
  bestAndTie = (distance + tie) * (distance + tie);
  // A millionth more, since the lanes round the sums of squares as well.
  near = f32(bestAndTie * 1.000001);
}

function testOwnColumn(grid: usize): i32 {
  const cell = load<f64>(grid, 16);
  const col = i32(Math.floor((tu - load<f64>(grid)) / cell));
  const row = i32(Math.floor((tv - load<f64>(grid, 8)) / cell));
  const width = load<i32>(grid, 64);
  if (col < 0 || row < 0 || col >= width || row >= load<i32>(grid, 120)) return -1;
  const column = row * width + col;
  if (boxSquared(<usize>load<u32>(grid, 36) + 24 * usize(column)) < near) testColumn(grid, column);
  return column;
}

/** Squared distance from the box at `at`, less the slack. */
function boxSquared(at: usize): f32 {
  // (u₀ v₀ w₀ u₁) and (w₀ u₁ v₁ w₁).
  const low = v128.load(at);
  const last = v128.load(at, 8);
  const high = i32x4.shuffle(last, last, 1, 2, 3, 0);
  const d = f32x4.pmax(f32x4.pmax(f32x4.sub(low, lowPoint), f32x4.sub(highPoint, high)), f32x4.splat(0));
  const dd = f32x4.mul(d, d);
  return f32x4.extract_lane(dd, 0) + f32x4.extract_lane(dd, 1) + f32x4.extract_lane(dd, 2);
}

function search(grid: usize, done: i32): void {
  const bounds = <usize>load<u32>(grid, 36);
  let top = pushNear(grid, bounds);
  while (top > 0) {
    top--;
    if (load<f32>(own + stackSquaredAt + (usize(top) << 2)) >= near) continue;
    const node = load<u32>(own + stackNodeAt + (usize(top) << 2));
    const level = node >>> 26;
    const row = i32((node >>> 13) & 8191);
    const col = i32(node & 8191);
    if (level === 0) {
      const column = row * load<i32>(grid, 64) + col;
      if (column !== done) testColumn(grid, column);
      continue;
    }
    const below = level - 1;
    const at = grid + (usize(below) << 2);
    const width = load<i32>(at, 64);
    const rowEnd = min(2 * row + 2, load<i32>(at, 120));
    const colEnd = min(2 * col + 2, width);
    const start = load<i32>(at, 176);
    const base = top;
    for (let r = 2 * row; r < rowEnd; r++)
      for (let c = 2 * col; c < colEnd; c++) {
        const squared = boxSquared(bounds + 24 * usize(start + r * width + c));
        if (squared >= near) continue;
        let k = top++;
        for (; k > base && load<f32>(own + stackSquaredAt + (usize(k - 1) << 2)) < squared; k--) {
          store<f32>(own + stackSquaredAt + (usize(k) << 2), load<f32>(own + stackSquaredAt + (usize(k - 1) << 2)));
          store<u32>(own + stackNodeAt + (usize(k) << 2), load<u32>(own + stackNodeAt + (usize(k - 1) << 2)));
        }
        store<f32>(own + stackSquaredAt + (usize(k) << 2), squared);
        store<u32>(own + stackNodeAt + (usize(k) << 2), (below << 26) | (u32(r) << 13) | u32(c));
      }
  }
}

/** Column or row of a place, held between −1 and 8192 so that it fits an integer however far the place is. */
function placeOf(v: f64, low: f64, cell: f64): i32 {
  return i32(Math.floor(max<f64>(-1, min<f64>(8192, (v - low) / cell))));
}

function pushNear(grid: usize, bounds: usize): i32 {
  const left = load<f64>(grid);
  const low = load<f64>(grid, 8);
  const radius = Math.sqrt(bestAndTie) + load<f64>(grid, 24);
  const levels = load<i32>(grid, 32);
  let level: i32 = 0;
  let cell = load<f64>(grid, 16);
  while (2 * cell < radius && level < levels - 1) {
    cell *= 2;
    level++;
  }
  const at = grid + (usize(level) << 2);
  const width = load<i32>(at, 64);
  const start = load<i32>(at, 176);
  const colFrom = max(0, placeOf(tu - radius, left, cell));
  const colTo = min(width - 1, placeOf(tu + radius, left, cell));
  const rowFrom = max(0, placeOf(tv - radius, low, cell));
  const rowTo = min(load<i32>(at, 120) - 1, placeOf(tv + radius, low, cell));
  let top: i32 = 0;
  for (let row = rowFrom; row <= rowTo; row++)
    for (let col = colFrom; col <= colTo; col++) {
      const squared = boxSquared(bounds + 24 * usize(start + row * width + col));
      if (squared >= near) continue;
      store<f32>(own + stackSquaredAt + (usize(top) << 2), squared);
      store<u32>(own + stackNodeAt + (usize(top++) << 2), (u32(level) << 26) | (u32(row) << 13) | u32(col));
    }
  return top;
}

function testColumn(grid: usize, column: i32): void {
  const starts = <usize>load<u32>(grid, 40) + (usize(column) << 2);
  const blocks = <usize>load<u32>(grid, 44);
  const boxes = <usize>load<u32>(grid, 48);
  const from = load<i32>(starts);
  const to = load<i32>(starts, 4);
  for (let block = from; block < to; block++) {
    if (to > from + 1 && boxSquared(boxes + 24 * usize(block)) >= near) continue;
    const at = blocks + (usize(block) << 2);
    testSlots(load<i32>(at), load<i32>(at, 4));
  }
}

/**
 * Four triangles at a time: what lies farther beyond their planes and sides than the best is left out. Before `from` and past `to` stand
 * triangles of other blocks, or nothing: a triangle too many does no harm, the answer is the closest of all looked at.
 */
function testSlots(from: i32, to: i32): void {
  const wide = f32x4.splat(f32(slack));
  const zero = f32x4.splat(0);
  for (let slot = from & ~3; slot < to; slot += 4) {
    const at = planesAt + (usize(slot) << 6);
    // Zero where the offset is no number, as it is for all four half-spaces or for none (pmax, not max, which also takes longer).
    const above = f32x4.pmax(zero, f32x4.sub(f32x4.abs(beyond(at)), wide));
    const side = f32x4.pmax(f32x4.pmax(beyond(at + 64), beyond(at + 128)), beyond(at + 192));
    const beside = f32x4.pmax(zero, f32x4.sub(side, wide));
    const least = f32x4.add(f32x4.mul(above, above), f32x4.mul(beside, beside));
    let open = f32x4.lt(least, f32x4.splat(near));
    while (v128.any_true(open)) {
      // The nearest first: it often leaves the others out.
      const left = v128.bitselect(least, f32x4.splat(Infinity), open);
      const pairs = f32x4.pmin(left, i32x4.shuffle(left, left, 1, 0, 3, 2));
      const nearest = f32x4.pmin(pairs, i32x4.shuffle(pairs, pairs, 2, 3, 0, 1));
      const lane = ctz(i32x4.bitmask(v128.and(f32x4.eq(left, nearest), open)));
      testOne(slot + lane);
      const done = i32x4.eq(i32x4.splat(lane), i32x4(0, 1, 2, 3));
      open = v128.and(v128.andnot(open, done), f32x4.lt(least, f32x4.splat(near)));
    }
  }
}

/** m · p − m · v for the planes of four triangles. */
function beyond(at: usize): v128 {
  return f32x4.sub(
    f32x4.add(
      f32x4.add(f32x4.mul(laneX, v128.load(at)), f32x4.mul(laneY, v128.load(at, 16))),
      f32x4.mul(laneZ, v128.load(at, 32)),
    ),
    v128.load(at, 48),
  );
}

function testOne(slot: i32): void {
  footOn(cornerOf(slot, 0), cornerOf(slot, 1), cornerOf(slot, 2));
  if (footSquared < bestAndTie) takeFoot(slot);
}

/** See core/geometry/spatial/closestOnTriangle.ts. */
function footOn(a: usize, b: usize, c: usize): void {
  const ax = f64(load<f32>(a));
  const ay = f64(load<f32>(a, 4));
  const az = f64(load<f32>(a, 8));
  const ux = f64(load<f32>(b)) - ax;
  const uy = f64(load<f32>(b, 4)) - ay;
  const uz = f64(load<f32>(b, 8)) - az;
  const vx = f64(load<f32>(c)) - ax;
  const vy = f64(load<f32>(c, 4)) - ay;
  const vz = f64(load<f32>(c, 8)) - az;
  const dx = px - ax;
  const dy = py - ay;
  const dz = pz - az;
  const uu = ux * ux + uy * uy + uz * uz;
  const uv = ux * vx + uy * vy + uz * vz;
  const vv = vx * vx + vy * vy + vz * vz;
  const du = ux * dx + uy * dy + uz * dz;
  const dv = vx * dx + vy * dy + vz * dz;
  let wa: f64 = 0;
  let wb = vv * du - uv * dv;
  let wc = uu * dv - uv * du;
  const area = uu * vv - uv * uv;
  if (wb > 0 && wc > 0 && wb + wc < area) {
    wb /= area;
    wc /= area;
    wa = 1 - wb - wc;
  } else {
    const beyondAb = wc <= 0;
    const beyondCa = wb <= 0;
    const beyondBc = wb + wc >= area;
    let least = Infinity;
    if (beyondAb) {
      const s: f64 = du <= 0 ? 0 : du >= uu ? 1 : du / uu;
      least = s * (s * uu - 2 * du);
      wb = s;
      wc = 0;
      wa = 1 - s;
    }
    if (beyondCa) {
      const s: f64 = dv <= 0 ? 0 : dv >= vv ? 1 : dv / vv;
      const d = s * (s * vv - 2 * dv);
      if (d < least) {
        least = d;
        wb = 0;
        wc = s;
        wa = 1 - s;
      }
    }
    if (beyondBc) {
      const whole = uu - 2 * uv + vv;
      const along = dv - du - uv + uu;
      const s: f64 = along <= 0 ? 0 : along >= whole ? 1 : along / whole;
      const d = uu - 2 * du + s * (s * whole - 2 * along);
      if (d < least) {
        wb = 1 - s;
        wc = s;
        wa = 0;
      }
    }
  }
  const ex = dx - wb * ux - wc * vx;
  const ey = dy - wb * uy - wc * vy;
  const ez = dz - wb * uz - wc * vz;
  footA = wa;
  footB = wb;
  footC = wc;
  footSquared = ex * ex + ey * ey + ez * ez;
}

function takeFoot(slot: i32): void {
  const less = Math.sqrt(best) - Math.sqrt(footSquared);
  if (bestSlot >= 0 && less <= tie && !winsTie(slot)) return;
  normalAt(slot);
  if (normalX * toX + normalY * toY + normalZ * toZ < leastCosine) return;
  setBest(footSquared);
  bestSlot = slot;
  bestA = footA;
  bestB = footB;
  bestC = footC;
  bestNx = normalX;
  bestNy = normalY;
  bestNz = normalZ;
}

function winsTie(slot: i32): bool {
  const more = facing(slot) - facing(bestSlot);
  if (abs(more) > normalSlack * (Math.sqrt(best) + reach)) return more > 0;
  for (let k: usize = 0; k < 12; k += 4) {
    const difference = threeCorners(slot, k) - threeCorners(bestSlot, k);
    if (abs(difference) > normalSlack * reach) return difference < 0;
  }
  return false;
}

/** Sum of a coordinate, at so many bytes, over the corners. */
function threeCorners(slot: i32, k: usize): f64 {
  const a = f64(load<f32>(cornerOf(slot, 0) + k));
  return a + f64(load<f32>(cornerOf(slot, 1) + k)) + f64(load<f32>(cornerOf(slot, 2) + k));
}

function planeNormal(slot: i32, k: usize): f64 {
  return f64(load<f32>(laneAt(slot, k)));
}

function facing(slot: i32): f64 {
  const a = cornerOf(slot, 0);
  return abs(
    planeNormal(slot, 0) * (px - f64(load<f32>(a))) +
      planeNormal(slot, 1) * (py - f64(load<f32>(a, 4))) +
      planeNormal(slot, 2) * (pz - f64(load<f32>(a, 8))),
  );
}

function normalAt(slot: i32): void {
  normalX = planeNormal(slot, 0);
  normalY = planeNormal(slot, 1);
  normalZ = planeNormal(slot, 2);
  if (normalsAt === 0) return;
  const ids = idsAt + 12 * usize(slot);
  const a = normalsAt + 12 * usize(load<u32>(ids));
  const b = normalsAt + 12 * usize(load<u32>(ids, 4));
  const c = normalsAt + 12 * usize(load<u32>(ids, 8));
  const x = footA * f64(load<f32>(a)) + footB * f64(load<f32>(b)) + footC * f64(load<f32>(c));
  const y = footA * f64(load<f32>(a, 4)) + footB * f64(load<f32>(b, 4)) + footC * f64(load<f32>(c, 4));
  const z = footA * f64(load<f32>(a, 8)) + footB * f64(load<f32>(b, 8)) + footC * f64(load<f32>(c, 8));
  const length = Math.sqrt(x * x + y * y + z * z);
  if (!(length > 1e-6)) return;
  normalX = x / length;
  normalY = y / length;
  normalZ = z / length;
}

const nearZero: f64 = 1e-9;

function writeOut(): void {
  const a = cornerOf(bestSlot, 0);
  const b = cornerOf(bestSlot, 1);
  const c = cornerOf(bestSlot, 2);
  const x = bestA * f64(load<f32>(a)) + bestB * f64(load<f32>(b)) + bestC * f64(load<f32>(c));
  const y = bestA * f64(load<f32>(a, 4)) + bestB * f64(load<f32>(b, 4)) + bestC * f64(load<f32>(c, 4));
  const z = bestA * f64(load<f32>(a, 8)) + bestB * f64(load<f32>(b, 8)) + bestC * f64(load<f32>(c, 8));
  const dx = px - x;
  const dy = py - y;
  const dz = pz - z;
  store<f64>(own + outAt, x);
  store<f64>(own + outAt, y, 8);
  store<f64>(own + outAt, z, 16);
  store<f64>(own + outAt, bestNx, 24);
  store<f64>(own + outAt, bestNy, 32);
  store<f64>(own + outAt, bestNz, 40);
  store<f64>(own + outAt, Math.sqrt(dx * dx + dy * dy + dz * dz), 48);
  const open = i32(load<u8>(openAt + usize(bestSlot)));
  store<f64>(own + outAt, open !== 0 && standsOnBorder(open) ? 1 : 0, 56);
}

function standsOnBorder(open: i32): bool {
  const zeros = (bestA < nearZero ? 1 : 0) | (bestB < nearZero ? 2 : 0) | (bestC < nearZero ? 4 : 0);
  if (zeros === 6) return (open & 8) !== 0;
  if (zeros === 5) return (open & 16) !== 0;
  if (zeros === 3) return (open & 32) !== 0;
  return (zeros === 1 && (open & 2) !== 0) || (zeros === 2 && (open & 4) !== 0) || (zeros === 4 && (open & 1) !== 0);
}
