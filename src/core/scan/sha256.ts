/**
 * SHA-256 (FIPS 180-4) in plain numbers, for where nothing faster is handed in. The constants are the first 32 bits of
 * the fractional parts of the square roots of the first 8 primes and of the cube roots of the first 64.
 */
export function sha256(bytes: Uint8Array): string {
  const state = fractions(8, 1 / 2);
  const schedule = new Int32Array(64);
  const whole = bytes.length - (bytes.length % 64);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 0; at < whole; at += 64) absorb(state, schedule, view, at);
  const tail = padded(bytes.subarray(whole), bytes.length);
  for (let at = 0; at < tail.byteLength; at += 64) absorb(state, schedule, tail, at);
  return [...state].map((word) => (word >>> 0).toString(16).padStart(8, '0')).join('');
}

/** The last bytes, a 1 bit, zeros, and the length in bits as 64 bits. */
function padded(rest: Uint8Array, length: number): DataView {
  const block = new Uint8Array(rest.length < 56 ? 64 : 128);
  block.set(rest);
  block[rest.length] = 0x80;
  const view = new DataView(block.buffer);
  view.setUint32(block.length - 8, Math.floor(length / 2 ** 29));
  view.setUint32(block.length - 4, (length << 3) >>> 0);
  return view;
}

function fractions(count: number, power: number): Int32Array {
  const out = new Int32Array(count);
  let found = 0;
  for (let candidate = 2; found < count; candidate++) {
    if (!isPrime(candidate)) continue;
    const root = candidate ** power;
    out[found++] = Math.floor((root - Math.floor(root)) * 2 ** 32) | 0;
  }
  return out;
}

function isPrime(candidate: number): boolean {
  for (let divisor = 2; divisor * divisor <= candidate; divisor++) if (candidate % divisor === 0) return false;
  return true;
}

const roundConstants = fractions(64, 1 / 3);

function absorb(state: Int32Array, w: Int32Array, view: DataView, at: number): void {
  for (let i = 0; i < 16; i++) w[i] = view.getInt32(at + i * 4);
  for (let i = 16; i < 64; i++) {
    const x = w[i - 15];
    const y = w[i - 2];
    const s0 = ((x >>> 7) | (x << 25)) ^ ((x >>> 18) | (x << 14)) ^ (x >>> 3);
    const s1 = ((y >>> 17) | (y << 15)) ^ ((y >>> 19) | (y << 13)) ^ (y >>> 10);
    w[i] = (w[i - 16] + s0 + w[i - 7] + s1) | 0;
  }
  let a = state[0];
  let b = state[1];
  let c = state[2];
  let d = state[3];
  let e = state[4];
  let f = state[5];
  let g = state[6];
  let h = state[7];
  for (let i = 0; i < 64; i++) {
    const s1 = ((e >>> 6) | (e << 26)) ^ ((e >>> 11) | (e << 21)) ^ ((e >>> 25) | (e << 7));
    const t1 = (h + s1 + (g ^ (e & (f ^ g))) + roundConstants[i] + w[i]) | 0;
    const s0 = ((a >>> 2) | (a << 30)) ^ ((a >>> 13) | (a << 19)) ^ ((a >>> 22) | (a << 10));
    const t2 = (s0 + ((a & (b | c)) | (b & c))) | 0;
    h = g;
    g = f;
    f = e;
    e = (d + t1) | 0;
    d = c;
    c = b;
    b = a;
    a = (t1 + t2) | 0;
  }
  state[0] += a;
  state[1] += b;
  state[2] += c;
  state[3] += d;
  state[4] += e;
  state[5] += f;
  state[6] += g;
  state[7] += h;
}
