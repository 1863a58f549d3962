import { ScanError } from './error.ts';

/** One file of a zip as its directory tells of it. */
export interface ZipEntry {
  readonly name: Uint8Array;
  readonly isUtf8: boolean;
  readonly isEncrypted: boolean;
  /** 0 stored, 8 deflate. */
  readonly compression: number;
  readonly packed: Uint8Array;
  /** Bytes when unpacked, as the directory claims. */
  readonly size: number;
}

const mark = { entry: 0x02014b50, local: 0x04034b50, end: 0x06054b50, end64: 0x06064b50, locator64: 0x07064b50 };
const bytesOf = { entry: 46, local: 30, end: 22, locator64: 20, end64: 56, longestComment: 65_535 };
/** Stands in a field of 32 bits for "see the longer field of zip64". */
const elsewhere = 0xffffffff;

export const brokenZip = (): ScanError =>
  new ScanError('truncated', 'the zip container is damaged or cut short; copy or export it again.');

/**
 * The directory of a zip, with zip64: entries whose data lie within the file, as many as there are bytes for. The count that the
 * file claims is never believed. Throws `truncated` where the directory is not there or leads out of the file.
 * Source: the .ZIP File Format Specification, sections 4.3 and 4.5.
 */
export function zipEntries(bytes: Uint8Array): ZipEntry[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { count, start } = directoryOf(view);
  const entries: ZipEntry[] = [];
  for (let at = start; entries.length < count; ) {
    if (at + bytesOf.entry > bytes.length || view.getUint32(at, true) !== mark.entry) throw brokenZip();
    const [nameLength, extraLength, commentLength] = [28, 30, 32].map((field) => view.getUint16(at + field, true));
    const next = at + bytesOf.entry + nameLength + extraLength + commentLength;
    if (next > bytes.length) throw brokenZip();
    entries.push(entryAt(bytes, view, at, nameLength, extraLength));
    at = next;
  }
  return entries;
}

function directoryOf(view: DataView): { count: number; start: number } {
  const last = view.byteLength - bytesOf.end;
  for (let at = last; at >= Math.max(0, last - bytesOf.longestComment); at--) {
    if (view.getUint32(at, true) !== mark.end) continue;
    const locator = at - bytesOf.locator64;
    if (locator >= 0 && view.getUint32(locator, true) === mark.locator64) {
      const end64 = number64(view, locator + 8);
      if (end64 + bytesOf.end64 <= view.byteLength && view.getUint32(end64, true) === mark.end64)
        return { count: number64(view, end64 + 32), start: number64(view, end64 + 48) };
    }
    return { count: view.getUint16(at + 10, true), start: view.getUint32(at + 16, true) };
  }
  throw brokenZip();
}

function entryAt(bytes: Uint8Array, view: DataView, at: number, nameLength: number, extraLength: number): ZipEntry {
  const flags = view.getUint16(at + 8, true);
  const name = bytes.subarray(at + bytesOf.entry, at + bytesOf.entry + nameLength);
  const extraAt = at + bytesOf.entry + nameLength;
  const [size, packedSize, local] = longFields(
    view,
    extraAt,
    extraAt + extraLength,
    [24, 20, 42].map((field) => view.getUint32(at + field, true)),
  );
  if (local + bytesOf.local > bytes.length || view.getUint32(local, true) !== mark.local) throw brokenZip();
  const from = local + bytesOf.local + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
  if (from + packedSize > bytes.length) throw brokenZip();
  return {
    name,
    isUtf8: (flags & 0x800) !== 0,
    isEncrypted: (flags & 1) !== 0,
    compression: view.getUint16(at + 10, true),
    packed: bytes.subarray(from, from + packedSize),
    size,
  };
}

/** Size, packed size and place, each from the zip64 field where its 32 bits say so, in this order (section 4.5.3). */
function longFields(view: DataView, from: number, to: number, short: readonly number[]): number[] {
  if (!short.includes(elsewhere)) return [...short];
  for (let at = from; at + 4 <= to; at += 4 + view.getUint16(at + 2, true)) {
    if (view.getUint16(at, true) !== 1) continue;
    let place = at + 4;
    return short.map((value) => {
      if (value !== elsewhere) return value;
      if (place + 8 > to) throw brokenZip();
      place += 8;
      return number64(view, place - 8);
    });
  }
  return [...short];
}

/** Beyond 2⁵³ it lies behind the end of any file and fails the check that follows. */
const number64 = (view: DataView, at: number): number => Number(view.getBigUint64(at, true));
