import { strFromU8 } from 'fflate';
import { ScanError } from '../error.ts';
import { baseName } from '../zip.ts';
import type { GltfDocument } from './document.ts';
import { checkJsonSize } from './jsonSize.ts';
import { sideFileName } from './sideFileName.ts';

const jsonChunk = 0x4e4f534a;
const binaryChunk = 0x004e4942;

export interface GltfFile {
  readonly document: GltfDocument;
  /** The binary chunk of a GLB. */
  readonly binary?: Uint8Array;
}

/** Splits a GLB, or takes a .gltf as it is, and parses its JSON. Throws `truncated`, `malformed` or `unsupported`. */
export function openGltf(bytes: Uint8Array): GltfFile {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 4 || view.getUint32(0, true) !== 0x46546c67) return { document: parseJson(bytes) };
  if (bytes.length < 12) throw cutShort();
  const version = view.getUint32(4, true);
  const length = view.getUint32(8, true);
  if (version !== 2) throw new ScanError('unsupported', `the glTF is of version ${version}; export it as glTF 2.0.`);
  if (length > bytes.length || length < 20) throw cutShort();
  const json = chunkAt(bytes, view, 12, length);
  if (json.type !== jsonChunk)
    throw new ScanError('malformed', 'the GLB does not begin with its JSON; export it again.');
  const document = parseJson(json.data);
  for (let at = json.end; at + 8 <= length; ) {
    const chunk = chunkAt(bytes, view, at, length);
    if (chunk.type === binaryChunk) return { document, binary: chunk.data };
    at = chunk.end;
  }
  return { document };
}

function chunkAt(bytes: Uint8Array, view: DataView, at: number, length: number) {
  const size = view.getUint32(at, true);
  const end = at + 8 + size;
  if (end > length) throw cutShort();
  return { type: view.getUint32(at + 4, true), data: bytes.subarray(at + 8, end), end };
}

const cutShort = (): ScanError =>
  new ScanError('truncated', 'the GLB holds less than its header announces; copy or export it again.');

function parseJson(bytes: Uint8Array): GltfDocument {
  checkJsonSize(bytes);
  let document: unknown;
  try {
    document = JSON.parse(strFromU8(bytes).replace(/^\uFEFF/, ''));
  } catch {
    throw new ScanError('malformed', 'the JSON of the glTF is damaged or cut short; copy or export it again.');
  }
  if (typeof document !== 'object' || document === null || Array.isArray(document))
    throw new ScanError('malformed', 'the glTF holds no document; export it again.');
  return document as GltfDocument;
}

/**
 * The bytes of a buffer: the GLB's own chunk, a data URI, or a file that was handed in under the URI's name.
 * Nothing is ever fetched.
 */
export function bufferBytes(file: GltfFile, index: number, files: Readonly<Record<string, Uint8Array>>): Uint8Array {
  const uri: unknown = file.document.buffers?.[index]?.uri;
  if (uri === undefined) {
    if (index === 0 && file.binary) return file.binary;
    throw new ScanError('truncated', 'the glTF lacks one of its buffers; copy or export it again.');
  }
  if (typeof uri !== 'string')
    throw new ScanError('malformed', 'a buffer of the glTF has no proper address; export it again.');
  if (uri.startsWith('data:')) return bytesOfDataUri(uri);
  const name = sideFileName(uri);
  const found = fileNamed(name, files);
  if (found) return found;
  throw new ScanError(
    'fileMissing',
    `the glTF needs the file "${uri.slice(0, 80)}"; give it together with the scan, or export as GLB.`,
  );
}

/** Names of the files that a .gltf needs beside itself; none for anything else. Throws as `openGltf` and `sideFileName` do. */
export function sideFilesOf(bytes: Uint8Array): string[] {
  const buffers: unknown = openGltf(bytes).document.buffers;
  if (!Array.isArray(buffers)) return [];
  const uris = buffers.map((buffer: { uri?: unknown } | null) => buffer?.uri);
  const addresses = uris.filter((uri): uri is string => typeof uri === 'string' && !uri.startsWith('data:'));
  return [...new Set(addresses.map(sideFileName))];
}

function fileNamed(name: string, files: Readonly<Record<string, Uint8Array>>): Uint8Array | undefined {
  if (Object.hasOwn(files, name)) return files[name];
  const same = Object.keys(files).find((candidate) => baseName(candidate) === baseName(name));
  return same === undefined ? undefined : files[same];
}

function bytesOfDataUri(uri: string): Uint8Array {
  const comma = uri.indexOf(',');
  if (comma < 0 || !uri.slice(0, comma).endsWith(';base64'))
    throw new ScanError('malformed', 'a buffer of the glTF is not written as base64; export it again.');
  return decodeBase64(uri, comma + 1);
}

/** Value of each base64 letter, the web-safe ones included; 64 for any other. */
const sextets = new Uint8Array(128).fill(64);
[...'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/'].forEach((letter, value) => {
  sextets[letter.charCodeAt(0)] = value;
});
sextets['-'.charCodeAt(0)] = 62;
sextets['_'.charCodeAt(0)] = 63;

/** Base64 (RFC 4648) from `from` on, straight from the text: no second copy of a large buffer as a string. */
export function decodeBase64(text: string, from: number): Uint8Array {
  const out = new Uint8Array(Math.ceil(((text.length - from) * 3) / 4));
  let used = 0;
  let bits = 0;
  let held = 0;
  for (let at = from; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 61 || code <= 32) continue;
    const value = code < 128 ? sextets[code] : 64;
    if (value === 64) throw new ScanError('malformed', 'a buffer of the glTF is not proper base64; export it again.');
    bits = ((bits << 6) | value) & 0xffffff;
    held += 6;
    if (held < 8) continue;
    held -= 8;
    out[used++] = bits >> held;
  }
  return out.subarray(0, used);
}
