import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { heldOutFalseSupport, thresholdsFor } from '../../src/core/collection/index.ts';
import { differentScores } from '../bench/collection/heldOutScores.ts';

/** Upper 95 % limit of a rate of which k were seen in n: the p for which a binomial is at most k in 5 of 100 (Clopper and Pearson 1934). */
function upperRate(k: number, n: number): number {
  const atMost = (p: number): number => {
    let [term, sum] = [(1 - p) ** n, 0];
    for (let i = 0; i <= k; i++) {
      sum += term;
      term *= ((n - i) / (i + 1)) * (p / (1 - p));
    }
    return sum;
  };
  let [low, high] = [k / n, 1];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (atMost(middle) > 0.05) low = middle;
    else high = middle;
  }
  return low;
}

/** Lower 5 % point of χ² with an even number 2k of degrees of freedom: P(χ² < x) = 1 − e^(−x/2) Σ_{i<k} (x/2)^i / i!. */
function chiSquared5(k: number): number {
  const below = (x: number): number => {
    let [term, sum] = [1, 0];
    for (let i = 0; i < k; i++) {
      sum += term;
      term *= x / 2 / (i + 1);
    }
    return 1 - Math.exp(-x / 2) * sum;
  };
  let [low, high] = [0, 20 * k];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (below(middle) < 0.05) low = middle;
    else high = middle;
  }
  return low;
}

describe('how often different matrices reach a score', () => {
  it('is the upper limit of rate and mean excess of the committed rows', () => {
    const scores = differentScores();
    expect(scores).toHaveLength(120);
    const above = scores.filter((score) => score !== null && score > 0) as number[];
    const excess = above.reduce((sum, score) => sum + score, 0);
    // Of exponential excesses 2 Σ / σ is χ² with 2k degrees of freedom (Epstein and Sobel 1953).
    const perScore = (2 * excess) / chiSquared5(above.length);
    expect(heldOutFalseSupport.rate).toBeCloseTo(upperRate(above.length, scores.length), 3);
    expect(heldOutFalseSupport.perScore).toBeCloseTo(perScore, 2);
  });
});

describe('thresholds', () => {
  it('are those of the documents', () => {
    const page = readFileSync('docs/collection.md', 'utf8');
    const pairs = [
      [40, 20],
      [400, 100],
      [3000, 300],
      [10_000, 1000],
      [100_000, 10_000],
      [10_000_000, 1_000_000],
    ];
    for (const [m, n] of pairs) {
      const { alone, two, three } = thresholdsFor(m, n);
      const scores = [alone, two, three].map((score) => score.toFixed(1)).join(' | ');
      expect(page).toContain(`| ${m.toLocaleString('en')} (${n.toLocaleString('en')}) | ${scores} |`);
    }
  });

  it('keep the expected number of false merges below what is allowed, however large the collection', () => {
    for (const objects of [2, 40, 300, 10_000, 1_000_000])
      for (const each of [1, 10, 20]) {
        const { alone, two, three, expectedFalseMerges } = thresholdsFor(objects * each, objects);
        expect(expectedFalseMerges).toBeLessThanOrEqual(0.1 + 1e-9);
        expect(alone).toBeGreaterThanOrEqual(two);
        expect(two).toBeGreaterThanOrEqual(three);
        expect(three).toBeGreaterThanOrEqual(2);
      }
  });

  it('rise with the number of pairs compared', () => {
    const scores = [10, 100, 1000, 100_000].map((pairs) => thresholdsFor(pairs, 100));
    for (let k = 1; k < scores.length; k++) {
      expect(scores[k].alone).toBeGreaterThanOrEqual(scores[k - 1].alone);
      expect(scores[k].two).toBeGreaterThanOrEqual(scores[k - 1].two);
    }
  });
});
