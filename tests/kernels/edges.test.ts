import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { startsFromCounts } from '../../src/core/scan/repair/buckets.ts';
import { countEdgesPlainly } from '../../src/core/scan/repair/census.ts';
import { joinPlainly } from '../../src/core/scan/repair/pieces.ts';
import { censusOfEdges, layTriangles, parentsOfJoined } from '../../src/kernels/index.ts';

/** A sheet of `across`² vertices in random order, some triangles turned, some listed again, some between any vertices. */
function sheet(seed: number, across: number): { triangles: Uint32Array; vertices: number } {
  const random = seededRandom(seed);
  const vertices = across * across;
  const number = Uint32Array.from({ length: vertices }, (_, i) => i);
  for (let i = vertices - 1; i > 0; i--) {
    const k = random.below(i + 1);
    [number[i], number[k]] = [number[k], number[i]];
  }
  const list: number[] = [];
  for (let row = 0; row + 1 < across; row++)
    for (let col = 0; col + 1 < across; col++) {
      const [a, b, c] = [row * across + col, row * across + col + 1, (row + 1) * across + col].map((v) => number[v]);
      const chance = random.between(0, 1);
      // Left out, here and there: several pieces.
      if (chance < 0.3) continue;
      list.push(a, ...(chance < 0.35 ? [c, b] : [b, c]));
      if (chance > 0.97) list.push(a, b, c);
      if (chance > 0.99) list.push(a, b, random.below(vertices));
    }
  return { triangles: Uint32Array.from(list), vertices };
}

const laid = (triangles: Uint32Array, vertices: number) =>
  layTriangles(triangles, vertices) ?? expect.fail('no WebAssembly');
const census = (triangles: Uint32Array, vertices: number, names: Uint32Array | null) =>
  censusOfEdges(laid(triangles, vertices), names, startsFromCounts);
const parents = (triangles: Uint32Array, vertices: number) => parentsOfJoined(laid(triangles, vertices));

describe('the kernel for how triangles hang together', () => {
  // The largest is more than one call of the kernel, 16,384 triangles, and more than one bucket.
  const sheets = [sheet(1, 2), sheet(2, 9), sheet(3, 60), sheet(4, 220)];

  it('counts the same edges as its referee, with and without other names', () => {
    for (const { triangles, vertices } of sheets) {
      const halved = Uint32Array.from({ length: vertices }, (_, i) => i >> 1);
      for (const names of [null, halved])
        expect(census(triangles, vertices, names)).toEqual(countEdgesPlainly(triangles, vertices, names));
    }
    const { triangles, vertices } = sheets[3];
    expect(countEdgesPlainly(triangles, vertices, null).crowded).toBeGreaterThan(100);
    expect(countEdgesPlainly(triangles, vertices, null).disagreeing).toBeGreaterThan(100);
  });

  it('joins the same vertices as its referee', () => {
    for (const { triangles, vertices } of sheets)
      expect(parents(triangles, vertices)).toEqual(joinPlainly(vertices, triangles).parent);
  });

  it('answers one question after the other about triangles that are laid out once', () => {
    const { triangles, vertices } = sheets[3];
    const once = laid(triangles, vertices);
    expect(parentsOfJoined(once)).toEqual(joinPlainly(vertices, triangles).parent);
    for (const names of [Uint32Array.from({ length: vertices }, (_, i) => i >> 1), null])
      expect(censusOfEdges(once, names, startsFromCounts)).toEqual(countEdgesPlainly(triangles, vertices, names));
  });

  it('leaves a vertex of very many triangles to the referee', () => {
    const fan = (count: number) =>
      Uint32Array.from({ length: 3 * count }, (_, i) => (i % 3 === 0 ? 0 : (i - (i % 3)) / 3 + (i % 3)));
    expect(census(fan(1000), 1002, null)).toEqual(countEdgesPlainly(fan(1000), 1002, null));
    expect(census(fan(1100), 1102, null)).toBeNull();
  });

  it('takes a surface without triangles', () => {
    expect(census(new Uint32Array(0), 5, null)).toEqual({ disagreeing: 0, crowded: 0 });
    expect(parents(new Uint32Array(0), 3)).toEqual(Int32Array.of(0, 1, 2));
  });
});
