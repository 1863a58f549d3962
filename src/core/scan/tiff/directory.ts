import { ScanError } from '../error.ts';

/** Bytes of one value of each field type of TIFF 6.0 and BigTIFF that can hold a number or a letter. */
const sizeOfType: Readonly<Record<number, number>> = { 1: 1, 2: 1, 3: 2, 4: 4, 6: 1, 8: 2, 9: 4, 16: 8, 17: 8, 18: 8 };

interface Field {
  readonly type: number;
  readonly count: number;
  readonly at: number;
}

export const brokenTiff = (): ScanError =>
  new ScanError('malformed', 'the TIFF file is damaged, cut short or of an unusual make; save it again.');

/** The first image file directory of a TIFF: fields by their tag, values read where they are asked for. */
export class TiffDirectory {
  readonly little: boolean;
  private readonly view: DataView;
  private readonly fields = new Map<number, Field>();

  /** Reads the header and the directory of classic TIFF and BigTIFF. Throws `malformed` or `noTriangles`. */
  constructor(bytes: Uint8Array) {
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    if (bytes.length < 8) throw brokenTiff();
    this.little = bytes[0] === 0x49;
    const version = this.view.getUint16(2, this.little);
    if (version !== 42 && version !== 43) throw brokenTiff();
    const big = version === 43;
    if (big && (bytes.length < 16 || this.view.getUint16(4, this.little) !== 8)) throw brokenTiff();
    const start = big ? this.whole64(8) : this.view.getUint32(4, this.little);
    if (start === 0) throw new ScanError('noTriangles', 'the TIFF file holds no picture; export the heights again.');
    this.readFields(start, big);
  }

  private readFields(start: number, big: boolean): void {
    const { view, little } = this;
    const [countBytes, entryBytes, inline] = big ? [8, 20, 8] : [2, 12, 4];
    if (start + countBytes > view.byteLength) throw brokenTiff();
    const count = big ? this.whole64(start) : view.getUint16(start, little);
    if (start + countBytes + count * entryBytes > view.byteLength) throw brokenTiff();
    for (let i = 0; i < count; i++) {
      const at = start + countBytes + i * entryBytes;
      const type = view.getUint16(at + 2, little);
      const values = big ? this.whole64(at + 4) : view.getUint32(at + 4, little);
      const place = at + (big ? 12 : 8);
      const fits = (sizeOfType[type] ?? 0) * values <= inline;
      const valueAt = fits ? place : big ? this.whole64(place) : view.getUint32(place, little);
      const tag = view.getUint16(at, little);
      if (!this.fields.has(tag)) this.fields.set(tag, { type, count: values, at: valueAt });
    }
  }

  /** A 64-bit whole number; beyond 2⁵³ it lies behind the end of any file and is refused by every check that follows. */
  private whole64(at: number): number {
    return Number(this.view.getBigUint64(at, this.little));
  }

  /** The numbers of a field, none where it is absent. Throws `malformed` where they lie outside the file. */
  list(tag: number): Float64Array {
    const field = this.fields.get(tag);
    if (!field) return new Float64Array(0);
    const { type, count, at } = field;
    const size = sizeOfType[type];
    if (size === undefined || type === 2 || at + count * size > this.view.byteLength) throw brokenTiff();
    const out = new Float64Array(count);
    for (let i = 0; i < count; i++) out[i] = this.number(type, at + i * size);
    return out;
  }

  private number(type: number, at: number): number {
    const { view, little } = this;
    if (type === 1) return view.getUint8(at);
    if (type === 6) return view.getInt8(at);
    if (type === 3) return view.getUint16(at, little);
    if (type === 8) return view.getInt16(at, little);
    if (type === 4) return view.getUint32(at, little);
    return type === 9 ? view.getInt32(at, little) : this.whole64(at);
  }

  /** The first number of a field, or `missing` where it is absent. */
  value(tag: number, missing: number): number {
    const [first] = this.fields.has(tag) ? this.list(tag) : [missing];
    return first ?? missing;
  }

  /** The letters of a text field, at most 100; undefined where it is absent. */
  text(tag: number): string | undefined {
    const field = this.fields.get(tag);
    if (field?.type !== 2) return undefined;
    const length = Math.min(field.count, 100);
    if (field.at + length > this.view.byteLength) throw brokenTiff();
    let text = '';
    for (let i = 0; i < length; i++) text += String.fromCharCode(this.view.getUint8(field.at + i));
    return text.split('\0')[0];
  }
}
