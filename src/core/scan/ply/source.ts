import { ScanError } from '../error.ts';
import { Cursor } from '../text/cursor.ts';
import { type PlyElement, type PlyHeader, type PlyProperty, type PlyType, plySize } from './header.ts';

/** Values of a PLY body, one after another, whatever the encoding. */
export interface PlySource {
  /** The next value of this type. Throws `truncated` behind the end of the file. */
  read(type: PlyType): number;
  /** Passes over `count` values of this type. */
  skip(type: PlyType, count: number): void;
  /** Ends one entry of an element. */
  endEntry(): void;
  /** Bytes that are left. */
  left(): number;
  /** Fewest bytes that one value of this type takes. */
  smallest(type: PlyType): number;
}

export const cutShort = (): ScanError =>
  new ScanError('truncated', 'the PLY file holds less than its header announces; copy or export it again.');

export function plySource(bytes: Uint8Array, header: PlyHeader): PlySource {
  return header.format === 'ascii'
    ? new TextSource(bytes, header.dataAt)
    : new BinarySource(bytes, header.dataAt, header.format === 'binary_little_endian');
}

class TextSource implements PlySource {
  private readonly cursor: Cursor;

  constructor(bytes: Uint8Array, at: number) {
    this.cursor = new Cursor(bytes, at);
  }

  read(): number {
    return this.cursor.number();
  }

  skip(_type: PlyType, count: number): void {
    for (let i = 0; i < count; i++) {
      if (!this.cursor.skipBlanks()) throw cutShort();
      this.cursor.skipWord();
    }
  }

  /** Some writers put more on a line than the header says: the rest is passed over. */
  endEntry(): void {
    this.cursor.skipLine();
  }

  left(): number {
    return this.cursor.end - this.cursor.at + 1;
  }

  smallest(): number {
    // A digit and the blank behind it.
    return 2;
  }
}

/** Also read directly, without this interface, where an element's layout is fixed: see vertices.ts and faces.ts. */
export class BinarySource implements PlySource {
  readonly view: DataView;
  readonly little: boolean;
  at: number;

  constructor(bytes: Uint8Array, at: number, little: boolean) {
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.little = little;
    this.at = at;
  }

  read(type: PlyType): number {
    const { at, view } = this;
    const next = at + plySize[type];
    if (next > view.byteLength) throw cutShort();
    this.at = next;
    return valueAt(view, at, type, this.little);
  }

  skip(type: PlyType, count: number): void {
    this.at += plySize[type] * count;
    if (this.at > this.view.byteLength) throw cutShort();
  }

  endEntry(): void {}

  left(): number {
    return this.view.byteLength - this.at;
  }

  smallest(type: PlyType): number {
    return plySize[type];
  }
}

export function valueAt(view: DataView, at: number, type: PlyType, little: boolean): number {
  switch (type) {
    case 'int8':
      return view.getInt8(at);
    case 'uint8':
      return view.getUint8(at);
    case 'int16':
      return view.getInt16(at, little);
    case 'uint16':
      return view.getUint16(at, little);
    case 'int32':
      return view.getInt32(at, little);
    case 'uint32':
      return view.getUint32(at, little);
    case 'float32':
      return view.getFloat32(at, little);
    case 'float64':
      return view.getFloat64(at, little);
  }
}

/** Throws `truncated` where the file is too short for the element, before anything is allocated for it. */
export function checkRoom(source: PlySource, element: PlyElement): void {
  let smallest = 0;
  for (const { type, countType } of element.properties) smallest += source.smallest(countType ?? type);
  if (element.count * smallest > source.left()) throw cutShort();
}

/** The length of a list. Throws `malformed` for a length that is no whole number, `truncated` for one that cannot fit. */
export function readListLength(source: PlySource, property: PlyProperty): number {
  const length = source.read(property.countType as PlyType);
  if (!(length >= 0) || !Number.isInteger(length))
    throw new ScanError('malformed', `a PLY list has ${length} entries; export the file again.`);
  if (length * source.smallest(property.type) > source.left()) throw cutShort();
  return length;
}

/** Passes over one entry's property. */
export function skipProperty(source: PlySource, property: PlyProperty): void {
  source.skip(property.type, property.countType ? readListLength(source, property) : 1);
}

/** Passes over a whole element. */
export function skipElement(source: PlySource, element: PlyElement): void {
  checkRoom(source, element);
  const { properties, count } = element;
  if (properties.length === 0) return;
  if (properties.every((property) => !property.countType) && source instanceof BinarySource) {
    for (const { type } of properties) source.skip(type, count);
    return;
  }
  for (let i = 0; i < count; i++) {
    for (const property of properties) skipProperty(source, property);
    source.endEntry();
  }
}
