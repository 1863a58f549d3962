import { describe, expect, it } from 'vitest';
import { outerEdge } from '../../../src/core/condition/losses/outerEdge.ts';
import { sharedEdge } from '../../../src/core/condition/losses/sharedEdge.ts';
import type { Face } from '../../../src/core/face/index.ts';
import type { Fit } from '../../../src/core/fit/index.ts';
import { emptyGrid, identity, seededRandom, xOf, yOf } from '../../../src/core/geometry/index.ts';

type Inside = (x: number, y: number) => boolean;

/** A surface that ends where `inside` says, its frame turned and shifted in the plane: no cell lies on one of another surface. */
function surface(inside: Inside, pitch: number, turn = 0): Face {
  const grid = emptyGrid(-16, 16, -16 - turn, 16 - turn, pitch);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  for (let i = 0; i < grid.mask.length; i++) {
    const [x, y] = [xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width))];
    grid.mask[i] = inside(c * x - s * y, s * x + c * y) ? 1 : 0;
  }
  const rotation = [c, s, 0, -s, c, 0, 0, 0, 1];
  return { relief: grid, faceFromScan: { ...identity, rotation } } as unknown as Face;
}

const fit = { chosen: 'oneScale', models: [{ model: 'oneScale', scale: 1, referenceFromSubject: identity }] };
const shared = (a: Face, b: Face) => sharedEdge(a, b, fit as unknown as Fit);

/** A way of a surface that lies turned, in the frame of one that does not. */
const turnedBy = (turn: number, way: Float64Array): Float64Array => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return way.map((_, i) => (i % 2 === 0 ? c * way[i] - s * way[i + 1] : s * way[i - 1] + c * way[i]));
};

const nearest = (way: Float64Array, x: number, y: number): number => {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < way.length; i += 2) least = Math.min(least, Math.hypot(way[i] - x, way[i + 1] - y));
  return least;
};

/** A line across the face that strays by a tenth of a millimetre and more over every length. */
function breakLine(seed: number): (x: number) => number {
  const random = seededRandom(seed);
  const waves = [9, 6, 4, 2.5, 1.7].map((long) => [long, 0.08 * long, 2 * Math.PI * random.next()] as const);
  return (x) => waves.reduce((y, [long, high, phase]) => y + high * Math.sin((2 * Math.PI * x) / long + phase), 4);
}

/** One that strays by a tenth of a millimetre over five: straight in the large, it touches its own hull again and again. */
function straightBreak(seed: number): (x: number) => number {
  const random = seededRandom(seed);
  const waves = Array.from({ length: 10 }, () => {
    const long = 1.2 + 5 * random.next();
    return [0.03 * long, long, 2 * Math.PI * random.next()] as const;
  });
  return (x) => waves.reduce((y, [high, long, phase]) => y + high * Math.sin((2 * Math.PI * x) / long + phase), 4);
}

const round: Inside = (x, y) => Math.hypot(x, y) < 13;
const brokenBy =
  (seed: number): Inside =>
  (x, y) =>
    round(x, y) && y < breakLine(seed)(x);
/** Flat sides, a pointed foot, and a top that sags by a millimetre between its two corners. */
const shield: Inside = (x, y) =>
  Math.abs(x) < 11 && y < 11 + (x / 11) ** 2 && y > -3 - 10 * (1 - Math.abs(x) / 11) ** 0.6;

const seeds = [1, 2, 3, 4, 5, 6];

describe('a broken edge that two positives share', () => {
  it.each(seeds)('is found where both are broken along it, though scanned otherwise (seed %i)', (seed) => {
    const found = shared(surface(brokenBy(seed), 0.2), surface(brokenBy(seed), 0.17, 0.4));
    expect(found?.sigma).toBeGreaterThan(4);
    expect(found?.lengthMm).toBeGreaterThan(8);
    expect(found?.apartMm).toBeLessThan(0.5 * (found?.roughMm ?? 0));
  });

  it.each(seeds)('is none of two that broke each by itself (seed %i)', (seed) => {
    expect(shared(surface(brokenBy(seed), 0.2), surface(brokenBy(seed + 10), 0.17, 0.4))?.sigma ?? 0).toBeLessThan(2);
  });

  it.each(seeds)('is one stretch where it is straight in the large and touches its hull (seed %i)', (seed) => {
    const broken =
      (k: number): Inside =>
      (x, y) =>
        round(x, y) && y < straightBreak(k)(x);
    const found = shared(surface(broken(seed), 0.2), surface(broken(seed), 0.17, 0.4));
    expect(found?.sigma).toBeGreaterThan(4);
    expect(found?.lengthMm).toBeGreaterThan(14);
    expect(shared(surface(broken(seed), 0.2), surface(broken(seed + 10), 0.17, 0.4))?.sigma ?? 0).toBeLessThan(4);
  });

  it('is none where one of the two is whole', () => {
    expect(shared(surface(round, 0.2), surface(brokenBy(1), 0.17, 0.4))?.sigma ?? 0).toBeLessThan(2);
  });

  it.each([0.14, 0.2, 0.3])(
    'is none of an outline that the matrix gave both: round, or a shield with a hollow top (cells %f mm)',
    (pitch) => {
      for (const outline of [round, shield])
        expect(shared(surface(outline, pitch), surface(outline, 0.9 * pitch, 0.4))?.sigma ?? 0).toBeLessThan(2);
    },
  );

  it('is the same whichever of the two is the reference', () => {
    const [a, b] = [surface(brokenBy(2), 0.2), surface(brokenBy(2), 0.2, 0.4)];
    const [one, other] = [shared(a, b), shared(b, a)];
    expect(one?.lengthMm).toBeCloseTo(other?.lengthMm ?? Number.NaN, -0.5);
    expect(one?.sigma).toBeCloseTo(other?.sigma ?? Number.NaN, -0.5);
  });

  it.each(seeds)('is handed on as ways that lie on both edges, as long as what is told of it (seed %i)', (seed) => {
    const [a, b] = [surface(brokenBy(seed), 0.2), surface(brokenBy(seed), 0.17, 0.4)];
    const found = shared(a, b);
    const edges = [outerEdge(a.relief), turnedBy(0.4, outerEdge(b.relief))];
    let long = 0;
    for (const way of found?.stretches ?? [])
      for (let i = 0; i < way.length; i += 2) {
        for (const edge of edges) expect(nearest(edge, way[i], way[i + 1])).toBeLessThan(0.3);
        if (i > 0) long += Math.hypot(way[i] - way[i - 2], way[i + 1] - way[i - 1]);
      }
    expect(long / (found?.lengthMm ?? 0)).toBeGreaterThan(0.85);
    expect(long / (found?.lengthMm ?? 0)).toBeLessThan(1.05);
  });

  it('is not told where a person cut something out of a face', () => {
    const a = surface(brokenBy(1), 0.2);
    expect(shared({ ...a, cut: true }, a)).toBeNull();
  });
});
