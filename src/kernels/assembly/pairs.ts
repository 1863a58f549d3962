// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: points of a face moved, bent and paired with what they meet, as
// `pairPlainly` of core/fit/correspondences.ts does it, which is the referee: the same operations in the same order on float64, so the answers
// are the same numbers. pairs.ts beside this folder lays ground and points out in the memory.

/** The motion: scale, rotation (9), translation (3), bending (12), side, radius, reach; and the ground, as `groundAt` says. */
const moveAt: usize = 1024;
const bendingAt: usize = moveAt + 8 * 13;
const sideAt: usize = moveAt + 8 * 25;
const radiusAt: usize = moveAt + 8 * 26;
const reachAt: usize = moveAt + 8 * 27;
/** Width, height, pitch, left, top; rotation and translation that take the scan to its face. */
const groundAt: usize = 1536;
const rotationAt: usize = groundAt + 8 * 5;
const translationAt: usize = groundAt + 8 * 14;
/** Heights, float32, of which those are counterparts that are marked at `insideAt`. */
const heightsAt: usize = 2048;

/** Normals at less than 60° are counterparts. */
const leastCosine: f64 = 0.5;

let insideAt: usize = 0;
/** Of every point: xyz and normal before the motion, xyz and normal after it, residual, question and answer. */
let fromAt: usize = 0;
let turningAt: usize = 0;
let movedAt: usize = 0;
let normalsAt: usize = 0;
let residualAt: usize = 0;
let questionsAt: usize = 0;
let answersAt: usize = 0;

/** What is looked at: the point, bent, and its normal; what it meets, less the point, and the normal there. */
let x: f64 = 0;
let y: f64 = 0;
let z: f64 = 0;
let nx: f64 = 0;
let ny: f64 = 0;
let nz: f64 = 0;
let dx: f64 = 0;
let dy: f64 = 0;
let dz: f64 = 0;
let mx: f64 = 0;
let my: f64 = 0;
let mz: f64 = 0;

/** Where everything stands; questions and answers behind the rest. */
export function take(count: i32, inside: usize, points: usize): void {
  const triples: usize = 24 * usize(count);
  insideAt = inside;
  fromAt = points;
  turningAt = fromAt + triples;
  movedAt = turningAt + triples;
  normalsAt = movedAt + triples;
  residualAt = normalsAt + triples;
  questionsAt = residualAt + 8 * usize(count);
  answersAt = questionsAt + 2 * triples;
}

/** Pairs each point with the place of the relief above or below it. */
export function alongHeight(count: i32): void {
  for (let i = 0; i < count; i++) {
    if (place(i) && meetAlongHeight()) pair(i);
    else leave(i);
  }
}

/** Writes for each point what is to be asked of the surface, place and normal in the scan's frame; NaN where nothing is. */
export function ask(count: i32): void {
  const r = rotationAt;
  for (let i = 0; i < count; i++) {
    const to = questionsAt + 48 * usize(i);
    if (!place(i)) {
      store<f64>(to, NaN);
      continue;
    }
    const px = x - load<f64>(translationAt);
    const py = y - load<f64>(translationAt, 8);
    const pz = z - load<f64>(translationAt, 16);
    for (let k: usize = 0; k < 24; k += 8) {
      const a = load<f64>(r + k);
      const b = load<f64>(r + k, 24);
      const c = load<f64>(r + k, 48);
      store<f64>(to + k, a * px + b * py + c * pz);
      store<f64>(to + k, a * nx + b * ny + c * nz, 24);
    }
  }
}

/** Pairs each point with the answer, place and normal in the scan's frame; NaN where nothing was met. */
export function answered(count: i32): void {
  const r = rotationAt;
  for (let i = 0; i < count; i++) {
    const at = answersAt + 48 * usize(i);
    if (isNaN<f64>(load<f64>(at))) {
      leave(i);
      continue;
    }
    turn(i);
    const question = questionsAt + 48 * usize(i);
    const qx = load<f64>(at) - load<f64>(question);
    const qy = load<f64>(at, 8) - load<f64>(question, 8);
    const qz = load<f64>(at, 16) - load<f64>(question, 16);
    dx = along(r, qx, qy, qz);
    dy = along(r + 24, qx, qy, qz);
    dz = along(r + 48, qx, qy, qz);
    mx = along(r, load<f64>(at, 24), load<f64>(at, 32), load<f64>(at, 40));
    my = along(r + 24, load<f64>(at, 24), load<f64>(at, 32), load<f64>(at, 40));
    mz = along(r + 48, load<f64>(at, 24), load<f64>(at, 32), load<f64>(at, 40));
    pair(i);
  }
}

function along(row: usize, a: f64, b: f64, c: f64): f64 {
  return load<f64>(row) * a + load<f64>(row, 8) * b + load<f64>(row, 16) * c;
}

/** Moves point i, bends it and turns its normal; false where no pair may end over it. */
function place(i: i32): bool {
  const s = load<f64>(moveAt);
  const r = moveAt + 8;
  const t = moveAt + 80;
  const from = fromAt + 24 * usize(i);
  const a = load<f64>(from);
  const b = load<f64>(from, 8);
  const c = load<f64>(from, 16);
  x = s * along(r, a, b, c) + load<f64>(t);
  y = s * along(r + 24, a, b, c) + load<f64>(t, 8);
  z = s * along(r + 48, a, b, c) + load<f64>(t, 16);
  const to = movedAt + 24 * usize(i);
  store<f64>(to, x);
  store<f64>(to, y, 8);
  store<f64>(to, z, 16);
  const width = i32(load<f64>(groundAt));
  const col = Math.round(columnOf(x));
  const row = Math.round(rowOf(y));
  if (!(col >= 0 && row >= 0 && col < f64(width) && row < load<f64>(groundAt, 8))) return false;
  if (load<u8>(insideAt + usize(i32(row) * width + i32(col))) !== 1) return false;
  bend(x / load<f64>(radiusAt), y / load<f64>(radiusAt));
  turn(i);
  return true;
}

function turn(i: i32): void {
  const side = load<f64>(sideAt);
  const r = moveAt + 8;
  const turning = turningAt + 24 * usize(i);
  const a = load<f64>(turning);
  const b = load<f64>(turning, 8);
  const c = load<f64>(turning, 16);
  nx = side * along(r, a, b, c);
  ny = side * along(r + 24, a, b, c);
  nz = side * along(r + 48, a, b, c);
}

function columnOf(at: f64): f64 {
  return (at - load<f64>(groundAt, 24)) / load<f64>(groundAt, 16);
}

function rowOf(at: f64): f64 {
  return (load<f64>(groundAt, 32) - at) / load<f64>(groundAt, 16);
}

function bending(k: usize): f64 {
  return load<f64>(bendingAt + 8 * k);
}

/** Adds Σ cₖ bₖ(u, v), the fields of core/fit/warp.ts. */
function bend(u: f64, v: f64): void {
  const squares = u * u + v * v;
  const difference = u * u - v * v;
  const twice = 2 * u * v;
  const even = bending(0) * (u * u) + bending(1) * (u * v) + bending(2) * (v * v);
  const odd = bending(3) * (u * u * u) + bending(4) * (u * u * v) + bending(5) * (u * v * v) + bending(6) * (v * v * v);
  x += bending(7) * u + bending(8) * v + bending(9) * (u * squares) + bending(10) * difference - bending(11) * twice;
  y += bending(8) * u - bending(7) * v + bending(9) * (v * squares) + bending(10) * twice + bending(11) * difference;
  z += even + odd;
}

function meetAlongHeight(): bool {
  const width = i32(load<f64>(groundAt));
  const height = i32(load<f64>(groundAt, 8));
  const pitch = load<f64>(groundAt, 16);
  const col = Math.round(columnOf(x));
  const row = Math.round(rowOf(y));
  if (!(col >= 1 && row >= 1 && col < f64(width - 1) && row < f64(height - 1))) return false;
  const i = i32(row) * width + i32(col);
  const here = insideAt + usize(i);
  const wide = usize(width);
  if (!(load<u8>(here) && load<u8>(here - 1) && load<u8>(here, 1) && load<u8>(here - wide) && load<u8>(here + wide)))
    return false;
  const at = heightsAt + 4 * usize(i);
  const gx = (f64(load<f32>(at, 4)) - f64(load<f32>(at - 4))) / (2 * pitch);
  const gy = (f64(load<f32>(at - 4 * wide)) - f64(load<f32>(at + 4 * wide))) / (2 * pitch);
  const length = Math.sqrt(gx * gx + gy * gy + 1);
  mx = -gx / length;
  my = -gy / length;
  mz = 1 / length;
  dx = 0;
  dy = 0;
  const left = load<f64>(groundAt, 24);
  const top = load<f64>(groundAt, 32);
  dz = f64(load<f32>(at)) + gx * (x - left - col * pitch) + gy * (y - top + row * pitch) - z;
  return Math.abs(dz) * mz < load<f64>(reachAt) && nx * mx + ny * my + nz * mz > leastCosine;
}

/** The normal between both, and how far along it the one lies beyond the other. */
function pair(i: i32): void {
  const ax = mx + nx;
  const ay = my + ny;
  const az = mz + nz;
  const length = Math.sqrt(ax * ax + ay * ay + az * az);
  const to = normalsAt + 24 * usize(i);
  store<f64>(to, ax / length);
  store<f64>(to, ay / length, 8);
  store<f64>(to, az / length, 16);
  store<f64>(residualAt + 8 * usize(i), (dx * ax + dy * ay + dz * az) / length);
}

/** Nothing was met. */
function leave(i: i32): void {
  const to = normalsAt + 24 * usize(i);
  store<f64>(to, 0);
  store<f64>(to, 0, 8);
  store<f64>(to, 0, 16);
  store<f64>(residualAt + 8 * usize(i), NaN);
}
