// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: passes over all triangles of a surface, as
// core/face/raster.ts and core/geometry/mesh/mesh.ts make them, which are the referees: the same operations in the same order, so
// the answers are the same numbers. Each pass is called by stretches: an engine compiles well what is called again, and not what
// runs. surfacePasses.ts beside this folder lays the surface out in the memory.

/** Rows of the turn and scale, then the shift: twelve float64. */
const turnAt: usize = 1024;
/** Least and greatest x, least and greatest y: four float32. */
const boxAt: usize = 1152;

/** xyz float32 of the vertices, three vertex numbers a triangle, and what a pass writes. */
let positions: usize = 0;
let triangles: usize = 0;
let results: usize = 0;

export function take(positionsAt: usize, trianglesAt: usize, resultsAt: usize): void {
  positions = positionsAt;
  triangles = trianglesAt;
  results = resultsAt;
}

function cornerAt(triangle: i32, corner: usize): usize {
  return positions + 12 * usize(load<u32>(triangles + 12 * usize(triangle) + 4 * corner));
}

/** Vertices into another frame, in place. */
export function turn(from: i32, to: i32): void {
  for (let v = from; v < to; v++) {
    const at = positions + 12 * usize(v);
    const x = f64(load<f32>(at));
    const y = f64(load<f32>(at, 4));
    const z = f64(load<f32>(at, 8));
    store<f32>(at, f32(turned(0, x, y, z)));
    store<f32>(at, f32(turned(1, x, y, z)), 4);
    store<f32>(at, f32(turned(2, x, y, z)), 8);
  }
}

function turned(row: usize, x: f64, y: f64, z: f64): f64 {
  const m = turnAt + 24 * row;
  return load<f64>(m) * x + load<f64>(m, 8) * y + load<f64>(m, 16) * z + load<f64>(turnAt + 8 * row, 72);
}

/** Widens the box by the corners of the triangles. */
export function spread(from: i32, to: i32): void {
  let xMin = load<f32>(boxAt);
  let xMax = load<f32>(boxAt, 4);
  let yMin = load<f32>(boxAt, 8);
  let yMax = load<f32>(boxAt, 12);
  for (let t = from; t < to; t++)
    for (let k: usize = 0; k < 3; k++) {
      const at = cornerAt(t, k);
      const x = load<f32>(at);
      const y = load<f32>(at, 4);
      if (x < xMin) xMin = x;
      if (x > xMax) xMax = x;
      if (y < yMin) yMin = y;
      if (y > yMax) yMax = y;
    }
  store<f32>(boxAt, xMin);
  store<f32>(boxAt, xMax, 4);
  store<f32>(boxAt, yMin, 8);
  store<f32>(boxAt, yMax, 12);
}

let width: i32 = 0;
/** Column and row of the last cell; middle of the first; cells a mm to the right and down. */
let last: v128 = f64x2.splat(0);
let first: v128 = f64x2.splat(0);
let perMm: v128 = f64x2.splat(0);

/** Cells to draw on: float32 heights from `results`, all of them −∞. */
export function window(columns: i32, rows: i32, left: f64, top: f64, pitch: f64): void {
  width = columns;
  last = f64x2(columns - 1, rows - 1);
  first = f64x2(left, top);
  perMm = f64x2(1 / pitch, -1 / pitch);
}

/** Column and row of a vertex, in two lanes. */
function cellOf(v: usize): v128 {
  return f64x2.mul(f64x2.sub(f64x2.promote_low_f32x4(v128.load64_zero(v)), first), perMm);
}

/** Height of the highest triangle that looks toward the viewer, over each cell's middle. */
export function draw(from: i32, to: i32): void {
  for (let t = from; t < to; t++) drawTriangle(cornerAt(t, 0), cornerAt(t, 1), cornerAt(t, 2));
}

/** Least and greatest of three are pairs of lanes: on one float64 they are branches, which no processor could foretell. */
function drawTriangle(aAt: usize, bAt: usize, cAt: usize): void {
  const a = cellOf(aAt);
  const b = cellOf(bAt);
  const c = cellOf(cAt);
  const ab = f64x2.sub(b, a);
  const ac = f64x2.sub(c, a);
  const across = f64x2.mul(ab, v128.shuffle<f64>(ac, ac, 1, 0));
  const area = f64x2.extract_lane(across, 0) - f64x2.extract_lane(across, 1);
  if (!(area < 0)) return;
  const low = f64x2.pmax(f64x2.splat(0), f64x2.ceil(f64x2.pmin(f64x2.pmin(a, b), c)));
  const high = f64x2.pmin(last, f64x2.floor(f64x2.pmax(f64x2.pmax(a, b), c)));
  if (!i64x2.all_true(f64x2.le(low, high))) return;
  const ax = f64x2.extract_lane(a, 0);
  const ay = f64x2.extract_lane(a, 1);
  const bx = f64x2.extract_lane(b, 0);
  const by = f64x2.extract_lane(b, 1);
  const cx = f64x2.extract_lane(c, 0);
  const cy = f64x2.extract_lane(c, 1);
  const az = f64(load<f32>(aAt, 8));
  const bz = f64(load<f32>(bAt, 8));
  const cz = f64(load<f32>(cAt, 8));
  const scale = 1 / area;
  const colTo = f64x2.extract_lane(high, 0);
  const rowTo = f64x2.extract_lane(high, 1);
  for (let row = f64x2.extract_lane(low, 1); row <= rowTo; row += 1)
    for (let col = f64x2.extract_lane(low, 0); col <= colTo; col += 1) {
      const u = ((bx - col) * (cy - row) - (cx - col) * (by - row)) * scale;
      const v = ((cx - col) * (ay - row) - (ax - col) * (cy - row)) * scale;
      const w = 1 - u - v;
      if (u < -1e-6 || v < -1e-6 || w < -1e-6) continue;
      const z = u * az + v * bz + w * cz;
      const at = results + 4 * usize(i32(row) * width + i32(col));
      if (f64(load<f32>(at)) < z) store<f32>(at, f32(z));
    }
}

let least: f32 = 0;
let most: f32 = 0;
let below: u32 = 0;
let listed: u32 = 0;

/** Sides are to be counted anew: how many squares are below `from`, and those up to `to` listed, float32 from `results` on. */
export function near(from: f32, to: f32): void {
  least = from;
  most = to;
  below = 0;
  listed = 0;
}

export function sidesBelow(): u32 {
  return below;
}

export function sidesListed(): u32 {
  return listed;
}

/** Squared lengths of the sides of every so-manyth triangle. */
export function sides(from: i32, to: i32, every: i32): void {
  for (let t = from; t < to; t += every) {
    const a = cornerAt(t, 0);
    const b = cornerAt(t, 1);
    const c = cornerAt(t, 2);
    put(squareOf(a, b));
    put(squareOf(b, c));
    put(squareOf(c, a));
  }
}

function squareOf(a: usize, b: usize): f32 {
  const x = f64(load<f32>(a)) - f64(load<f32>(b));
  const y = f64(load<f32>(a, 4)) - f64(load<f32>(b, 4));
  const z = f64(load<f32>(a, 8)) - f64(load<f32>(b, 8));
  return f32(x * x + y * y + z * z);
}

/** Without a branch, which no processor could foretell: what is not listed is written over. */
function put(square: f32): void {
  store<f32>(results + 4 * usize(listed), square);
  listed += u32(square >= least) & u32(square <= most);
  below += u32(square < least);
}

/** Twice the area times the normal of every triangle, added to its corners: xyz float32 from `results`, noughts at first. */
export function normals(from: i32, to: i32): void {
  for (let t = from; t < to; t++) {
    const a = cornerAt(t, 0);
    const b = cornerAt(t, 1);
    const c = cornerAt(t, 2);
    const ax = f64(load<f32>(a));
    const ay = f64(load<f32>(a, 4));
    const az = f64(load<f32>(a, 8));
    const ux = f64(load<f32>(b)) - ax;
    const uy = f64(load<f32>(b, 4)) - ay;
    const uz = f64(load<f32>(b, 8)) - az;
    const vx = f64(load<f32>(c)) - ax;
    const vy = f64(load<f32>(c, 4)) - ay;
    const vz = f64(load<f32>(c, 8)) - az;
    const x = uy * vz - uz * vy;
    const y = uz * vx - ux * vz;
    const z = ux * vy - uy * vx;
    add(a, x, y, z);
    add(b, x, y, z);
    add(c, x, y, z);
  }
}

function add(corner: usize, x: f64, y: f64, z: f64): void {
  const at = results + (corner - positions);
  store<f32>(at, f32(f64(load<f32>(at)) + x));
  store<f32>(at, f32(f64(load<f32>(at, 4)) + y), 4);
  store<f32>(at, f32(f64(load<f32>(at, 8)) + z), 8);
}

/** Every normal brought to length 1, but those of length 0. */
export function unit(from: i32, to: i32): void {
  for (let v = from; v < to; v++) {
    const at = results + 12 * usize(v);
    const x = f64(load<f32>(at));
    const y = f64(load<f32>(at, 4));
    const z = f64(load<f32>(at, 8));
    const length = Math.sqrt(x * x + y * y + z * z);
    if (length === 0) continue;
    store<f32>(at, f32(x / length));
    store<f32>(at, f32(y / length), 4);
    store<f32>(at, f32(z / length), 8);
  }
}
