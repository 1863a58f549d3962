import { describe, expect, it } from 'vitest';
import type { Features } from '../../src/core/judge/features.ts';
import { scoreOf } from '../../src/core/judge/score.ts';
import { scoreFigures, scoreOffset } from '../../src/core/judge/scoreFigures.ts';
import { featureReadings, heldRatio, mostEach, rivals, type Spread } from '../../src/core/judge/scoreModel.ts';
import { findingDefaults } from '../../src/core/judge/thresholds.ts';
import { featuresWith } from './features.ts';

/** The plain number whose weighed form is `wanted`; `weighed` rises. */
function plainOf(weighed: (plain: number) => number, wanted: number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let round = 0; round < 60; round++) {
    const half = (low + high) / 2;
    if (weighed(half) < wanted) low = half;
    else high = half;
  }
  return low;
}

/** A pair whose every feature sits at the middle of one population. */
function typical(spreadOf: (k: number) => Spread): Features {
  const middle = (name: string, from: number, to: number): number => {
    const k = featureReadings.findIndex((each) => each.name === name);
    if (k < 0) throw new Error(`no feature "${name}"`);
    return plainOf(featureReadings[k].weighed, spreadOf(k)[0], from, to);
  };
  const seen = Math.round(1000 * middle('landmarks seen on both', 0, 1));
  return featuresWith({
    // As coarse as the scans that the means are given for.
    resolution: 1 / 150,
    constellation: {
      landmarks: new Array(seen).fill(null),
      found: 1000,
      unseen: [],
      oneScaleMm: 0.05,
      smoothMm: middle('places of letters and ornaments', 0, 1),
      outside: middle('landmarks outside their error ellipses', 0, 1),
    },
    scatterMm: middle('scatter of the cells', 0, 1),
    cellCorrelation: middle('correlation of the cells', -1, 1),
    congruentShare: middle('share of congruent cells', 0, 1),
    outerShare: middle('share of congruent cells where a legend stands', 0, 1),
    fineCorrelation: middle('fine relief', -1, 1),
  });
}

const worst = featuresWith({
  scatterMm: 5,
  cellCorrelation: -1,
  congruentShare: 0,
  outerShare: 0,
  fineCorrelation: -1,
  constellation: { landmarks: [], found: 60, unseen: [], oneScaleMm: 5, smoothMm: 5, outside: 1 },
});
const cases = [featuresWith(), worst, ...rivals.map((rival) => typical((k) => scoreFigures[k].against[rival].spread))];

describe('scoreOf', () => {
  it('is its constant and the sum of its parts, each held within three powers of ten', () => {
    for (const features of cases) {
      const { score, parts, offset, rival } = scoreOf(features);
      expect(parts.map((part) => part.name)).toEqual(featureReadings.map(({ name }) => name));
      expect(score).toBeCloseTo(
        parts.reduce((sum, part) => sum + part.score, offset),
        12,
      );
      parts.forEach((part, k) => {
        expect(Math.abs(part.score)).toBeLessThanOrEqual(mostEach * scoreFigures[k].against[rival].weight + 1e-12);
      });
    }
  });

  it('can be worked out again from the numbers that it prints, and is the least over the rivals', () => {
    const density = (x: number, coarse: number, [mean, slope, sd]: Spread): number =>
      Math.exp(-((x - mean - slope * coarse) ** 2) / (2 * sd * sd)) / sd;
    for (const features of cases) {
      const coarse = Math.max(-1, Math.min(1.2, Math.log(150 * features.resolution)));
      const printed = scoreOf(features).parts.map(({ value }) => value);
      const against = rivals.map((rival) =>
        printed.reduce((sum, value, k) => {
          const { same, against } = scoreFigures[k];
          const x = featureReadings[k].weighed(value);
          const ratio = Math.log10(density(x, coarse, same) / density(x, coarse, against[rival].spread));
          return sum + against[rival].weight * Math.max(-mostEach, Math.min(mostEach, ratio));
        }, scoreOffset[rival]),
      );
      expect(scoreOf(features).score).toBeCloseTo(Math.min(...against), 6);
      expect(scoreOf(features).rival).toBe(rivals[against.indexOf(Math.min(...against))]);
    }
  });

  it('supports a typical pair of one matrix, speaks against a typical pair of either rival, and names that rival', () => {
    expect(scoreOf(typical((k) => scoreFigures[k].same)).score).toBeGreaterThan(findingDefaults.support);
    for (const rival of rivals) {
      const scored = scoreOf(typical((k) => scoreFigures[k].against[rival].spread));
      expect(scored.score).toBeLessThan(findingDefaults.against);
      expect(scored.rival).toBe(rival);
    }
  });

  it('never rises where a feature gets worse, between the middles of the populations', () => {
    for (const rival of rivals)
      featureReadings.forEach((_, k) => {
        const { same, against } = scoreFigures[k];
        const at = (share: number): number =>
          heldRatio(same[0] + share * (against[rival].spread[0] - same[0]), 0, same, against[rival].spread);
        for (let share = 0.1; share <= 1; share += 0.1) expect(at(share)).toBeLessThanOrEqual(at(share - 0.1) + 1e-9);
      });
  });

  it('lets a number that could not be had count for nothing', () => {
    const { parts, score } = scoreOf(featuresWith({ fineCorrelation: Number.NaN, scatterMm: Number.NaN }));
    expect(Number.isFinite(score)).toBe(true);
    for (const part of parts) if (Number.isNaN(part.value)) expect(part.score).toBe(0);
    expect(parts.filter((part) => Number.isNaN(part.value))).toHaveLength(2);
  });
});
