// AssemblyScript, compiled to WebAssembly by src/build/kernels.mjs: the correlation of core/fit/turnedCorrelation.ts, which
// is the referee. The transforms are done on four float32 columns abreast, so answers agree to some 1e-6 of the greatest value.
// turnedCorrelation.ts beside this folder lays the signals out in the memory.

/** Where the answer stands: values and places of four extremes, then the root energy; float64. */
const outAt: usize = 1024;

let n: i32 = 0;
/** Bytes from row to row of a plane: a row and 64 more, since rows a power of two apart would fall on one another in the cache. */
let rowBytes: usize = 0;
let re: usize = 0;
let im: usize = 0;
let spectrumRe: usize = 0;
let spectrumIm: usize = 0;
/** cos and sin of 2πk/n, k < n/2, float32. */
let cosAt: usize = 0;
let sinAt: usize = 0;
/** The subject's signal and the same turned, size × size float32. */
let signalAt: usize = 0;
let turnedAt: usize = 0;
let size: i32 = 0;

/** Tells the kernel where its planes and signals stand. */
export function take(side: i32, planes: usize, waves: usize, signals: usize, signalSize: i32): void {
  n = side;
  rowBytes = 4 * usize(side) + 64;
  const plane = rowBytes * usize(side);
  re = planes;
  im = planes + plane;
  spectrumRe = planes + 2 * plane;
  spectrumIm = planes + 3 * plane;
  cosAt = waves;
  sinAt = waves + 2 * usize(side);
  signalAt = signals;
  turnedAt = signals + 4 * usize(signalSize) * usize(signalSize);
  size = signalSize;
}

/** The spectrum of the real signal that lies in the first plane, kept for what follows. */
export function takeReference(): void {
  memory.fill(im, 0, rowBytes * usize(n));
  forward(n);
  memory.copy(spectrumRe, re, 2 * rowBytes * usize(n));
}

/** Correlates with the signal turned (cosine and sine over the size) and leaves the extremes at `outAt`. */
export function correlate(c: f64, s: f64): void {
  store<f64>(outAt, turn(c, s), 64);
  pack();
  forward(size);
  multiply();
  inverse();
  extremes();
}

/** The signal turned counter-clockwise and grown about its middle, bilinear; returns its root energy. */
function turn(c: f64, s: f64): f64 {
  const middle = f64(size - 1) / 2;
  const last = size - 1;
  let energy: f64 = 0;
  let at = turnedAt;
  for (let row = 0; row < size; row++)
    for (let col = 0; col < size; col++, at += 4) {
      const x = f64(col) - middle;
      const y = middle - f64(row);
      const u = c * x + s * y + middle;
      const v = middle - (-s * x + c * y);
      const fromU = Math.floor(u);
      const fromV = Math.floor(v);
      const u0 = i32(fromU);
      const v0 = i32(fromV);
      let value: f32 = 0;
      if (u0 >= 0 && v0 >= 0 && u0 < last && v0 < last) {
        const j = signalAt + 4 * usize(v0 * size + u0);
        const below = j + 4 * usize(size);
        const fu = u - fromU;
        const fv = v - fromV;
        value = f32(
          (1 - fv) * ((1 - fu) * f64(load<f32>(j)) + fu * f64(load<f32>(j, 4))) +
            fv * ((1 - fu) * f64(load<f32>(below)) + fu * f64(load<f32>(below, 4))),
        );
      }
      store<f32>(at, value);
      energy += f64(value) * f64(value);
    }
  return Math.sqrt(energy);
}

/** The turned signal as the real part, turned over and negated as the imaginary part. */
function pack(): void {
  memory.fill(re, 0, 2 * rowBytes * usize(n));
  const last: usize = 4 * usize(size - 1);
  for (let row = 0; row < size; row++) {
    const from = turnedAt + 4 * usize(row * size);
    const to = usize(row) * rowBytes;
    memory.copy(re + to, from, 4 * usize(size));
    for (let col: usize = 0; col <= last; col += 4) store<f32>(im + to + col, -load<f32>(from + last - col));
  }
}

/** Forward transform of the first `filled` columns; the others are empty. Rows and columns end exchanged and in bit-reversed order. */
function forward(filled: i32): void {
  columnsForward(filled);
  transpose(re);
  transpose(im);
  columnsForward(n);
}

function inverse(): void {
  columnsInverse();
  transpose(re);
  transpose(im);
  columnsInverse();
}

/** Radix 2, decimation in frequency, down the columns, sixteen at a time: exp(−2πi). */
function columnsForward(filled: i32): void {
  for (let col = 0; col < filled; col += 16)
    for (let half = n >> 1, stride = 1; half >= 1; half >>= 1, stride <<= 1)
      for (let j = 0; j < half; j++) {
        const wr = f32x4.splat(load<f32>(cosAt + 4 * usize(j * stride)));
        const wi = f32x4.splat(-load<f32>(sinAt + 4 * usize(j * stride)));
        for (let row = j; row < n; row += 2 * half) {
          let a = usize(row) * rowBytes + 4 * usize(col);
          let b = a + usize(half) * rowBytes;
          for (let k = 0; k < 4; k++, a += 16, b += 16) {
            const ar = v128.load(re + a);
            const ai = v128.load(im + a);
            const br = v128.load(re + b);
            const bi = v128.load(im + b);
            v128.store(re + a, f32x4.add(ar, br));
            v128.store(im + a, f32x4.add(ai, bi));
            const dr = f32x4.sub(ar, br);
            const di = f32x4.sub(ai, bi);
            v128.store(re + b, f32x4.sub(f32x4.mul(dr, wr), f32x4.mul(di, wi)));
            v128.store(im + b, f32x4.add(f32x4.mul(dr, wi), f32x4.mul(di, wr)));
          }
        }
      }
}

/** Radix 2, decimation in time, from bit-reversed order: exp(+2πi). */
function columnsInverse(): void {
  for (let col = 0; col < n; col += 16)
    for (let half = 1, stride = n >> 1; half < n; half <<= 1, stride >>= 1)
      for (let j = 0; j < half; j++) {
        const wr = f32x4.splat(load<f32>(cosAt + 4 * usize(j * stride)));
        const wi = f32x4.splat(load<f32>(sinAt + 4 * usize(j * stride)));
        for (let row = j; row < n; row += 2 * half) {
          let a = usize(row) * rowBytes + 4 * usize(col);
          let b = a + usize(half) * rowBytes;
          for (let k = 0; k < 4; k++, a += 16, b += 16) {
            const br = v128.load(re + b);
            const bi = v128.load(im + b);
            const tr = f32x4.sub(f32x4.mul(br, wr), f32x4.mul(bi, wi));
            const ti = f32x4.add(f32x4.mul(br, wi), f32x4.mul(bi, wr));
            const ar = v128.load(re + a);
            const ai = v128.load(im + a);
            v128.store(re + a, f32x4.add(ar, tr));
            v128.store(im + a, f32x4.add(ai, ti));
            v128.store(re + b, f32x4.sub(ar, tr));
            v128.store(im + b, f32x4.sub(ai, ti));
          }
        }
      }
}

/** Exchanges rows and columns of a plane, four by four. */
function transpose(plane: usize): void {
  for (let row = 0; row < n; row += 4)
    for (let col = row; col < n; col += 4) {
      const a = plane + usize(row) * rowBytes + 4 * usize(col);
      const b = plane + usize(col) * rowBytes + 4 * usize(row);
      const a0 = v128.load(a);
      const a1 = v128.load(a + rowBytes);
      const a2 = v128.load(a + 2 * rowBytes);
      const a3 = v128.load(a + 3 * rowBytes);
      const b0 = v128.load(b);
      const b1 = v128.load(b + rowBytes);
      const b2 = v128.load(b + 2 * rowBytes);
      const b3 = v128.load(b + 3 * rowBytes);
      store4(b, a0, a1, a2, a3);
      store4(a, b0, b1, b2, b3);
    }
}

function store4(to: usize, r0: v128, r1: v128, r2: v128, r3: v128): void {
  const low01 = v128.shuffle<f32>(r0, r1, 0, 4, 1, 5);
  const low23 = v128.shuffle<f32>(r2, r3, 0, 4, 1, 5);
  const high01 = v128.shuffle<f32>(r0, r1, 2, 6, 3, 7);
  const high23 = v128.shuffle<f32>(r2, r3, 2, 6, 3, 7);
  v128.store(to, v128.shuffle<f32>(low01, low23, 0, 1, 4, 5));
  v128.store(to + rowBytes, v128.shuffle<f32>(low01, low23, 2, 3, 6, 7));
  v128.store(to + 2 * rowBytes, v128.shuffle<f32>(high01, high23, 0, 1, 4, 5));
  v128.store(to + 3 * rowBytes, v128.shuffle<f32>(high01, high23, 2, 3, 6, 7));
}

/** Reference's spectrum times the other's conjugate, over n². */
function multiply(): void {
  const by = f32x4.splat(f32(1) / f32(n * n));
  for (let at: usize = 0; at < rowBytes * usize(n); at += 16) {
    const sr = f32x4.mul(v128.load(spectrumRe + at), by);
    const si = f32x4.mul(v128.load(spectrumIm + at), by);
    const dr = v128.load(re + at);
    const di = v128.load(im + at);
    v128.store(re + at, f32x4.add(f32x4.mul(sr, dr), f32x4.mul(si, di)));
    v128.store(im + at, f32x4.sub(f32x4.mul(si, dr), f32x4.mul(sr, di)));
  }
}

/** Greatest and least real, then imaginary part, each with its place. */
function extremes(): void {
  extremesOf(re, outAt);
  extremesOf(im, outAt + 32);
}

function extremesOf(plane: usize, out: usize): void {
  let most: f32 = 0;
  let least: f32 = 0;
  let mostAt = 0;
  let leastAt = 0;
  for (let row = 0, k = 0; row < n; row++) {
    let at = plane + usize(row) * rowBytes;
    for (let col = 0; col < n; col++, k++, at += 4) {
      const value = load<f32>(at);
      if (value > most) {
        most = value;
        mostAt = k;
      } else if (value < least) {
        least = value;
        leastAt = k;
      }
    }
  }
  store<f64>(out, f64(most));
  store<f64>(out, f64(mostAt), 8);
  store<f64>(out, f64(least), 16);
  store<f64>(out, f64(leastAt), 24);
}
