import { decode } from 'fast-png';
import type { Budget } from '../admission/budget.ts';
import { inflateWithin } from '../admission/inflate.ts';
import { ScanError } from '../error.ts';
import { joinBytes } from '../joinBytes.ts';
import { checkSize } from '../limits.ts';

/** Pixel values, row by row from the top; NaN where there is none. */
export interface PngHeights {
  readonly width: number;
  readonly height: number;
  readonly values: Float64Array;
}

interface Chunk {
  readonly type: string;
  readonly data: Uint8Array;
  /** Length, type, data and checksum. */
  readonly whole: Uint8Array;
}

/** Chunks that carry heights. Whatever else is there (profiles, text, times) is not even unpacked. */
const needed = ['IHDR', 'tRNS', 'IDAT', 'IEND'];
const signatureBytes = 8;

/** 16-bit grey, with or without transparency: transparent pixels have no height. */
export function readPng(bytes: Uint8Array, budget: Budget): PngHeights {
  const chunks = chunksOf(bytes);
  const [header] = chunks;
  if (header?.type !== 'IHDR' || header.data.length !== 13) throw damagedPng();
  const view = new DataView(header.data.buffer, header.data.byteOffset, 13);
  const width = view.getUint32(0);
  const height = view.getUint32(4);
  const colours = view.getUint8(9);
  if (view.getUint8(8) !== 16 || (colours !== 0 && colours !== 4))
    throw new ScanError('unsupported', 'the PNG is a picture, not a height map; export heights as 16-bit grey.');
  checkSize(width * height, width * height * 2);
  const pixelBytes = colours === 4 ? 4 : 2;
  const packed = packedBytes(width, height, pixelBytes, view.getUint8(12) === 1);
  budget.bytes(packed * 3 + width * height * 8);
  checkStream(
    chunks.filter(({ type }) => type === 'IDAT').map(({ data }) => data),
    packed,
  );
  return heightsOf(joinBytes([bytes.subarray(0, signatureBytes), ...chunks.map(({ whole }) => whole)]));
}

/** Throws `malformed` where the packed rows make more or fewer bytes than the header's size asks for. */
function checkStream(parts: readonly Uint8Array[], expected: number): void {
  let made: Uint8Array | null = null;
  try {
    made = inflateWithin(parts, expected);
  } catch {
    // Falls through to the one message.
  }
  if (made?.length !== expected) throw damagedPng();
}

function heightsOf(png: Uint8Array): PngHeights {
  let picture: ReturnType<typeof decode>;
  try {
    picture = decode(png, { checkCrc: true });
  } catch {
    throw damagedPng();
  }
  const { width, height, data, channels } = picture;
  // Grey of this one value stands for transparent.
  const hiddenValue = picture.transparency?.[0];
  const values = new Float64Array(width * height);
  for (let i = 0; i < values.length; i++) {
    const value = data[i * channels];
    const hidden = channels === 2 ? data[i * 2 + 1] === 0 : value === hiddenValue;
    values[i] = hidden ? Number.NaN : value;
  }
  return { width, height, values };
}

/** The chunks that are needed, in the file's order. Throws `malformed` where one is cut short or the end is missing. */
function chunksOf(bytes: Uint8Array): Chunk[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const chunks: Chunk[] = [];
  for (let at = signatureBytes; at + 12 <= bytes.length; ) {
    const length = view.getUint32(at);
    const end = at + 12 + length;
    if (end > bytes.length) break;
    const type = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    if (needed.includes(type))
      chunks.push({ type, data: bytes.subarray(at + 8, end - 4), whole: bytes.subarray(at, end) });
    if (type === 'IEND') return chunks;
    at = end;
  }
  throw damagedPng();
}

/** First column and row, and step from one to the next, of the seven passes of an interlaced picture (PNG, section 8.2). */
const passes = [
  [0, 0, 8, 8],
  [4, 0, 8, 8],
  [0, 4, 4, 8],
  [2, 0, 4, 4],
  [0, 2, 2, 4],
  [1, 0, 2, 2],
  [0, 1, 1, 2],
] as const;

/** Bytes of all rows before packing: one for the filter of each row, then its pixels. */
function packedBytes(width: number, height: number, pixelBytes: number, interlaced: boolean): number {
  const bytesOf = (columns: number, rows: number) => (columns > 0 ? rows * (1 + columns * pixelBytes) : 0);
  if (!interlaced) return bytesOf(width, height);
  let sum = 0;
  for (const [x, y, dx, dy] of passes)
    sum += bytesOf(Math.max(0, Math.ceil((width - x) / dx)), Math.max(0, Math.ceil((height - y) / dy)));
  return sum;
}

const damagedPng = (): ScanError =>
  new ScanError('malformed', 'the PNG file is damaged, cut short or of an unusual make; save it again.');
