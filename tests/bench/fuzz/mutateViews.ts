import type { Random } from '../../../src/core/geometry/index.ts';
import { makeGlb } from '../../scan/makers.ts';

const extension = 'EXT_meshopt_compression';
const strides = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 11, 12, 16, 252, 256, 257, 260, 512, 516, 1024, 5123, 8192];
const modes = ['ATTRIBUTES', 'TRIANGLES', 'INDICES', 'NONE'];
const filters = ['NONE', 'OCTAHEDRAL', 'QUATERNION', 'EXPONENTIAL', 'COLOR', 'OTHER'];
/** With which each mode's stream begins; the decoder looks at it and at nothing else before it works. */
const firstByte: Readonly<Record<string, number>> = { ATTRIBUTES: 0xa0, TRIANGLES: 0xe1, INDICES: 0xd1 };

type Json = Record<string, unknown>;
const list = (value: unknown): Json[] => (Array.isArray(value) ? (value as Json[]) : []);

/**
 * One buffer view of a GLB restated: its stride, its count, what it is packed by, or, of what reads it, its count and type. What
 * depends on it is mended, the lengths, the counts and the first byte of the packed stream, so that the change is not caught
 * by something that stands before: the decoder itself, or the last check before it, has to meet it.
 */
export function inViews(json: Json, binary: Uint8Array, random: Random): Uint8Array {
  let bytes: Uint8Array = binary.slice();
  const views = list(json.bufferViews);
  const at = random.below(views.length);
  const view = views[at];
  const packed = (view.extensions as Json | undefined)?.[extension] as Json | undefined;
  const readers = list(json.accessors).filter(({ bufferView }) => bufferView === at);
  if (packed) {
    restatePacked(packed, bytes, random);
    if (random.next() < 0.5) bytes = lengthened(json, packed, bytes);
  } else view.byteStride = random.pick(strides);
  if (random.next() < 0.3)
    for (const reader of readers) reader.componentType = random.pick([5120, 5121, 5122, 5123, 5125, 5126]);
  if (random.next() < 0.2) for (const reader of readers) reader.normalized = random.next() < 0.5;
  if (random.next() < 0.8) mend(view, packed, readers, random);
  return makeGlb(json, bytes);
}

function restatePacked(packed: Json, bytes: Uint8Array, random: Random): void {
  const what = random.next();
  const count = Number(packed.count);
  if (what < 0.45) packed.byteStride = random.pick(strides);
  else if (what < 0.65) packed.count = random.pick([0, 1, 2, 3, count - 1, count + 1, count * 3, 65_536]);
  else if (what < 0.8) packed.mode = random.pick(modes);
  else packed.filter = random.pick(filters);
  if (random.next() < 0.3) packed.filter = random.pick(filters);
  const [start, length] = [Number(packed.byteOffset), Number(packed.byteLength)];
  bytes[start] = firstByte[String(packed.mode)] ?? bytes[start];
  // The stream itself, behind its first byte.
  if (random.next() < 0.4 && length > 1)
    for (let i = random.below(6); i >= 0; i--) bytes[start + 1 + random.below(length - 1)] = random.below(256);
}

/** The packed stream moved to the end and as long as one of this stride at least is: a shorter one is refused before it is looked at. */
function lengthened(json: Json, packed: Json, bytes: Uint8Array): Uint8Array {
  const [start, length] = [Number(packed.byteOffset), Number(packed.byteLength)];
  const least = Math.max(length, 2 * Number(packed.byteStride) + 64);
  const out = new Uint8Array(bytes.length + least);
  out.set(bytes);
  out.set(bytes.subarray(start, start + length), bytes.length);
  Object.assign(packed, { byteOffset: bytes.length, byteLength: least });
  list(json.buffers)[0].byteLength = out.length;
  return out;
}

/** Lengths and counts after what the view now says; the counts not larger than the bytes carry. */
function mend(view: Json, packed: Json | undefined, readers: readonly Json[], random: Random): void {
  const stride = Number(packed?.byteStride ?? view.byteStride ?? 0);
  if (packed) view.byteLength = Number(packed.count) * stride;
  for (const reader of readers) {
    const most = packed ? Number(packed.count) : Math.floor(Number(view.byteLength) / Math.max(1, stride));
    reader.count = Math.max(0, Math.min(Number(reader.count), most) - (random.next() < 0.2 ? 1 : 0));
    if (reader.type === 'SCALAR') reader.count = Number(reader.count) - (Number(reader.count) % 3);
  }
}
