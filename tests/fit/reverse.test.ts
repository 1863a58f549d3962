import { describe, expect, it } from 'vitest';
import type { Face } from '../../src/core/face/index.ts';
import type { Fit, FitModel, Warp } from '../../src/core/fit/index.ts';
import { alignRelief, faceMotion, unbend } from '../../src/core/fit/index.ts';
import { reverseFit } from '../../src/core/fit/reverse.ts';
import { applyWarp, warpParameters } from '../../src/core/fit/warp.ts';
import {
  apply,
  compose,
  emptyGrid,
  identity,
  invert,
  resampleGrid,
  rotate,
  rotationAbout,
  type Similarity,
  sampleGrid,
  seededRandom,
  type Vec3,
  xOf,
  yOf,
} from '../../src/core/geometry/index.ts';

const random = seededRandom(31);
const somewhere = (scale = 1): Similarity => ({
  scale,
  rotation: rotationAbout([0.48, 0.6, 0.64], random.between(-2, 2)),
  translation: [random.between(-5, 5), random.between(-5, 5), random.between(-5, 5)],
});

const form = (x: number, y: number): number => 0.4 * Math.sin(0.7 * x) * Math.cos(0.5 * y);
function face(faceFromScan: Similarity, half = 12): Face {
  const relief = emptyGrid(-half, half, -half, half, 0.4);
  relief.mask.fill(1);
  for (let i = 0; i < relief.z.length; i++)
    relief.z[i] = form(xOf(relief, i % relief.width), yOf(relief, Math.floor(i / relief.width)));
  return { relief, detail: relief, faceFromScan } as unknown as Face;
}

/** Bends by a few hundredths of a millimetre in every way that a warp can. */
const warp: Warp = {
  before: identity,
  radiusMm: 12,
  coefficients: Float64Array.from({ length: warpParameters }, (_, k) => 0.05 * Math.sin(3 * k + 1)),
};

const reference = face(somewhere());
const subject = face(somewhere());
/** The subject's face lies on the reference's turned a little, larger by two per cent, shifted. */
const faceFromFace: Similarity = {
  scale: 1.02,
  rotation: rotationAbout([0.06, -0.08, Math.sqrt(0.99)], 0.4),
  translation: [0.7, -1.1, 0.3],
};
const referenceFromSubject = compose(
  compose(invert(reference.faceFromScan), faceFromFace),
  subject.faceFromScan,
) as Similarity;
const model = (name: FitModel['model']): FitModel => ({
  model: name,
  referenceFromSubject,
  scale: 1.02,
  scaleSd: 0.001,
  rmsMm: 0.02,
  heldOutRmsMm: 0.03,
  ...(name === 'smoothWarp' && { warp, warpRmsMm: 0.04 }),
});
/** A positive definite covariance in which everything errs with everything. */
const root = Array.from({ length: 7 }, () => Array.from({ length: 7 }, () => random.normal()));
const covariance = Float64Array.from({ length: 49 }, (_, k) =>
  root[Math.floor(k / 7)].reduce((sum, value, j) => sum + value * root[k % 7][j], 0),
);
const fit = {
  turnedOver: false,
  models: [model('rigid'), model('oneScale'), model('smoothWarp')],
  translationSdMm: 0.01,
  covariance,
  rivalTurns: [{ turnDeg: 30, score: 0.2 }],
} as unknown as Fit;
const back = reverseFit(fit, reference, subject);

describe('a fit with its scans exchanged', () => {
  it('has every size and length in the other’s millimetres', () => {
    back.models.forEach((one, k) => {
      expect(one.scale).toBeCloseTo(1 / 1.02, 12);
      expect(one.scaleSd).toBeCloseTo(0.001 / 1.02 ** 2, 12);
      expect(one.rmsMm).toBeCloseTo(0.02 / 1.02, 12);
      expect(one.heldOutRmsMm).toBeCloseTo(0.03 / 1.02, 12);
      const round = compose(one.referenceFromSubject, fit.models[k].referenceFromSubject);
      for (const p of [
        [3, 4, 5],
        [-2, 1, 0],
      ] as Vec3[])
        expect(Math.hypot(...apply(round, p).map((value, axis) => value - p[axis]))).toBeLessThan(1e-9);
    });
    expect(back.models[2].warpRmsMm).toBeCloseTo(0.04 / 1.02, 12);
    expect(back.models[1].warp).toBeUndefined();
    expect(back.translationSdMm).toBeCloseTo(0.01 / 1.02, 12);
  });

  it('turns a rival the other way, and the same way where it lies turned over', () => {
    expect(back.rivalTurns).toEqual([{ turnDeg: -30, score: 0.2 }]);
    expect(reverseFit({ ...fit, turnedOver: true }, reference, subject).rivalTurns).toEqual([
      { turnDeg: 30, score: 0.2 },
    ]);
  });

  it('bends back what was bent, to a twenty-fifth of the bending', () => {
    const own = back.models[2].warp as Warp;
    const there = faceFromFace;
    let [worst, bent] = [0, 0];
    for (let k = 0; k < 200; k++) {
      const [x, y] = [random.between(-9, 9), random.between(-9, 9)];
      const onReference: Vec3 = [x, y, form(x, y)];
      const moved = applyWarp(warp, onReference);
      // Over to the subject's face without the bending, and bent there.
      const onSubject = applyWarp(own, apply(invert(there), moved));
      const want = apply(invert(there), onReference);
      worst = Math.max(worst, Math.hypot(...onSubject.map((value, axis) => value - want[axis])));
      bent = Math.max(bent, Math.hypot(...moved.map((value, axis) => value - onReference[axis])));
    }
    expect(bent).toBeGreaterThan(0.08);
    expect(worst).toBeLessThan(0.04 * bent);
  });

  it('carries the covariance over: a small motion seen from the other face', () => {
    // The inverse of (a small motion, then the fit), by numbers: how far each of the seven moves each of the seven.
    const at = faceFromFace;
    const step = 1e-6;
    const small = (k: number): Similarity => {
      const v = Array.from({ length: 7 }, (_, i) => (i === k ? step : 0));
      const angle = Math.hypot(v[0], v[1], v[2]);
      return {
        scale: Math.exp(v[6]),
        rotation: angle > 0 ? rotationAbout([v[0] / angle, v[1] / angle, v[2] / angle], angle) : identity.rotation,
        translation: [v[3], v[4], v[5]],
      };
    };
    const jacobian = Array.from({ length: 7 }, (_, k) => {
      const change = compose(invert(compose(small(k), at)), at);
      const r = change.rotation;
      const turn = [(r[7] - r[5]) / 2, (r[2] - r[6]) / 2, (r[3] - r[1]) / 2];
      return [...turn, ...change.translation, Math.log(change.scale)].map((value) => value / step);
    });
    for (let r = 0; r < 7; r++)
      for (let c = 0; c < 7; c++) {
        let want = 0;
        for (let i = 0; i < 7; i++)
          for (let j = 0; j < 7; j++) want += jacobian[i][r] * covariance[7 * i + j] * jacobian[j][c];
        expect(Math.abs(back.covariance[7 * r + c] - want)).toBeLessThan(1e-3 * (1 + Math.abs(want)));
      }
  });
});

describe('reliefs on the same cells', () => {
  it('lays what was moved back on itself, bent or not', () => {
    for (const one of [fit.models[1], fit.models[2]]) {
      expect(faceMotion(reference, subject, one).scale).toBeCloseTo(1.02, 9);
      for (const p of [
        [2, 3],
        [-7, 5],
        [8, -8],
      ]) {
        const [u, v] = unbend(one, p[0], p[1]);
        const [x, y] = one.warp ? applyWarp(one.warp, [u, v, 0]) : [u, v];
        expect(Math.hypot(x - p[0], y - p[1])).toBeLessThan(1e-4);
      }
    }
    // A flat motion: heights of the subject on the reference's cells are those under the moved place, times the size.
    const flat: Similarity = { scale: 1.02, rotation: rotationAbout([0, 0, 1], 0.4), translation: [0.7, -1.1, 0.3] };
    const [a, b] = [face(identity), face(identity)];
    const aligned = alignRelief(a, b, { ...model('oneScale'), referenceFromSubject: flat }, 0.4);
    let seen = 0;
    aligned.subject.mask.forEach((there, i) => {
      if (!there) return;
      const [x, y] = [
        xOf(aligned.subject, i % aligned.subject.width),
        yOf(aligned.subject, Math.floor(i / aligned.subject.width)),
      ];
      const p = apply(invert(flat), [x, y, 0]);
      const level = aligned.subject.z[i] - 1.02 * sampleGrid(b.detail, p[0], p[1]);
      expect(Math.min(Math.abs(level), Math.abs(level - 0.3))).toBeLessThan(1e-3);
      seen++;
    });
    expect(seen).toBeGreaterThan(1500);
    expect(rotate(flat.rotation, [1, 0, 0])[1]).toBeGreaterThan(0);
  });

  it('resamples the same window: a tilted plane stays what it is', () => {
    const grid = emptyGrid(-3, 4, -2, 5, 0.5);
    grid.mask.fill(1);
    for (let i = 0; i < grid.z.length; i++)
      grid.z[i] = 2 + 0.3 * xOf(grid, i % grid.width) - 0.7 * yOf(grid, Math.floor(i / grid.width));
    grid.mask[3 * grid.width + 4] = 0;
    const out = resampleGrid(grid, 0.3);
    expect([out.width, out.height, out.left, out.top, out.pitch]).toEqual([24, 24, -3, 5, 0.3]);
    let holes = 0;
    out.z.forEach((z, i) => {
      const [x, y] = [xOf(out, i % out.width), yOf(out, Math.floor(i / out.width))];
      const known = !Number.isNaN(sampleGrid(grid, x, y));
      expect(out.mask[i]).toBe(known ? 1 : 0);
      if (known) expect(z).toBeCloseTo(2 + 0.3 * x - 0.7 * y, 5);
      else holes++;
    });
    expect(holes).toBeGreaterThan(3);
    expect(resampleGrid(grid, 0.5)).toBe(grid);
  });
});
