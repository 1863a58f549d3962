import { describe, expect, it } from 'vitest';
import { cutByPlane, profileOf } from '../../src/core/compare/planeCut.ts';

/** Two triangles over the square (0, 0) to (2, 2), height x + 10 y; the second looks down. */
const corners = Float64Array.of(0, 0, 0, 2, 0, 2, 2, 2, 22, 0, 2, 20);
const square = Uint32Array.of(0, 1, 2, 0, 3, 2);
const near = (found: Float64Array, expected: readonly number[]): void => {
  expect(found.length).toBe(expected.length);
  expected.forEach((value, k) => {
    expect(found[k]).toBeCloseTo(value, 9);
  });
};

describe('a plane through triangles', () => {
  it('gives one piece a triangle, its lower place first, with the heights there and the way it looks', () => {
    const cut = cutByPlane(corners, square, [-1, 0.5, 4, 0.5]);
    near(cut.pieces, [1.5, 5.5, 3, 7, 1, 5, 1.5, 5.5]);
    expect([...cut.up]).toEqual([1, -1]);
  });

  it('measures from the line’s first end, whichever way the line runs', () => {
    const cut = cutByPlane(corners, square, [3, 0.5, -2, 0.5]);
    near(cut.pieces, [1, 7, 2.5, 5.5, 2.5, 5.5, 3, 5]);
    const upright = cutByPlane(corners, square.subarray(0, 3), [1.5, -1, 1.5, 3]);
    near(upright.pieces, [1, 1.5, 2.5, 16.5]);
    const slant = cutByPlane(corners, square.subarray(0, 3), [0, 1, 3, -2]);
    near(slant.pieces, [Math.SQRT1_2, 5.5, Math.SQRT2, 1]);
  });

  it('takes corners on the plane to lie on its left, so that an edge along it is cut once', () => {
    expect(cutByPlane(corners, square, [-1, 0, 4, 0]).up.length).toBe(0);
    expect(cutByPlane(corners, square, [4, 0, -1, 0]).up.length).toBe(2);
  });

  it('leaves out what lies before the first end or behind the last', () => {
    expect(cutByPlane(corners, square, [2.1, 0.5, 4, 0.5]).up.length).toBe(0);
    expect(cutByPlane(corners, square, [-3, 0.5, -0.1, 0.5]).up.length).toBe(0);
    expect(cutByPlane(corners, square, [1.9, 0.5, 4, 0.5]).up.length).toBe(1);
    expect(cutByPlane(corners, square, [-3, 0.5, 0.1, 0.5]).up.length).toBe(1);
  });
});

describe('the outermost height along a cut', () => {
  const at = Float64Array.of(0, 0.5, 1, 1.5, 2, 2.5, 3);
  /** From 0.4 to 2.1 rising from 1 to 2.7, above it from 1 to 2 level at 2.2, and one that looks down. */
  const cut = {
    pieces: Float64Array.of(0.4, 1, 2.1, 2.7, 1, 2.2, 2, 2.2, 0, -1, 1, -2),
    up: Int8Array.of(1, 1, -1),
  };

  it('is the highest of the pieces that look up, and no number where there is none', () => {
    near(profileOf(cut, at, 1).subarray(1, 5), [1.1, 2.2, 2.2, 2.6]);
    expect([0, 5, 6].every((k) => Number.isNaN(profileOf(cut, at, 1)[k]))).toBe(true);
  });

  it('is the lowest of those that look down', () => {
    near(profileOf(cut, at, -1).subarray(0, 3), [-1, -1.5, -2]);
    expect(profileOf(cut, at, -1)[3]).toBeNaN();
    const two = { pieces: Float64Array.of(0, -1, 1, -1, 0, -3, 1, -3, 0, -2, 1, -2), up: Int8Array.of(-1, -1, -1) };
    near(profileOf(two, at, -1).subarray(0, 3), [-3, -3, -3]);
  });

  it('takes an upright piece at its lower end, and places that begin elsewhere', () => {
    const wall = { pieces: Float64Array.of(1.5, 4, 1.5, 4), up: Int8Array.of(1) };
    expect(profileOf(wall, at, 1)[3]).toBe(4);
    near(profileOf(cut, Float64Array.of(0.6, 0.9, 1.2), 1), [1.2, 1.5, 2.2]);
    expect(profileOf(cut, Float64Array.of(1.4), 1)[0]).toBeCloseTo(2.2, 12);
  });
});
