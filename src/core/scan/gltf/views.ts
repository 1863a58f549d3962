import { MeshoptDecoder } from 'meshoptimizer/decoder';
import type { Budget } from '../admission/budget.ts';
import { ScanError } from '../error.ts';
import { bufferBytes, type GltfFile } from './container.ts';
import type { MeshoptView } from './document.ts';

/** The extension and its later name; the bit streams are read alike. */
const meshoptNames = ['KHR_meshopt_compression', 'EXT_meshopt_compression'] as const;

/** A coder of triangles or zero bytes can hardly reach this ratio: a larger claim is false. */
const mostInflation = 2048;

export const malformedGltf = (what: string): ScanError =>
  new ScanError('malformed', `the glTF is not well formed (${what}); export it again.`);

/** A whole number, not negative, or `missing` where the field is absent. */
export function whole(value: unknown, what: string, missing?: number): number {
  if (value === undefined && missing !== undefined) return missing;
  if (typeof value !== 'number' || !Number.isSafeInteger(value) || value < 0) throw malformedGltf(what);
  return value;
}

export interface View {
  readonly bytes: Uint8Array;
  /** Bytes from one element to the next, 0 where elements are packed. */
  readonly stride: number;
}

/** Buffer views of one file, each unpacked once. */
export class Views {
  private readonly file: GltfFile;
  private readonly files: Readonly<Record<string, Uint8Array>>;
  readonly budget: Budget;
  private readonly buffers = new Map<number, Uint8Array>();
  private readonly known = new Map<number, View>();

  constructor(file: GltfFile, files: Readonly<Record<string, Uint8Array>>, budget: Budget) {
    this.budget = budget;
    this.file = file;
    this.files = files;
  }

  view(index: number): View {
    let view = this.known.get(index);
    if (!view) {
      view = this.read(index);
      this.known.set(index, view);
    }
    return view;
  }

  private read(index: number): View {
    const stated = this.file.document.bufferViews?.[index];
    if (!stated) throw malformedGltf('a buffer view is missing');
    const packed = meshoptNames.map((name) => stated.extensions?.[name]).find(Boolean);
    if (packed) return this.unpack(packed);
    const bytes = this.part(stated.buffer, stated.byteOffset, stated.byteLength);
    return { bytes, stride: strideOf(stated.byteStride) };
  }

  private part(buffer: unknown, byteOffset: unknown, byteLength: unknown): Uint8Array {
    const index = whole(buffer, 'buffer');
    const offset = whole(byteOffset, 'byteOffset', 0);
    const length = whole(byteLength, 'byteLength');
    let bytes = this.buffers.get(index);
    if (!bytes) {
      bytes = bufferBytes(this.file, index, this.files);
      this.buffers.set(index, bytes);
    }
    if (offset + length > bytes.length)
      throw new ScanError('truncated', 'a buffer of the glTF is shorter than announced; copy or export it again.');
    return bytes.subarray(offset, offset + length);
  }

  private unpack(packed: MeshoptView): View {
    const source = this.part(packed.buffer, packed.byteOffset, packed.byteLength);
    const count = whole(packed.count, 'count');
    const stride = whole(packed.byteStride, 'byteStride');
    const mode = String(packed.mode);
    const filter = String(packed.filter ?? 'NONE');
    if (!strideFits(mode, filter, stride, count)) throw malformedGltf('compressed data');
    if (count * stride > mostInflation * (source.length + 64)) throw malformedGltf('compressed data');
    this.budget.bytes(count * stride);
    const bytes = new Uint8Array(count * stride);
    try {
      MeshoptDecoder.decodeGltfBuffer(bytes, count, stride, source, mode, filter);
    } catch {
      throw malformedGltf('compressed data');
    }
    return { bytes, stride };
  }
}

/** glTF 2.0, section 3.6.2.4: 4 to 252 bytes, or packed where nothing is said. */
function strideOf(stated: unknown): number {
  const stride = whole(stated, 'byteStride', 0);
  if (stated !== undefined && (stride < 4 || stride > 252)) throw malformedGltf('byteStride');
  return stride;
}

/**
 * What EXT_meshopt_compression demands of a view. The decoder does not check it: an odd stride makes it run on for ever.
 */
function strideFits(mode: string, filter: string, stride: number, count: number): boolean {
  const ofIndex = stride === 2 || stride === 4;
  if (mode === 'TRIANGLES') return ofIndex && count % 3 === 0 && filter === 'NONE';
  if (mode === 'INDICES') return ofIndex && filter === 'NONE';
  if (mode !== 'ATTRIBUTES' || stride === 0 || stride % 4 !== 0 || stride > 256) return false;
  if (filter === 'OCTAHEDRAL' || filter === 'COLOR') return stride === 4 || stride === 8;
  return filter === 'QUATERNION' ? stride === 8 : filter === 'EXPONENTIAL' || filter === 'NONE';
}
