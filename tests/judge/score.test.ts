import { describe, expect, it } from 'vitest';
import type { Features } from '../../src/core/judge/features.ts';
import { findingDefaults } from '../../src/core/judge/finding.ts';
import { scoreModel, scoreOf } from '../../src/core/judge/score.ts';
import { featuresWith } from './features.ts';

/** A pair whose every feature sits at the middle of one population. */
function typical(of: 'same' | 'different'): Features {
  const middle = (name: string, from: number, to: number): number => {
    const model = scoreModel.find((each) => each.name === name);
    if (!model) throw new Error(`no feature "${name}"`);
    let [low, high] = [from, to];
    for (let round = 0; round < 60; round++) {
      const half = (low + high) / 2;
      if (model.weighed(half) < model[of][0]) low = half;
      else high = half;
    }
    return low;
  };
  return featuresWith({
    scatterMm: middle('scatter of the cells', 0, 1),
    cellCorrelation: middle('correlation of the cells', -1, 1),
    congruentShare: middle('share of congruent cells', 0, 1),
    outerShare: middle('share of congruent cells where a legend stands', 0, 1),
    fineCorrelation: middle('fine relief', -1, 1),
  });
}

describe('scoreOf', () => {
  it('is the sum of its parts, each held within two powers of ten', () => {
    for (const features of [
      featuresWith(),
      featuresWith({ scatterMm: 5, cellCorrelation: -1, congruentShare: 0, outerShare: 0, fineCorrelation: -1 }),
      featuresWith({ scatterMm: 0, cellCorrelation: 1, congruentShare: 1, outerShare: 1, fineCorrelation: 1 }),
    ]) {
      const { score, parts } = scoreOf(features);
      expect(parts.map((part) => part.name)).toEqual(scoreModel.map((model) => model.name));
      expect(score).toBeCloseTo(
        parts.reduce((sum, part) => sum + part.score, 0),
        12,
      );
      parts.forEach((part, k) => {
        expect(Math.abs(part.score)).toBeLessThanOrEqual(2 * scoreModel[k].weight + 1e-12);
      });
    }
  });

  it('can be worked out again from the numbers that it prints', () => {
    const { parts } = scoreOf(featuresWith({ scatterMm: 0.05, cellCorrelation: 0.8 }));
    const density = (x: number, [mean, sd]: readonly [number, number]): number =>
      Math.exp(-((x - mean) ** 2) / (2 * sd * sd)) / sd;
    parts.forEach(({ value, score }, k) => {
      const { weighed, same, different, weight } = scoreModel[k];
      const ratio = Math.log10(density(weighed(value), same) / density(weighed(value), different));
      expect(score).toBeCloseTo(weight * Math.max(-2, Math.min(2, ratio)), 9);
    });
  });

  it('supports a typical pair of one matrix and speaks against a typical copy', () => {
    expect(scoreOf(typical('same')).score).toBeGreaterThan(findingDefaults.support);
    expect(scoreOf(typical('different')).score).toBeLessThan(findingDefaults.against);
  });

  for (const [feature, better, worse] of [
    ['scatterMm', 0.02, 0.15],
    ['cellCorrelation', 0.9, 0.7],
    ['congruentShare', 0.95, 0.5],
    ['outerShare', 0.95, 0.4],
    ['fineCorrelation', 0.8, 0.5],
  ] as const)
    it(`falls when ${feature} alone gets worse`, () => {
      expect(scoreOf(featuresWith({ [feature]: worse })).score).toBeLessThan(
        scoreOf(featuresWith({ [feature]: better })).score,
      );
    });

  it('lets a number that could not be had count for nothing', () => {
    const { parts, score } = scoreOf(featuresWith({ fineCorrelation: Number.NaN, scatterMm: Number.NaN }));
    expect(Number.isFinite(score)).toBe(true);
    for (const part of parts) if (Number.isNaN(part.value)) expect(part.score).toBe(0);
    expect(parts.filter((part) => Number.isNaN(part.value))).toHaveLength(2);
  });
});
