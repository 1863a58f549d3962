import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { falseSupportAt } from '../../src/core/collection/groups/falseSupport.ts';
import { copiesFalseSupport, thresholdsFor } from '../../src/core/collection/index.ts';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { copyScores, differentScores } from '../bench/collection/heldOutScores.ts';

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

/** Upper 95 % limit of how often a pair is above `from`, whole families drawn anew: pairs of one family are not independent. */
function upperShare(families: readonly (readonly number[])[], from: number): number {
  const random = seededRandom(11);
  const shares = Array.from({ length: 2000 }, () => {
    const drawn = families.flatMap(() => random.pick(families));
    return drawn.filter((score) => score > from).length / drawn.length;
  });
  return shares.sort((a, b) => a - b)[1900];
}

describe('how often different matrices reach a score', () => {
  const families = copyScores();
  const scores = families.flat();
  const bound = (score: number): number => falseSupportAt(score, copiesFalseSupport);

  it('is the upper limit of rate and mean excess above 1 of the committed pairs across careful copies', () => {
    expect([families.length, scores.length]).toEqual([14, 256]);
    const above = scores.filter((score) => score > 1);
    const excess = above.reduce((sum, score) => sum + score - 1, 0);
    // Of exponential excesses 2 Σ / σ is χ² with 2k degrees of freedom (Epstein and Sobel 1953).
    const perScore = (2 * excess) / chiSquared5(above.length);
    expect(copiesFalseSupport.perScore).toBeCloseTo(perScore, 1);
    expect(copiesFalseSupport.perScore).toBeGreaterThanOrEqual(perScore);
    expect(bound(1)).toBeCloseTo(upperShare(families, 1), 1);
    expect(bound(1)).toBeGreaterThanOrEqual(upperShare(families, 1));
  });

  it('is not passed by them, nor by the pairs of different seals that were scored once', () => {
    const once = differentScores().map((score) => score ?? Number.NEGATIVE_INFINITY);
    expect(once).toHaveLength(120);
    for (const set of [scores, once])
      for (let from = 1; from < 4; from += 0.1)
        expect(set.filter((score) => score > from).length / set.length).toBeLessThanOrEqual(bound(from));
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
