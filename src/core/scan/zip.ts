import { strFromU8 } from 'fflate';
import type { Budget } from './admission/budget.ts';
import { inflateWithin } from './admission/inflate.ts';
import { ScanError } from './error.ts';
import { brokenZip, type ZipEntry, zipEntries } from './zipDirectory.ts';

/** Deflate cannot make more than this many bytes from one: a larger claim is false. */
const mostInflation = 1032;

const method = { stored: 0, deflate: 8 };

export const isZip = (bytes: Uint8Array): boolean => bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] <= 8;

/** The names of the real files in a zip: no folders, no system litter. */
export const namesInZip = (bytes: Uint8Array): string[] => zipEntries(bytes).map(nameOf).filter(isRealFile);

/** Unpacks the named files within the budget. Throws `truncated`, `unsupported` or `tooLarge`. */
export function unpack(bytes: Uint8Array, names: readonly string[], budget: Budget): Record<string, Uint8Array> {
  const files = new Map<string, Uint8Array>();
  for (const entry of zipEntries(bytes)) {
    const name = nameOf(entry);
    // A name that is listed twice would be unpacked twice.
    if (names.includes(name) && !files.has(name)) files.set(name, contentOf(entry, budget));
  }
  return Object.fromEntries(files);
}

const nameOf = ({ name, isUtf8 }: ZipEntry): string => strFromU8(name, !isUtf8);

function contentOf({ packed, size, compression, isEncrypted }: ZipEntry, budget: Budget): Uint8Array {
  if (isEncrypted) throw new ScanError('unsupported', 'the zip file is locked by a password; give the scan unzipped.');
  if (compression === method.stored) return packed;
  if (compression !== method.deflate)
    throw new ScanError('unsupported', 'the zip file is packed in a way that is not read; give the scan unzipped.');
  if (size > mostInflation * (packed.length + 1)) throw brokenZip();
  budget.bytes(size);
  let content: Uint8Array | null = null;
  try {
    content = inflateWithin([packed], size, 'bare');
  } catch {
    // Falls through to the one message.
  }
  if (content?.length !== size) throw brokenZip();
  return content;
}

function isRealFile(name: string): boolean {
  const parts = name.split(/[\\/]/);
  const last = parts[parts.length - 1];
  return last !== '' && !last.startsWith('.') && !parts.includes('__MACOSX');
}

/** The last part of a path. */
export const baseName = (path: string): string => path.split(/[\\/]/).pop() ?? path;
