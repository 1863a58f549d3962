import { Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import {
  angleBetweenDeg,
  apply,
  compose,
  determinant3,
  fromMatrix4,
  identity,
  invert,
  normalise,
  type Random,
  rotate,
  rotationAbout,
  type Similarity,
  scaleMotion,
  seededRandom,
  toMatrix4,
  turnOver,
  type Vec3,
} from '../../src/core/geometry/index.ts';

const vector = (random: Random): Vec3 => [random.normal(), random.normal(), random.normal()];

function anySimilarity(random: Random): Similarity {
  const rotation = rotationAbout(normalise(vector(random)), random.between(-3, 3));
  return { scale: random.between(0.5, 2), rotation, translation: vector(random) };
}

function expectSame(a: Similarity, b: Similarity, digits = 12): void {
  const [x, y] = [toMatrix4(a), toMatrix4(b)];
  for (let k = 0; k < 16; k++) expect(x[k]).toBeCloseTo(y[k], digits);
}

describe('Similarity', () => {
  it('composes as its 4 × 4 matrices multiply', () => {
    const random = seededRandom(1);
    for (let round = 0; round < 20; round++) {
      const [a, b] = [anySimilarity(random), anySimilarity(random)];
      const product = Matrix.from1DArray(4, 4, toMatrix4(a)).mmul(Matrix.from1DArray(4, 4, toMatrix4(b)));
      expectSame(compose(a, b), fromMatrix4(product.to1DArray()));
    }
  });

  it('composes in the order of its name: the second is applied first', () => {
    const random = seededRandom(2);
    const [a, b, p] = [anySimilarity(random), anySimilarity(random), vector(random)];
    const [once, twice] = [apply(compose(a, b), p), apply(a, apply(b, p))];
    for (let k = 0; k < 3; k++) expect(once[k]).toBeCloseTo(twice[k], 12);
  });

  it('is undone by its inverse, from either side', () => {
    const random = seededRandom(3);
    for (let round = 0; round < 20; round++) {
      const m = anySimilarity(random);
      expectSame(compose(m, invert(m)), identity, 10);
      expectSame(compose(invert(m), m), identity, 10);
    }
  });

  it('keeps a mirrored file mirrored through the matrix and back', () => {
    const mirrored: Similarity = { scale: 0.97, rotation: [-1, 0, 0, 0, 1, 0, 0, 0, 1], translation: [1, 2, 3] };
    const back = fromMatrix4(toMatrix4(mirrored));
    expectSame(back, mirrored);
    expect(back.scale).toBeCloseTo(0.97, 12);
    expect(determinant3(back.rotation)).toBeCloseTo(-1, 12);
  });

  it('moves coordinates in another unit the same way', () => {
    const random = seededRandom(4);
    const m = { ...anySimilarity(random), scale: 1 };
    const p = vector(random);
    const moved = apply(m, p);
    const movedInMetres = apply(scaleMotion(m, 0.001), [p[0] / 1000, p[1] / 1000, p[2] / 1000]);
    for (let k = 0; k < 3; k++) expect(movedInMetres[k] * 1000).toBeCloseTo(moved[k], 10);
  });
});

describe('turnOver', () => {
  it('is a rotation and its own inverse', () => {
    expect(determinant3(turnOver.rotation)).toBe(1);
    expectSame(compose(turnOver, turnOver), identity);
    expect(angleBetweenDeg(turnOver.rotation, identity.rotation)).toBeCloseTo(180, 10);
  });
});

describe('rotationAbout', () => {
  it('leaves its axis, keeps lengths, and has determinant +1', () => {
    const random = seededRandom(5);
    const axis = normalise(vector(random));
    const r = rotationAbout(axis, 2.2);
    const [along, v] = [rotate(r, axis), vector(random)];
    for (let k = 0; k < 3; k++) expect(along[k]).toBeCloseTo(axis[k], 12);
    expect(Math.hypot(...rotate(r, v))).toBeCloseTo(Math.hypot(...v), 12);
    expect(determinant3(r)).toBeCloseTo(1, 12);
  });

  it('turns counter-clockwise seen against the axis', () => {
    const [x, y] = rotate(rotationAbout([0, 0, 1], Math.PI / 6), [1, 0, 0]);
    expect(x).toBeCloseTo(Math.sqrt(3) / 2, 12);
    expect(y).toBeCloseTo(0.5, 12);
  });
});

describe('angleBetweenDeg', () => {
  for (const deg of [1e-9, 1e-4, 0.02, 1, 90, 179.9])
    it(`tells ${deg}° to twelve digits`, () => {
      const axis = normalise([1, -2, 0.5]);
      const base = rotationAbout(normalise([3, 1, 1]), 1.1);
      const turned = compose(
        { scale: 1, rotation: rotationAbout(axis, (deg * Math.PI) / 180), translation: [0, 0, 0] },
        { scale: 1, rotation: base, translation: [0, 0, 0] },
      ).rotation;
      expect(Math.abs(angleBetweenDeg(turned, base) - deg)).toBeLessThan(1e-12 + deg * 1e-9);
    });
});
