import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { countEdges } from '../../src/core/scan/repair/census.ts';
import { atBoundary, atCrowdedEdge, nextCorner, pairEdges, sameDirection } from '../../src/core/scan/repair/edges.ts';
import { joinTriangles, severalPieces } from '../../src/core/scan/repair/pieces.ts';
import { inSpatialOrder, isScattered } from '../../src/core/scan/repair/spatialOrder.ts';
import { firstAtSamePlace } from '../../src/core/scan/repair/weld.ts';
import { ball, bumpySheet, shuffled, triples } from './shapes.ts';
import { largestDifference, sortedMarks } from './surfaces.ts';

/** Triangles of three different corners, thrown together; `vertices` numbers in all. */
function heap(seed: number, vertices: number, count: number): Uint32Array {
  const random = seededRandom(seed);
  const out: number[] = [];
  while (out.length < count * 3) {
    const corners = [random.below(vertices), random.below(vertices), random.below(vertices)];
    if (new Set(corners).size === 3) out.push(...corners);
  }
  return Uint32Array.from(out);
}

/** The half-edges of every edge, by brute force. */
function edgesOf(triangles: Uint32Array, name: (vertex: number) => number): Map<string, number[]> {
  const edges = new Map<string, number[]>();
  triangles.forEach((corner, half) => {
    const [a, b] = [name(corner), name(triangles[nextCorner(half)])];
    const key = a < b ? `${a} ${b}` : `${b} ${a}`;
    edges.set(key, [...(edges.get(key) ?? []), half]);
  });
  return edges;
}

const heaps = [
  ['sparse', heap(1, 4000, 900)],
  ['crowded', heap(2, 9, 200)],
  ['one corner shared by all', heap(3, 300, 400).map((corner, i) => (i % 3 === 0 ? 0 : corner + 1))],
  ['a sheet', bumpySheet(30, 30).triangles],
] as const;

describe.each(heaps)('edges of a heap of triangles, %s', (_, given) => {
  // A pair of equal corners, which sharing one corner can bring about, makes no triangle.
  const triangles = Uint32Array.from(
    triples(given)
      .filter((corners) => new Set(corners).size === 3)
      .flat(),
  );
  const count = triangles.reduce((most, corner) => Math.max(most, corner), 0) + 1;
  const pairs = Uint32Array.from({ length: count }, (_, vertex) => vertex - (vertex % 2));
  const renamed = triples(triangles)
    .filter((corners) => new Set(corners.map((corner) => pairs[corner])).size === 3)
    .flat();

  it.each([
    ['by their numbers', triangles, null],
    ['with vertices renamed', Uint32Array.from(renamed), pairs],
  ] as const)('are paired and counted as by brute force, %s', (_, list, name) => {
    const mate = pairEdges(list, count, name);
    let crowded = 0;
    let disagreeing = 0;
    for (const halves of edgesOf(list, (vertex) => (name ? name[vertex] : vertex)).values()) {
      if (halves.length === 1) expect(mate[halves[0]]).toBe(atBoundary);
      else if (halves.length === 2) {
        expect([mate[halves[0]], mate[halves[1]]]).toEqual([halves[1], halves[0]]);
        if (sameDirection(halves[0], halves[1], list, name)) disagreeing++;
      } else {
        crowded++;
        expect(halves.every((half) => mate[half] === atCrowdedEdge)).toBe(true);
      }
    }
    expect(countEdges(list, count, name)).toEqual({ crowded, disagreeing });
  });

  it('are one piece or several as by brute force', () => {
    const union = joinTriangles(count, triangles);
    const label = Array.from({ length: count }, (_, vertex) => vertex);
    for (let changed = true; changed; ) {
      changed = false;
      for (const corners of triples(triangles)) {
        const least = Math.min(...corners.map((corner) => label[corner]));
        if (corners.some((corner) => label[corner] !== least)) changed = true;
        for (const corner of corners) label[corner] = least;
      }
    }
    expect(severalPieces(union)).toBe(new Set([...triangles].map((corner) => label[corner])).size > 1);
    for (const corner of triangles) expect(union.find(corner)).toBe(label[corner]);
  });
});

describe('equal places', () => {
  it('are found as by brute force, and lone vertices stay alone', () => {
    const random = seededRandom(4);
    const positions = Float32Array.from({ length: 3000 }, () => random.below(8) / 4);
    const alone = Uint8Array.from({ length: 1000 }, () => (random.below(20) === 0 ? 1 : 0));
    const known = new Map<string, number>();
    const expected = Uint32Array.from({ length: 1000 }, (_, vertex) => {
      const key = positions.subarray(vertex * 3, vertex * 3 + 3).join();
      if (alone[vertex]) return vertex;
      if (!known.has(key)) known.set(key, vertex);
      return known.get(key) ?? vertex;
    });
    const { first, distinct } = firstAtSamePlace(positions, alone);
    expect(first).toEqual(expected);
    expect(distinct).toBe(new Set(expected).size);
  });
});

describe('spatial order', () => {
  const plain = ball(66);
  const mixed = shuffled(plain, 5);
  const { placeOf } = shuffled(
    { positions: new Float64Array(plain.triangles.length), triangles: new Uint32Array(0) },
    9,
  );
  const jumping = Uint32Array.from([...placeOf].flatMap((t) => [...mixed.triangles.subarray(t * 3, t * 3 + 3)]));
  const positions = Float32Array.from(mixed.positions);

  it('is asked for where a large list jumps about in space, not where it runs along', () => {
    expect(isScattered(positions, jumping)).toBe(true);
    expect(isScattered(positions, mixed.triangles)).toBe(false);
    expect(isScattered(positions, jumping.subarray(0, 9000))).toBe(false);
  });

  it('is the same surface under other numbers, and running along', () => {
    const invalid = Uint8Array.from({ length: positions.length / 3 }, (_, vertex) => vertex % 2);
    const ordered = inSpatialOrder(positions, jumping, invalid);
    const corners = (p: Float32Array, t: Uint32Array) =>
      Float64Array.from({ length: t.length * 3 }, (_, i) => p[t[Math.floor(i / 3)] * 3 + (i % 3)]);
    const before = sortedMarks(corners(positions, jumping));
    expect(largestDifference(sortedMarks(corners(ordered.positions, ordered.triangles)), before)).toBe(0);
    expect(ordered.originalOf.every((vertex, place) => ordered.invalid?.[place] === vertex % 2)).toBe(true);
    expect(new Set(ordered.originalOf).size).toBe(positions.length / 3);
    expect(isScattered(ordered.positions, ordered.triangles)).toBe(false);
  });
});
