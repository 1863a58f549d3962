import { describe, expect, it } from 'vitest';
import { leastSquaresMotions } from '../../src/core/fit/procrustes.ts';
import {
  angleBetweenDeg,
  apply,
  determinant3,
  normalise,
  rotationAbout,
  type Similarity,
  seededRandom,
} from '../../src/core/geometry/index.ts';

function cloud(seed: number, count: number): Float64Array {
  const random = seededRandom(seed);
  return Float64Array.from({ length: 3 * count }, (_, k) => random.normal() * [10, 7, 0.5][k % 3]);
}

function movedBy(m: Similarity, points: Float64Array): Float64Array {
  const out = new Float64Array(points.length);
  for (let i = 0; i < points.length; i += 3) out.set(apply(m, [points[i], points[i + 1], points[i + 2]]), i);
  return out;
}

function sumOfSquares(m: Similarity, from: Float64Array, to: Float64Array, weights: ArrayLike<number>): number {
  const at = movedBy(m, from);
  return at.reduce((sum, value, k) => sum + weights[Math.floor(k / 3)] * (value - to[k]) ** 2, 0);
}

const ones = (count: number): number[] => new Array<number>(count).fill(1);
const leastSquaresSimilarity = (...asked: Parameters<typeof leastSquaresMotions>): Similarity =>
  leastSquaresMotions(...asked).oneScale;
const known: Similarity = {
  scale: 1.027,
  rotation: rotationAbout(normalise([1, 2, -0.3]), 2.4),
  translation: [30, -4, 12],
};

describe('leastSquaresMotions', () => {
  it('finds a known similarity exactly, and its size is left out where it is not free', () => {
    const from = cloud(1, 40);
    const to = movedBy(known, from);
    const found = leastSquaresSimilarity(from, to, ones(40));
    expect(found.scale).toBeCloseTo(1.027, 12);
    expect(angleBetweenDeg(found.rotation, known.rotation)).toBeLessThan(1e-10);
    for (let k = 0; k < 3; k++) expect(found.translation[k]).toBeCloseTo(known.translation[k], 9);
    const { rigid } = leastSquaresMotions(from, to, ones(40));
    expect(rigid.scale).toBe(1);
    expect(angleBetweenDeg(rigid.rotation, known.rotation)).toBeLessThan(1e-10);
  });

  it('gives a mirror image only where it is asked for', () => {
    const from = cloud(2, 40);
    const mirror: Similarity = { ...known, rotation: known.rotation.map((r, k) => (k % 3 === 0 ? -r : r)) };
    const to = movedBy(mirror, from);
    const found = leastSquaresSimilarity(from, to, ones(40), true);
    expect(determinant3(found.rotation)).toBeCloseTo(-1, 12);
    expect(sumOfSquares(found, from, to, ones(40))).toBeLessThan(1e-15);
    expect(determinant3(leastSquaresSimilarity(from, to, ones(40)).rotation)).toBeCloseTo(1, 12);
  });

  // Umeyama, IEEE TPAMI 13(4), 1991, example: (0,0), (1,0), (0,2) onto (0,0), (−1,0), (0,2) without a reflection has
  // the scale 0.721110 and R = [[0.83205, 0.55470], [−0.55470, 0.83205]] in the plane (from memory, recomputed).
  // In space the triangle could simply be turned over; two copies of it at heights ±h hold the plane upright. The
  // in-plane rotation stays the example's, and the scale is (0.721110 σ² + h²)/(σ² + h²) with σ² = 10/9.
  it('agrees with the published example of three points and no reflection', () => {
    const h = 2;
    const pairs = [
      [0, 0, 0, 0],
      [1, 0, -1, 0],
      [0, 2, 0, 2],
    ];
    const from = Float64Array.from(pairs.flatMap(([x, y]) => [x, y, h, x, y, -h]));
    const to = Float64Array.from(pairs.flatMap(([, , x, y]) => [x, y, h, x, y, -h]));
    const { rotation, scale, translation } = leastSquaresSimilarity(from, to, ones(6));
    const expected = [0.83205, 0.5547, 0, -0.5547, 0.83205, 0, 0, 0, 1];
    rotation.forEach((value, k) => {
      expect(value).toBeCloseTo(expected[k], 5);
    });
    const spread = 10 / 9;
    expect(scale).toBeCloseTo((0.72111 * spread + h * h) / (spread + h * h), 5);
    // t = mean(to) − scale R mean(from); at the example's own scale this is its (−0.8, 0.4).
    const at = (s: number): number[] => [
      -1 / 3 - (s * (0.83205 + 2 * 0.5547)) / 3,
      2 / 3 - (s * (-0.5547 + 2 * 0.83205)) / 3,
    ];
    expect(at(0.72111)).toEqual([expect.closeTo(-0.8, 5), expect.closeTo(0.4, 5)]);
    expect([translation[0], translation[1]]).toEqual(at(scale).map((value) => expect.closeTo(value, 5)));
  });

  it('is a minimum: no small motion of the answer fits noisy points better', () => {
    const random = seededRandom(4);
    const from = cloud(3, 30);
    const to = movedBy(known, from).map((value) => value + 0.3 * random.normal());
    const weights = Array.from({ length: 30 }, () => random.next());
    const found = leastSquaresSimilarity(from, to, weights);
    const least = sumOfSquares(found, from, to, weights);
    for (let round = 0; round < 200; round++) {
      const small: Similarity = {
        scale: found.scale * (1 + 1e-3 * random.normal()),
        rotation: movedRotation(found, random.normal() * 1e-3, [random.normal(), random.normal(), random.normal()]),
        translation: [0, 1, 2].map((k) => found.translation[k] + 1e-2 * random.normal()) as never,
      };
      expect(sumOfSquares(small, from, to, weights)).toBeGreaterThan(least);
    }
  });

  it('does not see points without weight, and counts a point of weight 3 three times', () => {
    const random = seededRandom(5);
    const from = cloud(6, 12);
    const to = movedBy(known, from).map((value) => value + 0.2 * random.normal());
    const weights = [1, 3, 0, 1, 1, 2, 0, 1, 1, 1, 1, 1];
    const repeated = weights.flatMap((count, i) => new Array<number>(count).fill(i));
    const pick = (values: Float64Array): Float64Array =>
      Float64Array.from(repeated.flatMap((i) => [...values.subarray(3 * i, 3 * i + 3)]));
    const dirty = to.map((value, k) => (weights[Math.floor(k / 3)] === 0 ? 1e6 : value));
    const a = leastSquaresSimilarity(from, dirty, weights);
    const b = leastSquaresSimilarity(pick(from), pick(to), ones(repeated.length));
    expect(a.scale).toBeCloseTo(b.scale, 10);
    expect(angleBetweenDeg(a.rotation, b.rotation)).toBeLessThan(1e-8);
  });
});

function movedRotation({ rotation }: Similarity, angle: number, axis: [number, number, number]): number[] {
  const small = rotationAbout(normalise(axis), angle);
  const out: number[] = [];
  for (let r = 0; r < 9; r += 3)
    for (let c = 0; c < 3; c++)
      out.push(small[r] * rotation[c] + small[r + 1] * rotation[c + 3] + small[r + 2] * rotation[c + 6]);
  return out;
}
