import type { Vec3 } from '../../geometry/index.ts';

/** Coordinates beyond this are taken for rubbish, as NaN is. */
const largest = 1e30;

export interface Centred {
  /** xyz triples, float32, file unit; 0, 0, 0 for a vertex that is not a number. */
  readonly positions: Float32Array;
  readonly offset: Vec3;
  /** 1 for a vertex that is not a number; null where there is none. */
  readonly invalid: Uint8Array | null;
  readonly invalidCount: number;
}

/**
 * position = coordinate − offset, subtracted in float64 and then rounded to float32. The offset is the middle of the
 * bounding box of the sound vertices, rounded to a quarter of a power of two about the box's size: a short number,
 * zero for a scan that lies about its origin, and the same whatever the order of the vertices.
 */
export function centre(coordinates: Float32Array | Float64Array): Centred {
  const { invalid, invalidCount } = findInvalid(coordinates);
  const [x, y, z] = [0, 1, 2].map((axis) => middleOf(coordinates, axis, invalid));
  // Float32 input is ours to overwrite: no second copy of a large scan.
  const positions = coordinates instanceof Float32Array ? coordinates : new Float32Array(coordinates.length);
  for (let i = 0; i < positions.length; i += 3) {
    // Adding zero turns −0 into 0, so that equal places have equal bits.
    positions[i] = coordinates[i] - x + 0;
    positions[i + 1] = coordinates[i + 1] - y + 0;
    positions[i + 2] = coordinates[i + 2] - z + 0;
  }
  if (invalid) for (let i = 0; i < invalid.length; i++) if (invalid[i]) positions.fill(0, i * 3, i * 3 + 3);
  return { positions, offset: [x, y, z], invalid, invalidCount };
}

function findInvalid(p: Float32Array | Float64Array): { invalid: Uint8Array | null; invalidCount: number } {
  let invalid: Uint8Array | null = null;
  let invalidCount = 0;
  for (let i = 0; i < p.length; i += 3) {
    // One comparison for three numbers: NaN fails it as well.
    if (Math.abs(p[i]) + Math.abs(p[i + 1]) + Math.abs(p[i + 2]) <= largest) continue;
    invalid ??= new Uint8Array(p.length / 3);
    invalid[i / 3] = 1;
    invalidCount++;
  }
  return { invalid, invalidCount };
}

function middleOf(p: Float32Array | Float64Array, axis: number, invalid: Uint8Array | null): number {
  const all = rangeWithin(p, axis, invalid, -largest, largest);
  const usual = usualRange(p, axis, invalid);
  const width = usual.high - usual.low;
  // A stray vertex a thousand sizes away would cost the scan its resolution: it does not pull the middle along.
  const wild = all.high - all.low > 1000 * width && width > 0;
  const { low, high } = wild ? rangeWithin(p, axis, invalid, usual.low - 100 * width, usual.high + 100 * width) : all;
  const size = high - low;
  const middle = low + size / 2;
  if (!Number.isFinite(middle)) return 0;
  if (!(size > 0)) return middle;
  const step = 2 ** Math.floor(Math.log2(size)) / 4;
  return Math.round(middle / step) * step;
}

function rangeWithin(
  p: Float32Array | Float64Array,
  axis: number,
  invalid: Uint8Array | null,
  from: number,
  to: number,
): { low: number; high: number } {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = axis; i < p.length; i += 3) {
    const value = p[i];
    if (value < low && value >= from && !invalid?.[(i - axis) / 3]) low = value;
    if (value > high && value <= to && !invalid?.[(i - axis) / 3]) high = value;
  }
  return { low, high };
}

/** The range of the middle nine tenths of a sample of the vertices. */
function usualRange(p: Float32Array | Float64Array, axis: number, invalid: Uint8Array | null) {
  const count = p.length / 3;
  const step = Math.max(1, Math.floor(count / 2000));
  const sample = new Float64Array(Math.ceil(count / step));
  let n = 0;
  for (let i = 0; i < count; i += step) if (!invalid?.[i]) sample[n++] = p[i * 3 + axis];
  const sorted = sample.subarray(0, n).sort();
  return { low: sorted[Math.floor(n * 0.05)] ?? 0, high: sorted[Math.floor(n * 0.95)] ?? 0 };
}
