import { ScanError } from '../error.ts';

export type PlyType = 'int8' | 'uint8' | 'int16' | 'uint16' | 'int32' | 'uint32' | 'float32' | 'float64';

export const plySize: Readonly<Record<PlyType, number>> = {
  int8: 1,
  uint8: 1,
  int16: 2,
  uint16: 2,
  int32: 4,
  uint32: 4,
  float32: 4,
  float64: 8,
};

// The names of the original definition and the sized ones that later writers use.
const typeOf = new Map<string, PlyType>([
  ['char', 'int8'],
  ['uchar', 'uint8'],
  ['short', 'int16'],
  ['ushort', 'uint16'],
  ['int', 'int32'],
  ['uint', 'uint32'],
  ['float', 'float32'],
  ['double', 'float64'],
  ...(Object.keys(plySize) as PlyType[]).map((name): [string, PlyType] => [name, name]),
]);

export interface PlyProperty {
  readonly name: string;
  readonly type: PlyType;
  /** For a list: the type of its length. */
  readonly countType?: PlyType;
}

export interface PlyElement {
  readonly name: string;
  readonly count: number;
  readonly properties: PlyProperty[];
}

export interface PlyHeader {
  readonly format: 'ascii' | 'binary_little_endian' | 'binary_big_endian';
  readonly elements: readonly PlyElement[];
  /** The `obj_info` lines as key and value (range scans put the size of their grid there). */
  readonly info: ReadonlyMap<string, string>;
  /** Where the data begin. */
  readonly dataAt: number;
}

const longestHeader = 1 << 20;

/**
 * Reads the header of a PLY file. Unknown lines are passed over, as comments are.
 * Throws `truncated` where it has no end, `malformed` where a count, a type or the format makes no sense.
 */
export function readPlyHeader(bytes: Uint8Array): PlyHeader {
  const elements: PlyElement[] = [];
  const info = new Map<string, string>();
  let format: PlyHeader['format'] | undefined;
  const lineEnd = lineEndOf(bytes);
  let at = 0;
  for (;;) {
    const line = lineAt(bytes, at, lineEnd);
    at += line.length + lineEnd.length;
    const words = line.trim().split(/\s+/);
    if (words[0] === 'end_header') break;
    if (words[0] === 'format') format = formatOf(words[1]);
    else if (words[0] === 'element') elements.push(elementOf(words));
    else if (words[0] === 'property') lastOf(elements).properties.push(propertyOf(words));
    else if (words[0] === 'obj_info') info.set(words[1] ?? '', words[2] ?? '');
  }
  if (!format) throw new ScanError('malformed', 'the PLY header names no format; export the file again.');
  return { format, elements, info, dataAt: at };
}

/** The first line tells how lines end; binary data may begin with a byte that looks like one. */
function lineEndOf(bytes: Uint8Array): string {
  for (let at = 3; at < 80; at++) {
    if (bytes[at] === 10) return '\n';
    if (bytes[at] === 13) return bytes[at + 1] === 10 ? '\r\n' : '\r';
  }
  throw new ScanError('truncated', 'the PLY header is cut short; copy or export the file again.');
}

function lineAt(bytes: Uint8Array, from: number, lineEnd: string): string {
  const stop = lineEnd.charCodeAt(0);
  let line = '';
  for (let at = from; bytes[at] !== stop; at++) {
    if (at >= bytes.length || at > longestHeader)
      throw new ScanError('truncated', 'the PLY header has no end; copy or export the file again.');
    line += String.fromCharCode(bytes[at]);
  }
  return line;
}

function formatOf(word: string | undefined): PlyHeader['format'] {
  if (word === 'ascii' || word === 'binary_little_endian' || word === 'binary_big_endian') return word;
  throw new ScanError('malformed', `the PLY format "${quoted(word)}" does not exist; export the file again.`);
}

function elementOf(words: readonly string[]): PlyElement {
  const count = Number(words[2]);
  if (!words[1] || !/^\d+$/.test(words[2] ?? '') || !Number.isSafeInteger(count))
    throw new ScanError(
      'malformed',
      `the PLY header counts "${quoted(words.slice(1).join(' '))}"; export the file again.`,
    );
  return { name: words[1], count, properties: [] };
}

/** A word of the header for a message, cut to a length that fits one. */
const quoted = (word = ''): string => word.slice(0, 40);

function lastOf(elements: readonly PlyElement[]): PlyElement {
  const last = elements[elements.length - 1];
  if (!last)
    throw new ScanError('malformed', 'the PLY header has a property before any element; export the file again.');
  return last;
}

function propertyOf(words: readonly string[]): PlyProperty {
  if (words[1] !== 'list') return { type: typeNamed(words[1]), name: words[2] ?? '' };
  return { countType: typeNamed(words[2]), type: typeNamed(words[3]), name: words[4] ?? '' };
}

function typeNamed(word: string | undefined): PlyType {
  const type = typeOf.get(word ?? '');
  if (!type)
    throw new ScanError('malformed', `the PLY header has the unknown type "${quoted(word)}"; export the file again.`);
  return type;
}
