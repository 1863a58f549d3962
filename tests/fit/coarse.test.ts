import { describe, expect, it } from 'vitest';
import { type Signal, signalOf } from '../../src/core/fit/bandPassed.ts';
import { coarseSearch } from '../../src/core/fit/coarse.ts';
import { align, alignTarget } from '../../src/core/fit/lucasKanade.ts';
import { affineOf, type PlanarFit, turnBetweenDeg } from '../../src/core/fit/similarity2d.ts';
import { bumps, gridOf, reliefOf } from './relief.ts';

const sizeMm = 30;
const relief = bumps(1, 15, 90);
const disc = (radius: number) => (x: number, y: number) => Math.hypot(x, y) <= radius;

/** Both signals, of a relief and of the object that `fit` lays on it; `keeps` says what of it survives. */
function signals(
  fit: PlanarFit,
  across: number,
  keeps: (x: number, y: number) => boolean = disc(15),
): [Signal, Signal] {
  const m = affineOf(fit);
  const sign = fit.negate ? -1 : 1;
  const subject = reliefOf(
    (x, y) => (sign * relief.height(m.a * x + m.b * y + m.tx, m.c * x + m.d * y + m.ty)) / fit.scale,
  );
  const pitch = sizeMm / across;
  const cells = Math.round(across * 1.25);
  const signal = (of: typeof relief, inside: (x: number, y: number) => boolean): Signal =>
    signalOf(gridOf(of, 16, 0.2, inside), cells, pitch, sizeMm / 26, sizeMm / 7);
  return [signal(relief, disc(15)), signal(subject, keeps)];
}

const way = (flipX: boolean, negate: boolean): PlanarFit => ({
  flipX,
  negate,
  turn: (flipX ? -1 : 1) * 2.013,
  scale: 1.031,
  tx: 0.9,
  ty: -0.6,
});

describe('coarseSearch', () => {
  for (const [flipX, negate] of [
    [false, false],
    [true, true],
    [true, false],
  ] as const)
    it(`finds a turn, size and shift without a guess, flipped: ${flipX}, negated: ${negate}`, () => {
      const truth = way(flipX, negate);
      const [reference, subject] = signals(truth, 64);
      const found = coarseSearch(reference, subject);
      const list = flipX === negate ? found.proper : found.reflected;
      const [best] = list;
      expect([best.fit.flipX, best.fit.negate]).toEqual([flipX, negate]);
      expect(Math.abs(turnBetweenDeg(best.fit, truth))).toBeLessThanOrEqual(2.6);
      expect(Math.abs(best.fit.scale - truth.scale)).toBeLessThanOrEqual(0.026);
      expect(Math.hypot(best.fit.tx - truth.tx, best.fit.ty - truth.ty)).toBeLessThan(1);
      expect(best.score).toBeGreaterThan(0.6);
      // A correlation, by the energies of both.
      expect(best.score).toBeLessThan(1.001);
      const wrong = flipX === negate ? found.reflected : found.proper;
      expect(wrong[0].score).toBeLessThan(0.75 * best.score);
    });

  it('finds the place of a fragment that is 45 % of the face', () => {
    const truth = way(true, true);
    const [reference, subject] = signals(truth, 64, (x, y) => Math.hypot(x, y) <= 15 && x > 1);
    const [best] = coarseSearch(reference, subject).proper;
    expect(Math.abs(turnBetweenDeg(best.fit, truth))).toBeLessThanOrEqual(2.6);
    expect(Math.hypot(best.fit.tx - truth.tx, best.fit.ty - truth.ty)).toBeLessThan(1.5);
  });
});

describe('align', () => {
  for (const flipX of [false, true])
    it(`converges to the truth from where the search may leave it, flipped: ${flipX}`, () => {
      const truth = way(flipX, flipX);
      const [reference, subject] = signals(truth, 120);
      const start = { ...truth, turn: truth.turn + 0.05, scale: truth.scale - 0.025, tx: 1.3, ty: -0.9 };
      const { fit, correlation, overlap } = align(alignTarget(reference), subject, start, 20, 0.001);
      expect(correlation).toBeGreaterThan(0.95);
      expect(overlap).toBeGreaterThan(0.85);
      expect(Math.abs(turnBetweenDeg(fit, truth))).toBeLessThan(0.03);
      expect(Math.abs(fit.scale - truth.scale)).toBeLessThan(5e-4);
      expect(Math.hypot(fit.tx - truth.tx, fit.ty - truth.ty)).toBeLessThan(0.01);
    });

  it('gives the correlation that the definition gives at the place it reports', () => {
    const truth = way(false, false);
    const [reference, subject] = signals(truth, 64);
    const { fit, correlation, cells } = align(alignTarget(reference), subject, truth, 0, 1);
    expect(fit).toEqual(truth);
    expect(correlation).toBeCloseTo(correlationBySum(reference, subject, truth), 5);
    expect(cells).toBeGreaterThan(1000);
  });

  it('never returns a place that agrees less than where it began, and keeps the size in its range', () => {
    const [reference, subject] = signals(way(true, true), 64);
    const target = alignTarget(reference);
    for (const turn of [0, 1, 4]) {
      const start: PlanarFit = { flipX: true, negate: true, turn, scale: 0.9, tx: 0, ty: 0 };
      const before = align(target, subject, start, 0, 1).correlation;
      const after = align(target, subject, start, 10, 0.01);
      expect(after.correlation).toBeGreaterThanOrEqual(before);
      expect(after.fit.scale).toBeGreaterThanOrEqual(0.87);
      expect(after.fit.scale).toBeLessThanOrEqual(1.14);
    }
  });
});

/** Pearson's r over the reference's cells, the subject read bilinearly at the place that the fit takes there. */
function correlationBySum(reference: Signal, subject: Signal, fit: PlanarFit): number {
  const middle = (reference.size - 1) / 2;
  const { cos, sin } = { cos: Math.cos(fit.turn), sin: Math.sin(fit.turn) };
  const a: number[] = [];
  const b: number[] = [];
  for (let row = 0; row < reference.size; row++)
    for (let col = 0; col < reference.size; col++) {
      if (!reference.mask[row * reference.size + col]) continue;
      const x = ((col - middle) * reference.pitch - fit.tx) / fit.scale;
      const y = ((middle - row) * reference.pitch - fit.ty) / fit.scale;
      const value = at(subject, (cos * x + sin * y) / subject.pitch, (-sin * x + cos * y) / subject.pitch);
      if (Number.isNaN(value)) continue;
      a.push(reference.value[row * reference.size + col]);
      b.push(value);
    }
  const mean = (list: number[]): number => list.reduce((sum, v) => sum + v, 0) / list.length;
  const [ma, mb] = [mean(a), mean(b)];
  const cov = (p: number[], mp: number, q: number[], mq: number): number =>
    p.reduce((sum, v, i) => sum + (v - mp) * (q[i] - mq), 0);
  return cov(a, ma, b, mb) / Math.sqrt(cov(a, ma, a, ma) * cov(b, mb, b, mb));
}

function at({ size, value, mask }: Signal, x: number, y: number): number {
  const u = x + (size - 1) / 2;
  const v = (size - 1) / 2 - y;
  const [c, r] = [Math.floor(u), Math.floor(v)];
  if (c < 0 || r < 0 || c >= size - 1 || r >= size - 1) return Number.NaN;
  let sum = 0;
  for (const [i, j] of [
    [0, 0],
    [0, 1],
    [1, 0],
    [1, 1],
  ]) {
    const k = (r + j) * size + c + i;
    if (!mask[k]) return Number.NaN;
    sum += (i ? u - c : 1 - u + c) * (j ? v - r : 1 - v + r) * value[k];
  }
  return sum;
}
