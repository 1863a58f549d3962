// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: eigenvalues and eigenvectors of a symmetric matrix by Householder's
// reflections to three diagonals (Martin, Reinsch and Wilkinson, Numerische Mathematik 11, 1968) and implicit QL steps (Bowdler, Martin, Reinsch
// and Wilkinson, in the same volume), with the operations in the order of the library that `eigenPlainly` of core/geometry/solve/solve.ts calls, which
// is the referee: so the answers are the same numbers. eigen.ts beside this folder lays the matrix out in the memory.

/** The diagonal, at the end the eigenvalues; beside it the second diagonal; the matrix row by row, at the end an eigenvector a row. */
const diagonalAt: usize = 1024;
const besideAt: usize = 2048;
const matrixAt: usize = 4096;

const epsilon: f64 = 2.220446049250313e-16;

let n: i32 = 0;

function d(i: i32): f64 {
  return load<f64>(diagonalAt + 8 * usize(i));
}
function setD(i: i32, value: f64): void {
  store<f64>(diagonalAt + 8 * usize(i), value);
}
function e(i: i32): f64 {
  return load<f64>(besideAt + 8 * usize(i));
}
function setE(i: i32, value: f64): void {
  store<f64>(besideAt + 8 * usize(i), value);
}
function place(row: i32, column: i32): usize {
  return matrixAt + 8 * usize(row * n + column);
}
function v(row: i32, column: i32): f64 {
  return load<f64>(place(row, column));
}
function setV(row: i32, column: i32, value: f64): void {
  store<f64>(place(row, column), value);
}

/** Eigenvalues of the matrix of that size, ascending, and their eigenvectors. */
export function decompose(size: i32): void {
  n = size;
  for (let j = 0; j < n; j++) setD(j, v(j, n - 1));
  for (let i = n - 1; i > 0; i--) reflect(i);
  for (let i = 0; i < n - 1; i++) gather(i);
  for (let j = 0; j < n; j++) {
    setD(j, v(j, n - 1));
    setV(j, n - 1, 0);
  }
  setV(n - 1, n - 1, 1);
  for (let i = 1; i < n; i++) setE(i - 1, e(i));
  setE(n - 1, 0);
  settle();
  sort();
}

/** Takes what stands in row i before the second diagonal away by a reflection, whose vector is kept in the matrix. */
function reflect(i: i32): void {
  let scale: f64 = 0;
  for (let k = 0; k < i; k++) scale += Math.abs(d(k));
  if (scale === 0) {
    setE(i, d(i - 1));
    for (let j = 0; j < i; j++) {
      setD(j, v(j, i - 1));
      setV(j, i, 0);
      setV(i, j, 0);
    }
    setD(i, 0);
    return;
  }
  let h: f64 = 0;
  for (let k = 0; k < i; k++) {
    const share = d(k) / scale;
    setD(k, share);
    h += share * share;
  }
  const f = d(i - 1);
  const g = f > 0 ? -Math.sqrt(h) : Math.sqrt(h);
  setE(i, scale * g);
  h -= f * g;
  setD(i - 1, f - g);
  multiply(i);
  subtract(i, h);
  setD(i, h);
}

/** Into the second diagonal: the matrix's first i rows and columns times the reflection's vector, which is kept in row i. */
function multiply(i: i32): void {
  for (let j = 0; j < i; j++) setE(j, 0);
  for (let j = 0; j < i; j++) {
    const f = d(j);
    setV(i, j, f);
    let g = e(j) + v(j, j) * f;
    for (let k = j + 1; k < i; k++) {
      g += v(j, k) * d(k);
      setE(k, e(k) + v(j, k) * f);
    }
    setE(j, g);
  }
}

/** The reflected matrix: less u qᵀ + q uᵀ, with u the reflection's vector and q made of that product. */
function subtract(i: i32, h: f64): void {
  let f: f64 = 0;
  for (let j = 0; j < i; j++) {
    const q = e(j) / h;
    setE(j, q);
    f += q * d(j);
  }
  const half = f / (h + h);
  for (let j = 0; j < i; j++) setE(j, e(j) - half * d(j));
  for (let j = 0; j < i; j++) {
    const u = d(j);
    const q = e(j);
    for (let k = j; k < i; k++) setV(j, k, v(j, k) - (u * e(k) + q * d(k)));
    setD(j, v(j, i - 1));
    setV(j, i, 0);
  }
}

/** Multiplies the reflections before i + 1 by that one. */
function gather(i: i32): void {
  setV(i, n - 1, v(i, i));
  setV(i, i, 1);
  const h = d(i + 1);
  if (h !== 0) {
    for (let k = 0; k <= i; k++) setD(k, v(i + 1, k) / h);
    for (let j = 0; j <= i; j++) {
      let g: f64 = 0;
      for (let k = 0; k <= i; k++) g += v(i + 1, k) * v(j, k);
      for (let k = 0; k <= i; k++) setV(j, k, v(j, k) - g * d(k));
    }
  }
  for (let k = 0; k <= i; k++) setV(i + 1, k, 0);
}

/** One eigenvalue after another, each by QL steps until nothing stands beside it. */
function settle(): void {
  let shift: f64 = 0;
  let greatest: f64 = 0;
  for (let l = 0; l < n; l++) {
    greatest = Math.max(greatest, Math.abs(d(l)) + Math.abs(e(l)));
    let m = l;
    while (m < n && !(Math.abs(e(m)) <= epsilon * greatest)) m++;
    if (m > l) {
      do shift += step(l, m);
      while (Math.abs(e(l)) > epsilon * greatest);
    }
    setD(l, d(l) + shift);
    setE(l, 0);
  }
}

/** A QL step on rows l to m, with the shift that it returns. */
function step(l: i32, m: i32): f64 {
  const first = d(l);
  let p = (d(l + 1) - first) / (2 * e(l));
  const root = p < 0 ? -hypotenuse(p, 1) : hypotenuse(p, 1);
  setD(l, e(l) / (p + root));
  setD(l + 1, e(l) * (p + root));
  const second = d(l + 1);
  const shift = first - d(l);
  for (let i = l + 2; i < n; i++) setD(i, d(i) - shift);
  p = d(m);
  const beside = e(l + 1);
  let c: f64 = 1;
  let c2: f64 = 1;
  let c3: f64 = 1;
  let s: f64 = 0;
  let s2: f64 = 0;
  for (let i = m - 1; i >= l; i--) {
    c3 = c2;
    c2 = c;
    s2 = s;
    const g = c * e(i);
    const h = c * p;
    const r = hypotenuse(p, e(i));
    setE(i + 1, s * r);
    s = e(i) / r;
    c = p / r;
    p = c * d(i) - s * g;
    setD(i + 1, h + s * (c * g + s * d(i)));
    turn(i, c, s);
  }
  p = (-s * s2 * c3 * beside * e(l)) / second;
  setE(l, s * p);
  setD(l, c * p);
  return shift;
}

/** Turns eigenvectors i and i + 1 into one another. */
function turn(i: i32, c: f64, s: f64): void {
  for (let k = 0; k < n; k++) {
    const here = v(i, k);
    const next = v(i + 1, k);
    setV(i + 1, k, s * here + c * next);
    setV(i, k, c * here - s * next);
  }
}

/** √(a² + b²) without overflow. */
function hypotenuse(a: f64, b: f64): f64 {
  if (Math.abs(a) > Math.abs(b)) {
    const r = b / a;
    return Math.abs(a) * Math.sqrt(1 + r * r);
  }
  if (b === 0) return 0;
  const r = a / b;
  return Math.abs(b) * Math.sqrt(1 + r * r);
}

function sort(): void {
  for (let i = 0; i < n - 1; i++) {
    let k = i;
    for (let j = i + 1; j < n; j++) if (d(j) < d(k)) k = j;
    if (k === i) continue;
    const value = d(k);
    setD(k, d(i));
    setD(i, value);
    for (let j = 0; j < n; j++) {
      const here = v(i, j);
      setV(i, j, v(k, j));
      setV(k, j, here);
    }
  }
}
