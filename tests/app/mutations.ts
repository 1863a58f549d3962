import { parseGlb, writeGlb } from '../../src/app/saved/glb.ts';
import { type Random, seededRandom } from '../../src/core/geometry/index.ts';

export const randomOf = (seed: number): Random => seededRandom(seed);

const pick = <T>(random: Random, list: readonly T[]): T =>
  list[Math.min(list.length - 1, Math.floor(random.between(0, list.length)))];

/** What a damaged or hostile writer puts in the place of anything. */
const strangers: readonly unknown[] = [
  ...[
    null,
    true,
    0,
    -1,
    0.5,
    1e9,
    -1e300,
    2 ** 31,
    '',
    'x',
    '__proto__',
    'FORGED: beyond doubt.',
    '\u0000\u202e\ud800',
  ],
  ...[[], {}, [[]], { length: 1e9 }, { floats: null }, { floats: [null, 'x'] }, [null], [1e308, -1e308]],
];

/** One to three places of a JSON value changed: replaced, removed, doubled, moved, renamed, made many. */
export function mutateJson<T>(value: T, random: Random): T {
  const times = 1 + Math.floor(random.between(0, 3));
  for (let i = 0; i < times; i++) mutateOnce(value, random);
  return value;
}

function mutateOnce(root: unknown, random: Random): void {
  let here = root as Record<string, unknown>;
  // Walks down by chance, so that places near the top are as likely as the many near the leaves.
  for (let depth = 0; depth < 12; depth++) {
    const keys = Object.keys(here);
    if (keys.length === 0) return;
    const key = pick(random, keys);
    const inside = here[key];
    if (inside !== null && typeof inside === 'object' && random.between(0, 1) < 0.8) {
      here = inside as Record<string, unknown>;
      continue;
    }
    change(here, key, keys, random);
    return;
  }
}

function change(here: Record<string, unknown>, key: string, keys: readonly string[], random: Random): void {
  const what = Math.floor(random.between(0, 7));
  const value = here[key];
  if (what === 0) here[key] = structuredClone(pick(random, strangers));
  else if (what === 1) delete here[key];
  else if (what === 2) here[key] = structuredClone(here[pick(random, keys)]);
  else if (what === 3) here[`${key}x`] = value;
  else if (what === 4 && Array.isArray(value))
    here[key] = Array.from({ length: many(JSON.stringify(value[0] ?? null).length) }, () => value[0]);
  else if (what === 4 && typeof value === 'string') here[key] = value.repeat(many(value.length));
  else if (typeof value === 'number')
    here[key] = pick(random, [value * 1.01, -value, value * 1e6, value + 1, Math.round(value), 16_000]);
  else if (typeof value === 'string')
    here[key] = `${value.slice(0, value.length / 2)}FORGED${value.slice(value.length / 2)}`;
  else here[key] = structuredClone(pick(random, strangers));
}

/** So many copies of a text: thousands, but no more than make some megabytes, or the making would take what the reader must not. */
const many = (length: number): number => Math.max(2, Math.min(3_000, Math.ceil(3e6 / (length + 1))));

/** A GLB changed in its text, its binary part, its lengths, or cut short. */
export function mutatedGlb(bytes: Uint8Array, random: Random): Uint8Array<ArrayBuffer> {
  const where = random.between(0, 1);
  const glb = parseGlb(bytes);
  if (where < 0.75 && glb) {
    const gltf = glb.json as { asset: { extras: { ectype: Record<string, unknown> } } };
    const own = random.between(0, 1) < 0.8;
    mutateJson(own ? gltf.asset.extras.ectype : gltf, random);
    return writeGlb({ json: gltf as unknown as Record<string, unknown>, binary: glb.binary });
  }
  const copy = bytes.slice() as Uint8Array<ArrayBuffer>;
  if (where > 0.95) return copy.slice(0, Math.floor(random.between(0, copy.length)));
  const upTo = where < 0.8 ? 28 : copy.length;
  const flips = 1 + Math.floor(random.between(0, 8));
  for (let i = 0; i < flips; i++) copy[Math.floor(random.between(0, upTo))] ^= 1 << Math.floor(random.between(0, 8));
  return copy;
}
