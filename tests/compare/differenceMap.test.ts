import { describe, expect, it } from 'vitest';
import { differenceMap } from '../../src/core/compare/differenceMap.ts';
import { inImpressionSense, subjectMotion } from '../../src/core/compare/index.ts';
import { imageHull, insidePolygon } from '../../src/core/face/index.ts';
import { sampleGrid, xOf, yOf } from '../../src/core/geometry/index.ts';
import { bumpySheet } from '../geometry/surface.ts';
import { dieMesh, identity, model, side } from './pair.ts';

const die = side(dieMesh(1), 'intaglio');
const still = subjectMotion(die.face, model('oneScale', identity));
/** Places of a mesh's vertices in the die's face frame. */
const { rotation: r, translation: t } = die.face.faceFromScan;
const faceX = (p: Float32Array, i: number): number =>
  r[0] * p[3 * i] + r[1] * p[3 * i + 1] + r[2] * p[3 * i + 2] + t[0];
const faceY = (p: Float32Array, i: number): number =>
  r[3] * p[3 * i] + r[4] * p[3 * i + 1] + r[5] * p[3 * i + 2] + t[1];

describe('differenceMap', () => {
  const subject = bumpySheet(200, 20, 3, () => 0);
  const n = subject.positions.length / 3;

  it('shows a difference that is linear over the plane as it is, whatever the triangles, all over the image and nowhere beyond', () => {
    const p = subject.positions;
    const d = Float32Array.from({ length: n }, (_, i) => 0.02 * faceX(p, i) - 0.01 * faceY(p, i) + 0.3);
    const map = differenceMap(die.face, subject, still, d, 0.17);
    const image = insidePolygon(map, imageHull(die.face));
    let [seen, worst] = [0, 0];
    for (let i = 0; i < map.z.length; i++) {
      expect(map.mask[i]).toBeLessThanOrEqual(image[i]);
      if (!map.mask[i]) continue;
      seen++;
      const truth = 0.02 * xOf(map, i % map.width) - 0.01 * yOf(map, Math.floor(i / map.width)) + 0.3;
      worst = Math.max(worst, Math.abs(map.z[i] - truth));
    }
    expect(worst).toBeLessThan(5e-6);
    expect(seen).toBeGreaterThan(0.99 * image.reduce((sum, cell) => sum + cell, 0));
  });

  it('holds the volume of a spherical cap 0.1 mm high on a sphere of 5 mm radius: 0.156032 mm³', () => {
    const p = subject.positions;
    const cap = Float32Array.from({ length: n }, (_, i) =>
      Math.max(0, Math.sqrt(Math.max(0, 25 - (p[3 * i] - 1) ** 2 - (p[3 * i + 1] + 2) ** 2)) - 4.9),
    );
    const map = differenceMap(die.face, subject, still, cap, 0.05);
    const volume = map.z.reduce((sum, z) => sum + z, 0) * map.pitch ** 2;
    expect(Math.abs(volume / 0.156032 - 1)).toBeLessThan(0.005);
  });

  it('has no data where a corner has none, nor outside the subject', () => {
    const d = new Float32Array(n).fill(0.1);
    const p = subject.positions;
    for (let i = 0; i < n; i++) if (Math.hypot(p[3 * i] - 2, p[3 * i + 1]) < 1) d[i] = Number.NaN;
    const map = differenceMap(die.face, subject, still, d, 0.1);
    const [hx, hy] = [r[0] * 2 + t[0], r[3] * 2 + t[1]];
    expect(sampleGrid(map, hx, hy)).toBeNaN();
    expect(sampleGrid(map, hx + 1.5, hy)).toBeCloseTo(0.1, 6);
    expect(map.z.every((z, i) => map.mask[i] === 1 || z === 0)).toBe(true);
  });

  it('in the impression’s sense runs the other way across and keeps its sign; twice gives it back', () => {
    const d = Float32Array.from({ length: n }, (_, i) => faceX(subject.positions, i));
    const map = differenceMap(die.face, subject, still, d, 0.2);
    const seen = inImpressionSense(map, { sense: 'intaglio' });
    expect(sampleGrid(seen, 3, 1)).toBeCloseTo(-3, 4);
    expect(inImpressionSense(seen, { sense: 'intaglio' }).z).toEqual(map.z);
    expect(inImpressionSense(map, { sense: 'relief' })).toBe(map);
  });
});
