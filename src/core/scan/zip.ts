import { type UnzipFileInfo, unzipSync } from 'fflate';
import type { Budget } from './admission/budget.ts';
import { ScanError } from './error.ts';

/** Deflate cannot make more than this many bytes from one: a larger claim is false. */
export const mostInflation = 1032;

export const isZip = (bytes: Uint8Array): boolean => bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] <= 8;

/** The names of the real files in a zip: no folders, no system litter. */
export function namesInZip(bytes: Uint8Array): string[] {
  const names: string[] = [];
  openZip(bytes, ({ name }) => {
    if (isRealFile(name)) names.push(name);
    return false;
  });
  return names;
}

/** Unpacks the named files within the budget. Throws `truncated` or `tooLarge`. */
export function unpack(bytes: Uint8Array, names: readonly string[], budget: Budget): Record<string, Uint8Array> {
  const taken = new Set<string>();
  return openZip(bytes, (file) => {
    // A name that is listed twice would be unpacked twice.
    if (!names.includes(file.name) || taken.has(file.name)) return false;
    taken.add(file.name);
    if (file.originalSize > mostInflation * (file.size + 1) || file.size > bytes.length) throw brokenZip();
    budget.bytes(file.originalSize);
    return true;
  });
}

function openZip(bytes: Uint8Array, filter: (file: UnzipFileInfo) => boolean): Record<string, Uint8Array> {
  try {
    return unzipSync(bytes, { filter });
  } catch (error) {
    if (error instanceof ScanError) throw error;
    throw brokenZip();
  }
}

const brokenZip = (): ScanError =>
  new ScanError('truncated', 'the zip container is damaged or cut short; copy or export it again.');

function isRealFile(name: string): boolean {
  const parts = name.split(/[\\/]/);
  const last = parts[parts.length - 1];
  return last !== '' && !last.startsWith('.') && !parts.includes('__MACOSX');
}

/** The last part of a path. */
export const baseName = (path: string): string => path.split(/[\\/]/).pop() ?? path;
