import { describe, expect, it } from 'vitest';
import { bit, type GeneratedScan } from '../../sample-scans/generator/index.ts';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { findFace } from '../../src/core/face/index.ts';
import { type Fit, type FitSide, fitFaces } from '../../src/core/fit/index.ts';
import {
  angleBetweenDeg,
  apply,
  Cancelled,
  compose,
  determinant3,
  identity,
  invert,
  type Mesh,
  normalise,
  rotationAbout,
  type Similarity,
  scaleMesh,
  seededRandom,
} from '../../src/core/geometry/index.ts';
import { meshOf, movedMesh, sheet } from '../face/scanned.ts';
import { shuffledMesh } from '../geometry/surface.ts';

const recipe = { ...randomRecipe(6, 'same', { vertices: 9000 }), whole: false, coverage: 0.9, wear: 0.3 };
const pair = makePair(recipe);

const sideOf = (mesh: Mesh, sense: GeneratedScan['sense']): FitSide => ({ mesh, face: findFace(mesh, { sense }) });
const [die, wax] = [meshOf(pair.reference), meshOf(pair.subject)];
const reference = sideOf(die, 'intaglio');
const subject = sideOf(wax, 'relief');
const fit = fitFaces(reference, subject);

const shift = ({ offset }: Mesh): Similarity => ({ ...identity, translation: offset });
const oneScale = ({ models }: Fit): Similarity => models[1].referenceFromSubject;

/** Sound vertices of the subject's face, centred mm. */
const soundPoints = [...pair.subject.bits.keys()]
  .filter((i) => pair.subject.bits[i] === bit.face)
  .map((i) => [wax.positions[3 * i], wax.positions[3 * i + 1], wax.positions[3 * i + 2]] as const);

/** Root mean square distance between where two motions put the sound points, mm. */
function apart(a: Similarity, b: Similarity): number {
  const squares = soundPoints.map((p) => {
    const [q, r] = [apply(a, p), apply(b, p)];
    return (q[0] - r[0]) ** 2 + (q[1] - r[1]) ** 2 + (q[2] - r[2]) ** 2;
  });
  return Math.sqrt(squares.reduce((sum, value) => sum + value, 0) / squares.length);
}

describe('fitFaces', () => {
  it('lays an impression on its die within 0.05 mm of the truth, without a guess, and says so without a doubt', () => {
    const truth = pair.truth.referenceFromSubject as Similarity;
    expect(fit).toMatchObject({ found: true, turnedOver: true, mirrored: false, doubts: [] });
    expect(apart(oneScale(fit), compose(invert(shift(die)), compose(truth, shift(wax))))).toBeLessThan(0.05);
    expect(Math.abs(oneScale(fit).scale - truth.scale)).toBeLessThan(0.002);
    expect(fit.overlap).toBeGreaterThan(0.7);
  });

  it('is not moved by what stands beyond the images, whose lips are each piece’s own', () => {
    const lipped = ({ mesh, face }: FitSide, rise: number): FitSide => {
      const { relief, image } = face;
      const beyond = relief.mask.map((there, i) => there & (image.mask[i] ^ 1));
      expect(beyond.some(Boolean)).toBe(true);
      return { mesh, face: { ...face, relief: { ...relief, z: relief.z.map((z, i) => z + rise * beyond[i]) } } };
    };
    expect(fitFaces(lipped(reference, -0.4), lipped(subject, 0.7))).toEqual(fit);
  });

  it('turns over by a rotation in all three models: determinant +1', () => {
    for (const { referenceFromSubject } of fit.models)
      expect(determinant3(referenceFromSubject.rotation)).toBeCloseTo(1, 9);
  });

  it('shows the three models in order, each at least as close as the one before', () => {
    expect(fit.models.map(({ model }) => model)).toEqual(['rigid', 'oneScale', 'smoothWarp']);
    const [rigid, scaled, warped] = fit.models;
    expect(rigid.scale).toBe(1);
    expect(scaled.rmsMm).toBeLessThan(rigid.rmsMm * 1.02);
    expect(warped.rmsMm).toBeLessThan(scaled.rmsMm * 1.02);
    expect(warped.warpRmsMm).toBeGreaterThan(0);
    expect(warped.warpRmsMm).toBeLessThan(2 * recipe.warpMm + 0.05);
    expect(apart(warped.referenceFromSubject, scaled.referenceFromSubject)).toBe(0);
  });

  // The floors are 0.02° and 0.005 mm.
  it('is undone by the fit the other way round', () => {
    const back = fitFaces(subject, reference);
    for (const k of [0, 1, 2]) {
      const round = compose(back.models[k].referenceFromSubject, fit.models[k].referenceFromSubject);
      expect(angleBetweenDeg(round.rotation, identity.rotation)).toBeLessThan(1e-6);
      expect(apart(round, identity)).toBeLessThan(1e-6);
    }
    expect(back.models[1].scale * fit.models[1].scale).toBeCloseTo(1, 12);
    expect(back.models[1].scaleSd / back.models[1].scale).toBeCloseTo(fit.models[1].scaleSd / fit.models[1].scale, 9);
    expect(back).toMatchObject({ found: true, turnedOver: true, chosen: fit.chosen, significance: fit.significance });
    expect(back.rotationSdDeg).toBeCloseTo(fit.rotationSdDeg, 12);
  });

  it('lays a scan on itself: no motion, size 1, not turned over', () => {
    const self = fitFaces(reference, reference);
    expect(self).toMatchObject({ found: true, turnedOver: false, mirrored: false, chosen: 'rigid' });
    expect(angleBetweenDeg(oneScale(self).rotation, identity.rotation)).toBeLessThan(0.002);
    expect(Math.hypot(...oneScale(self).translation)).toBeLessThan(0.002);
    expect(oneScale(self).scale).toBeCloseTo(1, 4);
    expect(self.models[0].rmsMm).toBeLessThan(0.001);
  });

  it('changes nothing but the frame when both scans are moved', () => {
    const motion = (angle: number): Similarity => ({
      scale: 1,
      rotation: rotationAbout(normalise([1, -2, 0.7]), angle),
      translation: [12, -7, 30 * angle],
    });
    const [forDie, forWax] = [motion(1.1), motion(-2.3)];
    const moved = (side: FitSide, by: Similarity): FitSide => ({
      mesh: movedMesh(side.mesh, by),
      face: { ...side.face, faceFromScan: compose(side.face.faceFromScan, invert(by)) },
    });
    const there = fitFaces(moved(reference, forDie), moved(subject, forWax));
    const brought = compose(invert(forDie), compose(oneScale(there), forWax));
    expect(apart(brought, oneScale(fit))).toBeLessThan(1e-3);
    expect(there.models[1].scale).toBeCloseTo(fit.models[1].scale, 5);
    expect(there.significance).toBe(fit.significance);
  });

  it('does not depend on the order of vertices and triangles', () => {
    const shuffled = fitFaces(
      sideOf(shuffledMesh(die, 1).mesh, 'intaglio'),
      sideOf(shuffledMesh(wax, 2).mesh, 'relief'),
    );
    expect(apart(oneScale(shuffled), oneScale(fit))).toBeLessThan(1e-6 * 40);
    expect(Math.abs(shuffled.significance / fit.significance - 1)).toBeLessThan(1e-6);
    expect(Math.abs(shuffled.models[2].rmsMm / fit.models[2].rmsMm - 1)).toBeLessThan(1e-4);
  });

  it('scales with the model', () => {
    const factor = 1.7;
    const grown = fitFaces(sideOf(scaleMesh(die, factor), 'intaglio'), sideOf(scaleMesh(wax, factor), 'relief'));
    const [rotation, translation] = [oneScale(grown).rotation, oneScale(grown).translation];
    const back: Similarity = {
      scale: oneScale(grown).scale,
      rotation,
      translation: [translation[0] / factor, translation[1] / factor, translation[2] / factor],
    };
    // The noise floor and the warp's prior are lengths in mm, so the agreement is not to the last digit.
    expect(apart(back, oneScale(fit))).toBeLessThan(0.005);
    expect(grown.models[1].scale).toBeCloseTo(fit.models[1].scale, 3);
    expect(grown.significance / fit.significance).toBeCloseTo(1, 2);
  });

  it('reports a mirrored file as mirrored, and applies a reflection only there', () => {
    const positions = wax.positions.map((value, i) => (i % 3 === 0 ? -value : value));
    const triangles = wax.triangles.slice();
    for (let i = 0; i < triangles.length; i += 3) [triangles[i], triangles[i + 1]] = [triangles[i + 1], triangles[i]];
    const mirrored = fitFaces(reference, sideOf({ ...wax, positions, triangles }, 'relief'));
    expect(mirrored).toMatchObject({ found: true, mirrored: true });
    expect(determinant3(oneScale(mirrored).rotation)).toBeCloseTo(-1, 9);
    const unmirror: Similarity = { ...identity, rotation: [-1, 0, 0, 0, 1, 0, 0, 0, 1] };
    expect(apart(compose(oneScale(mirrored), unmirror), oneScale(fit))).toBeLessThan(0.03);
  });

  it('finds nothing between seals that have nothing to do with one another, and says why', () => {
    const stranger = makePair({ ...randomRecipe(9, 'same', { vertices: 7000 }), whole: false, sizeMm: recipe.sizeMm });
    const none = fitFaces(reference, sideOf(meshOf(stranger.subject), 'relief'));
    expect(none.found).toBe(false);
    expect(none.doubts[0].code).toBe('noBetterThanUnrelated');
    expect(none.significance).toBeLessThan(0.6 * fit.significance);
    expect(none.models).toHaveLength(3);
  });

  it('lists the other turns of a design that fits six ways, and doubts', () => {
    const random = seededRandom(1);
    const petals = Array.from({ length: 14 }, () => ({
      r: random.between(2, 11),
      at: random.between(0, Math.PI / 3),
      high: random.between(-0.5, 0.5),
      wide: random.between(0.5, 1),
    }));
    const height = (x: number, y: number): number => {
      const sixth = Math.PI / 3;
      const angle = (((Math.atan2(y, x) % sixth) + sixth) % sixth) as number;
      const r = Math.hypot(x, y);
      let sum = 0;
      for (const { r: radius, at, high, wide } of petals)
        for (const turn of [-sixth, 0, sixth]) {
          const d = r * r + radius * radius - 2 * r * radius * Math.cos(angle - at - turn);
          sum += high * Math.exp(-d / (2 * wide * wide));
        }
      return sum;
    };
    const plate = (seed: number): Mesh => {
      const noise = seededRandom(seed);
      return sheet(26, 26, 0.25, (x, y) => height(x, y) + 0.003 * noise.normal());
    };
    const six = fitFaces(sideOf(plate(1), 'relief'), sideOf(plate(2), 'relief'));
    expect(six.found).toBe(true);
    expect(six.doubts.map(({ code }) => code)).toContain('rivalTurn');
    expect(six.rivalTurns.length).toBeGreaterThanOrEqual(3);
    for (const { turnDeg } of six.rivalTurns.slice(0, 3)) {
      const off = Math.abs(turnDeg - 60 * Math.round(turnDeg / 60));
      expect(off).toBeLessThan(1.5);
      expect(Math.abs(turnDeg)).toBeGreaterThan(30);
    }
  });

  it('reports progress that never falls, and stops when it is told to', () => {
    const signal = { aborted: false };
    const seen: number[] = [];
    const stopped = (): Fit =>
      fitFaces(reference, subject, {
        signal,
        progress: (fraction) => {
          seen.push(fraction);
          if (fraction > 0.2) signal.aborted = true;
        },
      });
    expect(stopped).toThrow(Cancelled);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(seen.length).toBeGreaterThan(5);
  });
});
