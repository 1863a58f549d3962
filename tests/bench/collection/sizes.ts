import { type FaceIndex, findCandidates, globalBytes } from '../../../src/core/collection/index.ts';
import { globalParts } from '../../../src/core/collection/pack.ts';
import { seededRandom } from '../../../src/core/geometry/index.ts';
import type { Row } from '../table.ts';
import { cpuSeconds } from './indexed.ts';
import { wanted } from './recall.ts';

/**
 * Time of a search over tables of many faces: true indices first, then indices made of them by exchanging an eighth of the bits of every code and
 * turning every direction.
 */
export function sizeRows(indices: readonly FaceIndex[], sizes: readonly number[], say: (line: string) => void): Row[] {
  return sizes.map((count) => {
    const bytes = jittered(indices, count);
    const queries = indices.filter((_, k) => k % Math.ceil(indices.length / 5) === 0);
    const before = [cpuSeconds(), performance.now()];
    for (const query of queries)
      findCandidates(query, { count, bytes }, (place) => indices[place % indices.length].local, wanted);
    const each = [cpuSeconds() - before[0], (performance.now() - before[1]) / 1000].map((s) =>
      (s / queries.length).toFixed(2),
    );
    say(`${count} faces: ${each[0]} s of CPU a search`);
    const floor = count === 10_000 ? 'at most 1 s' : count === 1_000_000 ? 'at most 10 s' : '';
    const what = `search over ${count.toLocaleString('en')} faces, to the list (table ${((count * globalBytes) / 1e6).toFixed(0)} MB)`;
    return { what, floor, measured: `${each[0]} s of CPU, ${each[1]} s` };
  });
}

function jittered(indices: readonly FaceIndex[], count: number): Uint8Array {
  const bytes = new Uint8Array(count * globalBytes);
  const words = new Uint32Array(bytes.buffer);
  const random = seededRandom(20_261_129);
  const word = (): number => (random.next() * 2 ** 32) >>> 0;
  for (let face = 0; face < count; face++) {
    const at = face * globalBytes;
    bytes.set(indices[face % indices.length].global, at);
    if (face < indices.length) continue;
    const features = words[at / 4 + 1];
    for (let i = 0; i < features; i++) {
      words[(at + globalParts.first) / 4 + i] ^= word() & word() & word();
      words[(at + globalParts.second) / 4 + i] ^= word() & word() & word();
      bytes[at + globalParts.angle + i] = random.below(256);
    }
  }
  return bytes;
}
