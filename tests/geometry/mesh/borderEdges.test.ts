import { expect, it } from 'vitest';
import { borderEdges, type Mesh, seededRandom } from '../../../src/core/geometry/index.ts';
import { bumpySheet } from '../surface.ts';

/** Referee: counts every edge. */
function countEdges(mesh: Mesh): Uint8Array {
  const t = mesh.triangles;
  const uses = new Map<string, number>();
  const key = (i: number, k: number): string => [t[i + k], t[i + ((k + 1) % 3)]].sort((a, b) => a - b).join();
  for (let i = 0; i < t.length; i += 3) for (let k = 0; k < 3; k++) uses.set(key(i, k), (uses.get(key(i, k)) ?? 0) + 1);
  const open = new Uint8Array(t.length / 3);
  for (let i = 0; i < t.length; i += 3)
    for (let k = 0; k < 3; k++) if (uses.get(key(i, k)) === 1) open[i / 3] |= 1 << k;
  const ends = new Set<number>();
  for (let i = 0; i < t.length; i++)
    if (open[Math.floor(i / 3)] & (1 << (i % 3))) ends.add(t[i]).add(nextInTriangle(t, i));
  for (let i = 0; i < t.length; i++) if (ends.has(t[i])) open[Math.floor(i / 3)] |= 8 << (i % 3);
  return open;
}

const nextInTriangle = (t: Uint32Array, i: number): number => t[i % 3 === 2 ? i - 2 : i + 1];

it('finds the edges that exactly one triangle uses and where they end, with holes, turned triangles and edges used three times', () => {
  const whole = bumpySheet(25, 10, 1);
  for (const seed of [1, 2, 3, 4]) {
    const random = seededRandom(seed);
    const kept: number[] = [];
    for (let i = 0; i < whole.triangles.length; i += 3) {
      if (random.next() < 0.1 * seed) continue;
      const [a, b, c] = whole.triangles.subarray(i, i + 3);
      kept.push(...(random.next() < 0.5 ? [a, b, c] : [b, a, c]));
      if (random.next() < 0.05) kept.push(a, b, random.below(whole.positions.length / 3));
    }
    const mesh = { ...whole, triangles: Uint32Array.from(kept) };
    expect(borderEdges(mesh)).toEqual(countEdges(mesh));
  }
});
