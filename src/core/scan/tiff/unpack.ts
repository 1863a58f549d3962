import { inflateWithin } from '../admission/inflate.ts';
import { ScanError } from '../error.ts';
import { brokenTiff } from './directory.ts';

/** Ways of packing a segment, by the value of the tag Compression. */
const method = { none: 1, lzw: 5, deflate: 8, oldDeflate: 32946, packBits: 32773 };

/**
 * One strip or tile, unpacked into exactly `length` bytes; what comes after them is left. Throws `malformed` where
 * the segment makes fewer and `unsupported` for a way of packing that is not read (JPEG, CCITT and others lose heights).
 */
export function unpackSegment(packed: Uint8Array, compression: number, length: number): Uint8Array {
  const out = unpackedBy(packed, compression, length);
  if (out.length < length) throw brokenTiff();
  return out.length === length ? out : out.subarray(0, length);
}

function unpackedBy(packed: Uint8Array, compression: number, length: number): Uint8Array {
  switch (compression) {
    case method.none:
      return packed;
    case method.packBits:
      return unpackBits(packed, length);
    case method.lzw:
      return unpackLzw(packed, length);
    case method.deflate:
    case method.oldDeflate:
      return inflated(packed, length);
    default:
      throw new ScanError(
        'unsupported',
        'the TIFF is packed in a way that is not read; save it uncompressed, or with LZW or deflate.',
      );
  }
}

function inflated(packed: Uint8Array, length: number): Uint8Array {
  let out: Uint8Array | null = null;
  try {
    out = inflateWithin([packed], length);
  } catch {
    // Falls through to the one message.
  }
  if (!out) throw brokenTiff();
  return out;
}

/** PackBits (TIFF 6.0, section 9): a count and that many bytes, or a negative count and one byte to repeat. */
function unpackBits(packed: Uint8Array, length: number): Uint8Array {
  const out = new Uint8Array(length);
  let used = 0;
  for (let at = 0; at < packed.length && used < length; ) {
    const count = packed[at++];
    if (count < 128) {
      for (let i = 0; i <= count && at < packed.length && used < length; i++) out[used++] = packed[at++];
    } else if (count > 128) {
      const end = Math.min(length, used + 257 - count);
      out.fill(packed[at++], used, end);
      used = end;
    }
  }
  return out.subarray(0, used);
}

const clear = 256;
const end = 257;

/**
 * LZW (TIFF 6.0, section 13): codes of 9 to 12 bits, most significant bit first, the width raised one code early.
 * The table holds for each code the code before its last byte, that byte, and its length.
 */
function unpackLzw(packed: Uint8Array, length: number): Uint8Array {
  const out = new Uint8Array(length);
  const before = new Uint16Array(4096);
  const last = new Uint8Array(4096);
  const lengthOf = new Uint16Array(4096);
  for (let i = 0; i < 256; i++) {
    last[i] = i;
    lengthOf[i] = 1;
  }
  let [next, width, previous, used] = [258, 9, -1, 0];
  let [held, bits] = [0, 0];
  const write = (code: number): number => {
    let at = code;
    for (let place = used + lengthOf[code] - 1; place >= used; place--) {
      if (place < length) out[place] = last[at];
      if (place > used) at = before[at];
    }
    used += lengthOf[code];
    return last[at];
  };
  for (let at = 0; used < length; ) {
    while (bits < width && at < packed.length) {
      held = ((held << 8) | packed[at++]) & 0xffffff;
      bits += 8;
    }
    if (bits < width) break;
    const code = (held >> (bits - width)) & ((1 << width) - 1);
    bits -= width;
    if (code === end) break;
    if (code === clear) {
      [next, width, previous] = [258, 9, -1];
      continue;
    }
    if (code > next || (previous < 0 && code > 255)) throw brokenTiff();
    if (previous >= 0 && next < 4096) {
      before[next] = previous;
      lengthOf[next] = lengthOf[previous] + 1;
      // A code that is not yet in the table is the one before it and its own first byte.
      last[next] = code === next ? firstOf(previous, before, lengthOf, last) : 0;
    }
    const first = write(code);
    if (previous >= 0 && next < 4096) last[next++] = first;
    previous = code;
    if (next + 1 >= 1 << width && width < 12) width++;
  }
  return out.subarray(0, Math.min(used, length));
}

function firstOf(code: number, before: Uint16Array, lengthOf: Uint16Array, last: Uint8Array): number {
  let at = code;
  for (let left = lengthOf[code]; left > 1; left--) at = before[at];
  return last[at];
}
