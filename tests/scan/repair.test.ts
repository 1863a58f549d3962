import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { type RawScan, readScan } from '../../src/core/scan/index.ts';
import { ball, bumpySheet, bytesOf, moved, type Shape, shuffled, textPly, together, triples } from './shapes.ts';
import { areaAndVolume, asSet, cornersInFile, largestDifference, sortedMarks } from './surfaces.ts';

const read = (shape: Shape): Promise<RawScan> => readScan(textPly(shape), 'a.ply');

const withTriangles = (shape: Shape, change: (triangles: number[][]) => number[][]): Shape => ({
  positions: shape.positions,
  triangles: Uint32Array.from(change(triples(shape.triangles)).flat()),
});

/** Every vertex once per triangle, as files without shared vertices have it. */
const apart = (shape: Shape): Shape => ({
  positions: Float64Array.from(
    [...shape.triangles].flatMap((corner) => [...shape.positions.subarray(corner * 3, corner * 3 + 3)]),
  ),
  triangles: shape.triangles.map((_, i) => i),
});

const turned = ([a, b, c]: number[]) => [a, c, b];
const sheet = bumpySheet(20, 15);
const faces = sheet.triangles.length / 3;

describe('repair', () => {
  it('leaves a sound surface alone, whatever the order of its vertices', async () => {
    for (const shape of [sheet, ball(8), shuffled(sheet, 4)]) {
      const { repairs, mesh } = await read(shape);
      expect(Object.values(repairs).every((count) => count === 0)).toBe(true);
      expect(mesh.triangles).toEqual(shape.triangles);
    }
  });

  it('counts and drops triangles of two corners, of two equal places and of three places in a line', async () => {
    const positions = Float64Array.from([
      ...sheet.positions,
      ...sheet.positions.subarray(0, 3),
      40,
      0,
      0,
      41,
      0,
      0,
      42,
      0,
      0,
    ]);
    const extra = sheet.positions.length / 3;
    const bad = [0, 0, 1, 0, extra, 1, extra + 1, extra + 2, extra + 3];
    const { repairs, triangles } = await read({ positions, triangles: Uint32Array.from([...sheet.triangles, ...bad]) });
    expect(repairs.degenerate).toBe(3);
    expect(triangles).toBe(faces);
  });

  it('counts and drops the second listing of a triangle, in any order of its corners', async () => {
    const again = withTriangles(sheet, (t) => [...t, [t[5][1], t[5][2], t[5][0]], turned(t[9]), t[9], t[20]]);
    const { repairs, mesh } = await read(again);
    expect(repairs).toMatchObject({ duplicate: 4, flipped: 0 });
    expect(mesh.triangles).toEqual(sheet.triangles);
  });

  it('finds the same duplicates as brute force in a heap of random triangles', async () => {
    const random = seededRandom(8);
    const positions = Float64Array.from({ length: 36 }, () => random.between(0, 10));
    const heap = Array.from({ length: 300 }, () => [random.below(12), random.below(12), random.below(12)]);
    const proper = heap.filter(([a, b, c]) => a !== b && b !== c && c !== a);
    const distinct = new Set(proper.map((corners) => [...corners].sort((a, b) => a - b).join()));
    const { repairs } = await read({ positions, triangles: Uint32Array.from(heap.flat()) });
    expect(repairs.degenerate).toBe(heap.length - proper.length);
    expect(repairs.duplicate).toBe(proper.length - distinct.size);
  });

  it('keeps both layers of a doubled shell', async () => {
    const double = together(ball(6), ball(6));
    const { repairs, triangles } = await read(double);
    expect(triangles).toBe(double.triangles.length / 3);
    expect(repairs.duplicate).toBe(0);
  });

  it('leaves vertices that are not numbers in place and their triangles out', async () => {
    const positions = sheet.positions.slice();
    positions[30 * 3 + 1] = Number.NaN;
    positions[50 * 3] = Number.POSITIVE_INFINITY;
    const { repairs, mesh, vertices } = await read({ ...sheet, positions });
    const touching = triples(sheet.triangles).filter((corners) => corners.includes(30) || corners.includes(50)).length;
    expect(repairs).toMatchObject({ notANumber: 2, cornerNotANumber: touching, unreferenced: 0 });
    expect(vertices).toBe(sheet.positions.length / 3);
    expect([...mesh.positions.subarray(90, 93)]).toEqual([0, 0, 0]);
    expect([...mesh.triangles].some((corner) => corner === 30 || corner === 50)).toBe(false);
    expect(mesh.positions.every(Number.isFinite)).toBe(true);
  });

  it('counts vertices that no triangle uses, and keeps their place', async () => {
    const positions = Float64Array.from([...[1, 2, 3, 4, 5, 6], ...sheet.positions]);
    const { repairs, vertices } = await read({ positions, triangles: sheet.triangles.map((corner) => corner + 2) });
    expect(repairs.unreferenced).toBe(2);
    expect(vertices).toBe(sheet.positions.length / 3 + 2);
  });

  it('turns the smaller side of a surface wound two ways, whichever comes first', async () => {
    for (const share of [0.3, 0.7]) {
      const mixed = withTriangles(sheet, (t) =>
        t.map((corners, i) => (i < share * t.length ? turned(corners) : corners)),
      );
      const { repairs, mesh } = await read(mixed);
      const wanted = share < 0.5 ? sheet : withTriangles(sheet, (t) => t.map(turned));
      expect(repairs.flipped).toBe(share < 0.5 ? Math.ceil(share * faces) : faces - Math.ceil(share * faces));
      expect(asSet(cornersInFile(mesh), 4)).toEqual(asSet(cornersInFile((await read(wanted)).mesh), 4));
    }
  });

  it('turns single triangles of a ball, listed with shared corners or without', async () => {
    const whole = ball(6);
    const random = seededRandom(2);
    const mixed = withTriangles(whole, (t) => t.map((corners) => (random.next() < 0.2 ? turned(corners) : corners)));
    const flipped = triples(mixed.triangles).filter((corners, i) => corners[1] !== whole.triangles[i * 3 + 1]).length;
    for (const shape of [mixed, apart(mixed)]) {
      const { repairs, mesh } = await read(shape);
      expect(repairs).toMatchObject({ flipped, strayPieces: 0, duplicate: 0 });
      expect(areaAndVolume(mesh).volume).toBeCloseTo(areaAndVolume((await read(whole)).mesh).volume, 0);
    }
  });

  it('turns a closed body that is inside out, even with a small hole, but never an open sheet', async () => {
    const inside = withTriangles(ball(8), (t) => t.map(turned).slice(0, -4));
    const { repairs, mesh } = await read(inside);
    expect(repairs.flipped).toBe(inside.triangles.length / 3);
    expect(areaAndVolume(mesh).volume).toBeGreaterThan(0);
    expect((await read(withTriangles(sheet, (t) => t.map(turned)))).repairs.flipped).toBe(0);
  });

  it('leaves a Möbius band as it is', async () => {
    const steps = 40;
    const positions: number[] = [];
    for (let i = 0; i < steps; i++)
      for (const side of [-1, 1]) {
        const turn = (2 * Math.PI * i) / steps;
        const radius = 10 + side * Math.cos(turn / 2);
        positions.push(radius * Math.cos(turn), radius * Math.sin(turn), side * Math.sin(turn / 2));
      }
    const corners: number[] = [];
    for (let i = 0; i < steps; i++) {
      const [a, b] = [2 * i, 2 * i + 1];
      // The last square joins the two sides the other way about.
      const [c, d] = i + 1 < steps ? [2 * i + 2, 2 * i + 3] : [1, 0];
      corners.push(a, b, c, b, d, c);
    }
    const { repairs, mesh } = await read({
      positions: Float64Array.from(positions),
      triangles: Uint32Array.from(corners),
    });
    expect(repairs.flipped).toBe(0);
    expect([...mesh.triangles]).toEqual(corners);
  });

  it('leaves out small pieces that lie away, and keeps an island in a hole and a sizeable fragment', async () => {
    const big = bumpySheet(60, 60);
    const crumb = moved(bumpySheet(4, 4), 30, 30, 25);
    const far = await read(together(big, crumb, moved(crumb, 80, 0, 0)));
    expect(far.repairs).toMatchObject({ strayPieces: 2, strayTriangles: 36, unreferenced: 0 });
    expect(far.vertices).toBe(3600 + 32);
    expect(far.mesh.triangles).toEqual(big.triangles);

    // Squares about the middle: at 3 the surface is cut out, within lies the island.
    const fromMiddle = (corner: number) =>
      Math.max(Math.abs((corner % 60) - 30), Math.abs(Math.floor(corner / 60) - 30));
    const cut = withTriangles(big, (t) => t.filter((corners) => corners.every((corner) => fromMiddle(corner) !== 3)));
    const island = await read(cut);
    expect(island.repairs).toMatchObject({ strayPieces: 0, unreferenced: 24 });
    expect(island.mesh.triangles).toEqual(cut.triangles);

    const fragment = await read(together(big, moved(bumpySheet(12, 12), 30, 30, 25)));
    expect(fragment.repairs.strayPieces).toBe(0);
  });

  it('keeps a surface that is broken into small pieces throughout', async () => {
    const tiles = Array.from({ length: 400 }, (_, i) =>
      moved(bumpySheet(3, 3, i), (i % 20) * 30, Math.floor(i / 20) * 30, 0),
    );
    const { repairs, triangles } = await read(together(...tiles));
    expect(repairs.strayPieces).toBe(0);
    expect(triangles).toBe(400 * 8);
  });

  it('splits polygons so that their area is right, also where they are not convex', async () => {
    // A comb of five teeth, x 0 to 9: area by the shoelace formula.
    const comb = [
      [0, 0],
      [9, 0],
      [9, 5],
      [8, 1],
      [7, 5],
      [6, 1],
      [5, 5],
      [4, 1],
      [3, 5],
      [2, 1],
      [1, 5],
      [0, 1],
    ];
    const area = comb.reduce((sum, [x, y], i) => {
      const [u, v] = comb[(i + 1) % comb.length];
      return sum + (x * v - u * y) / 2;
    }, 0);
    for (let first = 0; first < comb.length; first++) {
      const ring = [...comb.slice(first), ...comb.slice(0, first)];
      const tilted = ring.map(([x, y]) => `v ${x} ${0.6 * y} ${0.8 * y}`).join('\n');
      const { mesh, repairs } = await readScan(
        bytesOf(`${tilted}\nf ${ring.map((_, i) => i + 1).join(' ')}\n`),
        'a.obj',
      );
      expect(mesh.triangles.length / 3 + repairs.degenerate).toBe(comb.length - 2);
      expect(areaAndVolume(mesh).area).toBeCloseTo(area, 4);
    }
  });

  it('comes to an end where a hundred thousand triangles share a corner', { timeout: 30_000 }, async () => {
    const count = 100_000;
    const lines = ['v 0 0 0'];
    for (let i = 0; i < count; i++)
      lines.push(`v ${Math.cos((i / count) * 6)} ${Math.sin((i / count) * 6)} ${(i % 7) / 100}`);
    lines.push(...Array.from({ length: count - 1 }, (_, i) => `f 1 ${i + 2} ${i + 3}`));
    // Work that grows with the square of the triangles at one corner would take 5 · 10⁹ steps.
    expect((await readScan(bytesOf(lines.join('\n')), 'fan.obj')).triangles).toBe(count - 1);
  });

  it('mends a large surface in random order as it mends the same one in order', async () => {
    const large = together(bumpySheet(180, 170), moved(ball(1, 3), 80, 80, 60));
    const spoilt = withTriangles(large, (t) => [
      ...t.map((corners, i) => (i % 10 === 0 ? turned(corners) : corners)),
      t[7],
      t[71],
    ]);
    const mixed = shuffled(spoilt, 6);
    const jumping = withTriangles(mixed, (t) => t.map((_, i) => t[(i * 7919) % t.length]));
    const [plain, random] = await Promise.all([read(spoilt), read(jumping)]);
    expect(random.repairs).toEqual(plain.repairs);
    expect(random.repairs).toMatchObject({ duplicate: 2, strayPieces: 1, strayTriangles: 12 });
    const marks = [random, plain].map(({ mesh }) => sortedMarks(cornersInFile(mesh)));
    expect(largestDifference(marks[0], marks[1])).toBeLessThan(0.05);
    const height = (scan: RawScan, vertex: number) => scan.mesh.positions[vertex * 3 + 2];
    expect(mixed.placeOf.every((place, vertex) => height(random, place) === height(plain, vertex))).toBe(true);
  });

  it('does not let one wild vertex cost the scan its resolution', async () => {
    const positions = moved(sheet, 1000, 2000, 3000).positions;
    const wild = Float64Array.from([...positions, 1e12, -1e12, 1e9]);
    const { mesh } = await read({ positions: wild, triangles: sheet.triangles });
    for (let i = 0; i < positions.length; i++)
      expect(Math.abs(mesh.positions[i] + mesh.offset[i % 3] - positions[i])).toBeLessThan(1e-4);
  });
});
