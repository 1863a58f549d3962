// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: one round of the fit of a smooth flow to the shifts of patches, each
// predicted by all others, as core/judge/scatter.ts makes it, which is the referee: the same operations in the same order, so the
// answers are the same numbers. scatter.ts beside this folder lays the patches out in the memory.

/** float64 each: basis (m a patch), noise (three), shift (two), membership; then what comes out: remainder (two), its square, its determinant. */
let basisAt: usize = 0;
let noiseAt: usize = 0;
let shiftAt: usize = 0;
let memberAt: usize = 0;
let leftAt: usize = 0;
let squareAt: usize = 0;
let determinantAt: usize = 0;

/** The normal matrix and its inverse, (2m)² each, right side and coefficients, 2m each; m is at most 10. */
const normalAt: usize = 1024;
const inverseAt: usize = 4352;
const rightAt: usize = 7680;
const betaAt: usize = 7936;

let patches: i32 = 0;
let m: usize = 0;

export function take(
  count: i32,
  terms: i32,
  basis: usize,
  noise: usize,
  shift: usize,
  member: usize,
  left: usize,
  square: usize,
  determinant: usize,
): void {
  patches = count;
  m = usize(terms);
  basisAt = basis;
  noiseAt = noise;
  shiftAt = shift;
  memberAt = member;
  leftAt = left;
  squareAt = square;
  determinantAt = determinant;
}

/** Predicts every patch from the others, for the memberships as they stand; 0 where that cannot be solved. */
export function round(): i32 {
  normalMatrix();
  if (!invert()) return 0;
  solve();
  for (let i = 0; i < patches; i++) leaveOut(usize(i));
  return 1;
}

let wxx: f64 = 0;
let wxy: f64 = 0;
let wyy: f64 = 0;

/** Inverse of a patch's covariance, times its membership. */
function setPrecision(i: usize): void {
  const at = noiseAt + 24 * i;
  const xx = load<f64>(at);
  const xy = load<f64>(at, 8);
  const yy = load<f64>(at, 16);
  const member = load<f64>(memberAt + 8 * i);
  const det = xx * yy - xy * xy;
  wxx = (member * yy) / det;
  wxy = (-member * xy) / det;
  wyy = (member * xx) / det;
}

function normalMatrix(): void {
  const row: usize = 16 * m;
  memory.fill(normalAt, 0, 2 * m * row);
  for (let i = 0; i < patches; i++) {
    setPrecision(usize(i));
    const basis = basisAt + 8 * m * usize(i);
    for (let p: usize = 0; p < m; p++) {
      const x = normalAt + p * row;
      const y = x + m * row;
      const own = load<f64>(basis + 8 * p);
      for (let q: usize = 0; q < m; q++) {
        const bb = own * load<f64>(basis + 8 * q);
        add(x + 8 * q, wxx * bb);
        add(x + 8 * (m + q), wxy * bb);
        add(y + 8 * q, wxy * bb);
        add(y + 8 * (m + q), wyy * bb);
      }
    }
  }
  for (let p: usize = 0; p < 2 * m; p++) add(normalAt + p * (row + 8), 1);
}

function add(at: usize, value: f64): void {
  store<f64>(at, load<f64>(at) + value);
}

/** Gauss and Jordan's, with pivots. */
function invert(): bool {
  const n: usize = 2 * m;
  const row: usize = 8 * n;
  memory.fill(inverseAt, 0, n * row);
  for (let i: usize = 0; i < n; i++) store<f64>(inverseAt + i * (row + 8), 1);
  for (let i: usize = 0; i < n; i++) {
    let pivot = i;
    for (let r = i + 1; r < n; r++)
      if (Math.abs(load<f64>(normalAt + r * row + 8 * i)) > Math.abs(load<f64>(normalAt + pivot * row + 8 * i)))
        pivot = r;
    const value = load<f64>(normalAt + pivot * row + 8 * i);
    if (!(Math.abs(value) > 1e-300)) return false;
    if (pivot !== i) {
      swapRows(normalAt + i * row, normalAt + pivot * row, row);
      swapRows(inverseAt + i * row, inverseAt + pivot * row, row);
    }
    const ownAt = normalAt + i * row;
    const ownInverseAt = inverseAt + i * row;
    for (let c: usize = 0; c < row; c += 8) {
      store<f64>(ownAt + c, load<f64>(ownAt + c) / value);
      store<f64>(ownInverseAt + c, load<f64>(ownInverseAt + c) / value);
    }
    for (let r: usize = 0; r < n; r++) {
      if (r === i) continue;
      const at = normalAt + r * row;
      const inverse = inverseAt + r * row;
      const f = load<f64>(at + 8 * i);
      if (f === 0) continue;
      const times = f64x2.splat(f);
      for (let c: usize = 0; c < row; c += 16) {
        v128.store(at + c, f64x2.sub(v128.load(at + c), f64x2.mul(times, v128.load(ownAt + c))));
        v128.store(inverse + c, f64x2.sub(v128.load(inverse + c), f64x2.mul(times, v128.load(ownInverseAt + c))));
      }
    }
  }
  return true;
}

function swapRows(a: usize, b: usize, bytes: usize): void {
  for (let c: usize = 0; c < bytes; c += 8) {
    const kept = load<f64>(a + c);
    store<f64>(a + c, load<f64>(b + c));
    store<f64>(b + c, kept);
  }
}

function solve(): void {
  const n: usize = 2 * m;
  memory.fill(rightAt, 0, 8 * n);
  for (let i = 0; i < patches; i++) {
    setPrecision(usize(i));
    const shift = shiftAt + 16 * usize(i);
    const dx = load<f64>(shift);
    const dy = load<f64>(shift, 8);
    const alongX = wxx * dx + wxy * dy;
    const alongY = wxy * dx + wyy * dy;
    const basis = basisAt + 8 * m * usize(i);
    for (let p: usize = 0; p < m; p++) {
      const own = load<f64>(basis + 8 * p);
      add(rightAt + 8 * p, own * alongX);
      add(rightAt + 8 * (m + p), own * alongY);
    }
  }
  for (let p: usize = 0; p < n; p++) {
    let sum: f64 = 0;
    for (let q: usize = 0; q < n; q++) sum += load<f64>(inverseAt + 8 * (p * n + q)) * load<f64>(rightAt + 8 * q);
    store<f64>(betaAt + 8 * p, sum);
  }
}

function leaveOut(i: usize): void {
  const row: usize = 16 * m;
  const basis = basisAt + 8 * m * i;
  let fx: f64 = 0;
  let fy: f64 = 0;
  let pxx: f64 = 0;
  let pxy: f64 = 0;
  let pyy: f64 = 0;
  for (let p: usize = 0; p < m; p++) {
    const x = inverseAt + p * row;
    const y = x + m * row;
    const own = load<f64>(basis + 8 * p);
    fx += own * load<f64>(betaAt + 8 * p);
    fy += own * load<f64>(betaAt + 8 * (m + p));
    for (let q: usize = 0; q < m; q++) {
      const bb = own * load<f64>(basis + 8 * q);
      pxx += bb * load<f64>(x + 8 * q);
      pxy += bb * load<f64>(x + 8 * (m + q));
      pyy += bb * load<f64>(y + 8 * (m + q));
    }
  }
  const shift = shiftAt + 16 * i;
  const rx = load<f64>(shift) - fx;
  const ry = load<f64>(shift, 8) - fy;
  setPrecision(i);
  const det = pxx * pyy - pxy * pxy;
  const ixx = pyy / det - wxx;
  const ixy = -pxy / det - wxy;
  const iyy = pxx / det - wyy;
  const d2 = ixx * iyy - ixy * ixy;
  const tells = d2 > 0 && ixx > 0;
  const vxx = tells ? Math.min(iyy / d2, 100) : 100;
  const vxy = tells ? -ixy / d2 : 0;
  const vyy = tells ? Math.min(ixx / d2, 100) : 100;
  const ux = wxx * rx + wxy * ry;
  const uy = wxy * rx + wyy * ry;
  const lx = rx + vxx * ux + vxy * uy;
  const ly = ry + vxy * ux + vyy * uy;
  store<f64>(leftAt + 16 * i, lx);
  store<f64>(leftAt + 16 * i, ly, 8);
  const noise = noiseAt + 24 * i;
  const sxx = vxx + load<f64>(noise);
  const sxy = vxy + load<f64>(noise, 8);
  const syy = vyy + load<f64>(noise, 16);
  const ds = sxx * syy - sxy * sxy;
  store<f64>(squareAt + 8 * i, (syy * lx * lx - 2 * sxy * lx * ly + sxx * ly * ly) / ds);
  store<f64>(determinantAt + 8 * i, ds);
}
