import { ScanError } from './error.ts';
import { isExactBinaryStl, isTextStl } from './stl/recogniseStl.ts';
import { textAtStart, wordsAtStart } from './text/words.ts';
import type { RawScan } from './types.ts';
import { isZip } from './zip.ts';

export type Container = Exclude<RawScan['format'], 'x3p'> | 'zip';

/** What can be read, for messages. */
export const readable = 'PLY, STL, OBJ, glTF, GLB, X3P, 16-bit PNG or 32-bit TIFF';

const formatOfEnding: Readonly<Record<string, Container>> = {
  ply: 'ply',
  stl: 'stl',
  obj: 'obj',
  gltf: 'gltf',
  glb: 'gltf',
  x3p: 'zip',
  zip: 'zip',
  png: 'png',
  tif: 'tiff',
  tiff: 'tiff',
};

const startsWith = (bytes: Uint8Array, signature: readonly number[]): boolean =>
  signature.every((byte, i) => bytes[i] === byte);

/**
 * The format, by content first and by the name's ending second: endings are often wrong or in capitals.
 * Throws `empty` for no bytes and `unsupported` for anything else.
 */
export function recognise(bytes: Uint8Array, name: string): Container {
  if (bytes.length === 0) throw new ScanError('empty', 'the file is empty; copy or export it again.');
  const format = bySignature(bytes) ?? byText(bytes) ?? formatOfEnding[endingOf(name)];
  if (format === undefined) throw unknown(bytes);
  return format;
}

export const endingOf = (name: string): string => /\.([^.\\/]+)$/.exec(name)?.[1].toLowerCase() ?? '';

function bySignature(bytes: Uint8Array): Container | undefined {
  if (startsWith(bytes, [0x70, 0x6c, 0x79]) && bytes[3] <= 32) return 'ply';
  if (startsWith(bytes, [0x67, 0x6c, 0x54, 0x46])) return 'gltf';
  if (startsWith(bytes, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return 'png';
  if (startsWith(bytes, [0x49, 0x49, 0x2a, 0]) || startsWith(bytes, [0x4d, 0x4d, 0, 0x2a])) return 'tiff';
  // BigTIFF.
  if (startsWith(bytes, [0x49, 0x49, 0x2b, 0]) || startsWith(bytes, [0x4d, 0x4d, 0, 0x2b])) return 'tiff';
  if (startsWith(bytes, [0x50, 0x4b]) && isZip(bytes)) return 'zip';
  return isExactBinaryStl(bytes) || isTextStl(bytes) ? 'stl' : undefined;
}

function byText(bytes: Uint8Array): Container | undefined {
  const [first] = wordsAtStart(bytes, 64);
  if (first?.startsWith('{')) return 'gltf';
  const text = textAtStart(bytes, 1 << 16);
  if (text.includes('\0')) return undefined;
  return /^v\s+[-+.\d]\S*\s+[-+.\d]\S*\s+[-+.\d]/m.test(text) ? 'obj' : undefined;
}

function unknown(bytes: Uint8Array): ScanError {
  const text = textAtStart(bytes, 64).trimStart();
  const what = text.startsWith('<')
    ? 'is XML or a web page'
    : text.includes('\0')
      ? 'has an unknown binary format'
      : 'has an unknown format';
  return new ScanError('unsupported', `the file ${what}; export the scan as ${readable}.`);
}
