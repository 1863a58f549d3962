import { describe, expect, it } from 'vitest';
import { bandPass, emptyGrid, type HeightGrid, seededRandom, xOf, yOf } from '../../src/core/geometry/index.ts';
import { constellationOf } from '../../src/core/judge/constellation.ts';
import { findLandmarks } from '../../src/core/judge/landmarks.ts';

const sizeMm = 30;
const pitch = 0.1;

/** Letter-like marks: a short bar with a foot, each turned its own way. */
const places = (() => {
  const random = seededRandom(7);
  const list: { x: number; y: number; turn: number }[] = [];
  while (list.length < 70) {
    const [x, y] = [random.between(-13, 13), random.between(-13, 13)];
    if (Math.hypot(x, y) < 13 && list.every((one) => Math.hypot(one.x - x, one.y - y) > 2.2))
      list.push({ x, y, turn: random.between(0, 2 * Math.PI) });
  }
  return list;
})();

const bar = (u: number, v: number, half: number): number =>
  0.4 * Math.exp(-((Math.max(0, Math.abs(u) - half) / 0.15) ** 2)) * Math.exp(-((v / 0.2) ** 2));

/** The marks, each moved by `moved(k)`, drawn where `bend` takes them. */
function drawn(
  moved: (k: number) => readonly [number, number] = () => [0, 0],
  bend: (x: number, y: number) => readonly [number, number] = (x, y) => [x, y],
  noiseMm = 0.004,
  seed = 1,
): HeightGrid {
  const grid = emptyGrid(-15, 14.9, -14.9, 15, pitch);
  const random = seededRandom(seed);
  const centres = places.map(({ x, y, turn }, k) => {
    const [dx, dy] = moved(k);
    const [px, py] = bend(x + dx, y + dy);
    return { x: px, y: py, c: Math.cos(turn), s: Math.sin(turn) };
  });
  for (let i = 0; i < grid.z.length; i++) {
    const [x, y] = [xOf(grid, i % 300), yOf(grid, Math.floor(i / 300))];
    let z = noiseMm * random.normal();
    for (const { x: cx, y: cy, c, s } of centres) {
      if (Math.abs(x - cx) > 1.6 || Math.abs(y - cy) > 1.6) continue;
      const [u, v] = [c * (x - cx) + s * (y - cy), -s * (x - cx) + c * (y - cy)];
      z += bar(u, v, 0.6) + bar(v - 0.4, u - 0.6, 0.35);
    }
    grid.z[i] = z;
    grid.mask[i] = 1;
  }
  return bandPass(grid, 0.3, 3);
}

const die = drawn();
const jitter = (mm: number, seed: number) => {
  const random = seededRandom(seed);
  const shifts = places.map(() => [mm * random.normal(), mm * random.normal()] as const);
  return (k: number) => shifts[k];
};

describe('findLandmarks', () => {
  it('finds what changes in every direction, and not straight borders', () => {
    const found = findLandmarks(die, sizeMm);
    expect(found.length).toBeGreaterThan(40);
    const near = found.filter((one) => places.some((place) => Math.hypot(place.x - one.x, place.y - one.y) < 1.3));
    expect(near.length / found.length).toBeGreaterThan(0.97);

    const border = { ...die, z: die.z.map((_, i) => 0.3 * Math.exp(-((xOf(die, i % 300) / 0.3) ** 2))) };
    const onBorder = findLandmarks({ ...border, z: border.z.map((z, i) => z + die.z[i]) }, sizeMm);
    const alone = onBorder.filter((one) => places.every((place) => Math.hypot(place.x - one.x, place.y - one.y) > 1.6));
    expect(alone.length).toBe(0);
  });
});

describe('constellationOf', () => {
  it('tells what the subject shows from what it does not, and every landmark is one or the other', () => {
    const wax = drawn(undefined, undefined, 0.004, 2);
    // The subject is flat where x > 4.
    const rubbed = { ...wax, z: wax.z.map((z, i) => (xOf(wax, i % wax.width) > 4 ? 0 : z)) };
    const { landmarks, unseen, found } = constellationOf(die, rubbed, sizeMm);
    expect(landmarks.length + unseen.length).toBe(found);
    expect(unseen.length).toBeGreaterThan(5);
    for (const { x } of unseen) expect(x).toBeGreaterThan(2.5);
    for (const { x } of landmarks) expect(x).toBeLessThan(5.5);
  });

  it('leaves nothing over for the same die, within what noise allows: at most 5 % outside their ellipses, and a few more', () => {
    const { landmarks, smoothMm, oneScaleMm, outside } = constellationOf(
      die,
      drawn(undefined, undefined, 0.004, 2),
      sizeMm,
    );
    expect(landmarks.length).toBeGreaterThan(40);
    expect(smoothMm).toBeLessThan(0.006);
    expect(oneScaleMm).toBeLessThan(0.006);
    expect(outside).toBeLessThan(0.2);
  });

  it('takes one scale and a smooth bending off, each where it is said to', () => {
    const grown = constellationOf(
      die,
      drawn(undefined, (x, y) => [1.004 * x + 0.1, 1.004 * y]),
      sizeMm,
    );
    expect(grown.oneScaleMm).toBeLessThan(0.006);
    const bent = constellationOf(
      die,
      drawn(undefined, (x, y) => [x + 0.0012 * x * y, y + 0.0008 * x * x]),
      sizeMm,
    );
    expect(bent.oneScaleMm).toBeGreaterThan(0.02);
    expect(bent.smoothMm).toBeLessThan(0.008);
  });

  it.each([0.1, 0.2, 0.3])('shows a copyist’s own places: %f mm', (mm) => {
    const { smoothMm, outside } = constellationOf(die, drawn(jitter(mm, 5)), sizeMm);
    // The median length of a two-dimensional normal shift is 1.1774 σ; the smooth part takes some of it away.
    expect(smoothMm).toBeGreaterThan(0.6 * mm);
    expect(smoothMm).toBeLessThan(1.6 * mm);
    expect(outside).toBeGreaterThan(0.8);
  });

  it('names the one letter that was moved, by leaving it out of its own prediction', () => {
    const { landmarks } = constellationOf(
      die,
      drawn((k) => (k === 10 ? [0.3, -0.2] : [0, 0])),
      sizeMm,
    );
    const [first] = [...landmarks].sort((a, b) => Math.hypot(...b.aloneSmooth) - Math.hypot(...a.aloneSmooth));
    expect(Math.hypot(first.x - places[10].x, first.y - places[10].y)).toBeLessThan(1.3);
    expect(first.aloneSmooth[0]).toBeCloseTo(0.3, 1);
    expect(first.aloneSmooth[1]).toBeCloseTo(-0.2, 1);
  });

  it('uses landmarks that were put by hand, and no others', () => {
    const given = places.slice(0, 12).map(({ x, y }) => ({ x, y }));
    expect(constellationOf(die, die, sizeMm, given).found).toBe(12);
  });

  it('says nothing where too few are seen on both', () => {
    const { landmarks, smoothMm } = constellationOf(die, emptyGrid(-15, 14.9, -14.9, 15, pitch), sizeMm);
    expect(landmarks).toEqual([]);
    expect(smoothMm).toBeNaN();
  });
});
