import { joinBytes } from '../../core/scan/index.ts';

/** A GLB being put together: one JSON part and one binary part (glTF 2.0, section 4). */
export interface Glb {
  readonly json: Record<string, unknown>;
  readonly binary: Uint8Array;
}

const magic = 0x46546c67;
const jsonType = 0x4e4f534a;
const binaryType = 0x004e4942;

/** Collects binary parts, each on a multiple of four bytes, and names them as buffer views. */
export class BinaryPart {
  readonly views: { buffer: 0; byteOffset: number; byteLength: number }[] = [];
  private readonly parts: Uint8Array[] = [];
  private length = 0;

  /** The index of the new buffer view. */
  add(array: ArrayBufferView): number {
    const bytes = new Uint8Array(array.buffer, array.byteOffset, array.byteLength);
    this.views.push({ buffer: 0, byteOffset: this.length, byteLength: bytes.length });
    const padding = (4 - (bytes.length % 4)) % 4;
    this.parts.push(bytes, new Uint8Array(padding));
    this.length += bytes.length + padding;
    return this.views.length - 1;
  }

  bytes(): Uint8Array {
    return joinBytes(this.parts);
  }
}

export function writeGlb({ json, binary }: Glb): Uint8Array<ArrayBuffer> {
  const text = new TextEncoder().encode(JSON.stringify(json));
  const padded = new Uint8Array(Math.ceil(text.length / 4) * 4).fill(0x20);
  padded.set(text);
  const total = 12 + 8 + padded.length + 8 + binary.length;
  return joinBytes([
    words(magic, 2, total),
    words(padded.length, jsonType),
    padded,
    words(binary.length, binaryType),
    binary,
  ]);
}

/** Longer is no text of ours: even a seminar of a hundred views stays under a megabyte. */
const mostText = 24_000_000;

/** The two parts of a GLB as bytes; null where they are none. */
export function partsOfGlb(bytes: Uint8Array): { readonly text: Uint8Array; readonly binary: Uint8Array } | null {
  if (bytes.length < 20) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const length = view.getUint32(12, true);
  if (view.getUint32(0, true) !== magic || view.getUint32(16, true) !== jsonType) return null;
  if (20 + length > bytes.length || length > mostText) return null;
  return { text: bytes.subarray(20, 20 + length), binary: bytes.subarray(Math.min(bytes.length, 28 + length)) };
}

/** The two parts of a GLB with its text parsed; null where the bytes are none or its text cannot be read. */
export function parseGlb(bytes: Uint8Array): { readonly json: unknown; readonly binary: Uint8Array } | null {
  const parts = partsOfGlb(bytes);
  if (!parts) return null;
  try {
    return { json: JSON.parse(new TextDecoder().decode(parts.text)), binary: parts.binary };
  } catch {
    return null;
  }
}

function words(...values: number[]): Uint8Array {
  const view = new DataView(new ArrayBuffer(4 * values.length));
  values.forEach((value, i) => {
    view.setUint32(4 * i, value, true);
  });
  return new Uint8Array(view.buffer);
}
