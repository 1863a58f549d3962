import { describe, expect, it } from 'vitest';
import { imageLeft } from '../../src/core/collection/index.ts';
import type { Sense } from '../../src/core/face/index.ts';
import type { FitModel } from '../../src/core/fit/index.ts';
import { compose, identity, invert, rotationAbout, type Similarity, turnOver } from '../../src/core/geometry/index.ts';
import { analyticFace, disc } from '../judge/analyticFace.ts';
import { fitWith } from '../judge/fitWith.ts';

type Has = (x: number, y: number) => boolean;

const faceOf = (has: Has, sense: Sense) => ({ ...analyticFace(() => 0, has), sense, faceFromScan: identity });
const fitBy = (referenceFromSubject: Similarity) =>
  fitWith({ models: [{ model: 'oneScale', referenceFromSubject, scale: referenceFromSubject.scale } as FitModel] });

const turned: Similarity = { ...identity, rotation: rotationAbout([0, 0, 1], 0.7) };
const moved: Similarity = { ...turned, translation: [2, -1, 0] };
/** The wax lies face to face on its matrix, turned, and has shrunk by 2 %. */
const pressed = compose({ ...turned, scale: 1.02 }, turnOver);

const upTo =
  (x: number, radiusMm = 10): Has =>
  (u, v) =>
    disc(radiusMm)(u, v) && u < x;
/** Share of a disc of radius 10 left of the chord at x: 1 − (α − sin α cos α)/π, cos α = x/10. */
const leftOf = (x: number): number => {
  const a = Math.acos(x / 10);
  return 1 - (a - Math.sin(a) * Math.cos(a)) / Math.PI;
};

describe('what is left of an image, beside a partner', () => {
  it('is all of a matrix and of its whole impression, however wide a lip the wax has', () => {
    const matrix = faceOf(disc(10), 'intaglio');
    for (const lipMm of [0, 0.6, 1.5]) {
      const shares = imageLeft(matrix, faceOf(disc(9.8 + lipMm), 'relief'), fitBy(pressed));
      for (const share of shares ?? []) expect(share).toBeGreaterThan(0.97);
    }
  });

  it.each([-4, 0, 5])('is the share of the disc for an impression that breaks off at %d mm, lip or no lip', (x) => {
    const matrix = faceOf(disc(10), 'intaglio');
    for (const lipMm of [0, 1.5]) {
      const [own, broken] = imageLeft(matrix, faceOf(upTo(x, 10 + lipMm), 'relief'), fitBy(identity)) ?? [];
      expect(own).toBeGreaterThan(0.99);
      expect(Math.abs((broken ?? 0) - leftOf(x))).toBeLessThan(0.01);
    }
  });

  it('is bounded by the barer of two impressions, and by the whole one of a whole and a fragment', () => {
    const [bare, lipped, fragment] = [disc(10), disc(11.4), upTo(-1)].map((has) => faceOf(has, 'relief'));
    for (const share of imageLeft(lipped, bare, fitBy(turned)) ?? []) expect(share).toBeGreaterThan(0.97);
    const [whole, part] = imageLeft(bare, fragment, fitBy(identity)) ?? [];
    expect(whole).toBeGreaterThan(0.99);
    expect(Math.abs((part ?? 0) - leftOf(-1))).toBeLessThan(0.01);
    const island = faceOf(disc(5), 'relief');
    expect(imageLeft(bare, island, fitBy(identity))?.[1]).toBeCloseTo(0.25, 1);
  });

  it('of two pieces is measured by what they have together', () => {
    const left = faceOf(upTo(3), 'relief');
    const right = faceOf((x, y) => upTo(3)(-x, y), 'relief');
    for (const share of imageLeft(left, right, fitBy(identity)) ?? [])
      expect(Math.abs(share - leftOf(3))).toBeLessThan(0.01);
    const part = faceOf((x, y) => upTo(-1)(x, y) && y < 2, 'relief');
    const [whole, less] = imageLeft(left, part, fitBy(identity)) ?? [];
    expect(Math.abs((whole ?? 0) - 1)).toBeLessThan(0.01);
    expect(less).toBeLessThan(0.6);
  });

  it('does not hang on which of the two is the reference', () => {
    const matrix = faceOf(disc(10), 'intaglio');
    const broken = faceOf((x, y) => upTo(2)(x, -y) && y < 7, 'intaglio');
    for (const [has, other] of [
      [upTo(3, 11.5), matrix],
      [disc(11), matrix],
      [upTo(-5), matrix],
      [upTo(1), broken],
    ] as const) {
      const wax = faceOf(has, 'relief');
      for (const motion of [pressed, compose(moved, turnOver)]) {
        const there = imageLeft(other, wax, fitBy(motion)) ?? [0, 0];
        const back = imageLeft(wax, other, fitBy(invert(motion))) ?? [1, 1];
        expect(Math.abs(there[0] - back[1])).toBeLessThan(0.01);
        expect(Math.abs(there[1] - back[0])).toBeLessThan(0.01);
      }
    }
  });

  it('is not known without a fit', () => {
    const face = faceOf(disc(10), 'relief');
    expect(imageLeft(face, face, { ...fitBy(identity), found: false })).toBeNull();
  });
});
