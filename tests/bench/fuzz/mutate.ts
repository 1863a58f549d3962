import { strFromU8, strToU8, unzipSync, unzlibSync, zipSync, zlibSync } from 'fflate';
import type { Random } from '../../../src/core/geometry/index.ts';
import { mutatedGlb, mutateJson } from '../../app/mutations.ts';
import { makeGlb, makePng, pngParts } from '../../scan/makers.ts';
import { inViews } from './mutateViews.ts';

/** Numbers at which readers break: bounds of the whole-number types and their neighbours. */
const edges = [
  0,
  1,
  2,
  3,
  4,
  7,
  8,
  127,
  128,
  255,
  256,
  32767,
  32768,
  65535,
  65536,
  2 ** 24,
  2 ** 31 - 1,
  2 ** 31,
  2 ** 32 - 1,
];
const words = [
  ...edges.map(String),
  ...[
    '-1',
    '-2',
    '4294967297',
    '9007199254740993',
    '1e308',
    '1e999',
    '-1e-999',
    'nan',
    'inf',
    '-0',
    '.',
    '-',
    '1e',
    '',
    'null',
  ],
  ...[
    'true',
    '{}',
    '[]',
    '""',
    '"%00"',
    '"..%2f..%2fx"',
    '"data:,"',
    '\u001b[2J',
    '1e12',
    '0.5',
    '5120',
    '5121',
    '5125',
  ],
];

/**
 * A damaged copy: bytes, numbers or parts changed, in one to four places. Where a file is wrapped (checksums, lengths, packing)
 * three of four copies are changed inside and wrapped again soundly, so that the damage reaches the reader behind the wrapping.
 */
export function mutated(name: string, bytes: Uint8Array, random: Random, depth = 0): Uint8Array {
  if (name === 'saved.glb') return mutatedGlb(bytes, random);
  if (name === 'session.json' && random.next() < 0.9)
    return strToU8(JSON.stringify(mutateJson(JSON.parse(strFromU8(bytes)), random)));
  if (depth < 2 && random.next() < 0.75) {
    try {
      if (name.endsWith('.png')) return inPng(bytes, random);
      if (/\.(zip|x3p)$/.test(name)) return inZip(bytes, random, depth);
      if (name.endsWith('.glb')) return inGlb(bytes, random);
      if (name.endsWith('.tif')) return inTiff(bytes, random);
    } catch {
      // A copy whose wrapping is broken already is changed as it is.
    }
  }
  let out: Uint8Array = bytes.slice();
  const isText = /\.(obj|gltf|xml|json)$|^(text|grid|strips)\./.test(name);
  for (let i = random.below(4); i >= 0; i--)
    out = isText && random.next() < 0.7 ? inText(out, random) : inBytes(out, random);
  return out;
}

function inBytes(bytes: Uint8Array, random: Random): Uint8Array {
  if (bytes.length === 0) return Uint8Array.of(random.below(256));
  const at = random.below(bytes.length);
  const length = 1 + random.below(Math.min(16, bytes.length - at));
  const out = bytes.slice();
  switch (random.below(8)) {
    case 0:
      out[at] ^= 1 << random.below(8);
      return out;
    case 1:
      out[at] = random.below(256);
      return out;
    case 2:
      return joined(bytes.subarray(0, at), bytes.subarray(at + length));
    case 3:
      return joined(bytes.subarray(0, at + length), bytes.subarray(at));
    case 4:
      return bytes.slice(0, at);
    case 5:
      out.fill(random.pick([0, 255, 32, 128]), at, at + length);
      return out;
    case 6:
      out.copyWithin(at, random.below(bytes.length), bytes.length);
      return out;
    default:
      return withNumber(out, at, random);
  }
}

function withNumber(out: Uint8Array, at: number, random: Random): Uint8Array {
  const value = random.pick(edges);
  const size = random.pick([1, 2, 4, 8]);
  if (at + size > out.length) return out;
  const view = new DataView(out.buffer);
  const little = random.next() < 0.6;
  if (size === 1) view.setUint8(at, value);
  else if (size === 2) view.setUint16(at, value, little);
  else if (size === 4) view.setUint32(at, value, little);
  else view.setBigUint64(at, BigInt(value) * BigInt(random.pick([1, 2 ** 20])), little);
  return out;
}

/** One number or name of a text replaced, or one line doubled or taken away. */
function inText(bytes: Uint8Array, random: Random): Uint8Array {
  const text = strFromU8(bytes, true);
  if (random.next() < 0.25) {
    const lines = text.split('\n');
    const at = random.below(lines.length);
    lines.splice(at, random.below(2), ...(random.next() < 0.5 ? [lines[random.below(lines.length)]] : []));
    return strToU8(lines.join('\n'), true);
  }
  const found = [...text.matchAll(/[-+]?\d[\d.e+-]*|"[^"]{0,200}"|\b\w+\b/g)];
  if (found.length === 0) return bytes;
  const { 0: old, index } = random.pick(found);
  return strToU8(text.slice(0, index) + random.pick(words) + text.slice(index + old.length), true);
}

function inPng(bytes: Uint8Array, random: Random): Uint8Array {
  const parts = pngParts(bytes);
  const part = random.pick(parts);
  if (part.type === 'IDAT' && random.next() < 0.6) part.data = zlibSync(inBytes(unzlibSync(part.data), random));
  else if (random.next() < 0.7) part.data = inBytes(part.data, random);
  else
    parts.splice(random.below(parts.length), random.below(2), {
      type: random.pick(['IDAT', 'tRNS', 'PLTE', 'iCCP', 'IHDR', 'IEND']),
      data: part.data,
    });
  return makePng(parts);
}

function inZip(bytes: Uint8Array, random: Random, depth: number): Uint8Array {
  const files: Record<string, Uint8Array> = unzipSync(bytes);
  const name = random.pick(Object.keys(files));
  if (random.next() < 0.1) delete files[name];
  else files[name] = mutated(name.endsWith('.xml') ? 'text.xml' : name, files[name], random, depth + 1);
  return zipSync(files, { level: random.pick([0, 1]) });
}

function inGlb(bytes: Uint8Array, random: Random): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const length = view.getUint32(12, true);
  const json = bytes.subarray(20, 20 + length);
  const binary = bytes.subarray(28 + length);
  const part = random.next();
  if (part < 0.45) return inViews(JSON.parse(strFromU8(json)), binary, random);
  if (part < 0.6) return makeGlb(strFromU8(json), inBytes(binary, random));
  let text: Uint8Array = json;
  for (let i = random.below(3); i >= 0; i--) text = inText(text, random);
  return makeGlb(strFromU8(text), binary);
}

/** The value, the count or the type of one field of the directory; the maker puts it behind the header. */
function inTiff(bytes: Uint8Array, random: Random): Uint8Array {
  const out = bytes.slice();
  const view = new DataView(out.buffer);
  const little = out[0] === 0x49;
  const big = view.getUint16(2, little) === 43;
  const count = big ? Number(view.getBigUint64(16, little)) : view.getUint16(8, little);
  for (let i = random.below(3); i >= 0; i--) {
    const at = (big ? 24 : 10) + random.below(count) * (big ? 20 : 12);
    const part = random.next();
    if (part < 0.1) view.setUint16(at, random.pick([256, 257, 258, 259, 262, 273, 278, 317, 322, 339, 42113]), little);
    else if (part < 0.2) view.setUint16(at + 2, random.below(20), little);
    else if (part < 0.35) view.setUint32(at + 4 + (big && !little ? 4 : 0), random.pick(edges), little);
    else view.setUint32(at + (big ? 12 : 8), random.pick([...edges, 5, 6, 16, 32, 64, 32773]), little);
  }
  return out;
}

function joined(one: Uint8Array, other: Uint8Array): Uint8Array {
  const out = new Uint8Array(one.length + other.length);
  out.set(one);
  out.set(other, one.length);
  return out;
}
