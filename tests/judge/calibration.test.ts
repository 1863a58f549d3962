import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { cllr, type KnownScores, log10LikelihoodRatio, rocArea } from '../../src/core/judge/calibration.ts';

/** Two normal populations, 2 apart. */
function population(count: number, seed: number): KnownScores {
  const random = seededRandom(seed);
  const draw = (mean: number): number[] => Array.from({ length: count }, () => mean + random.normal());
  return { name: 'simulated', same: draw(1), different: draw(-1) };
}

describe('cllr', () => {
  // Brümmer and du Preez, Computer Speech and Language 20, 2006: values calculated from the definition.
  for (const [same, different, expected] of [
    [1, 1, 1],
    [10, 0.1, 0.137504],
    [0.1, 10, 3.459432],
  ])
    it(`is ${expected} for ratios of ${same} and ${different}`, () => {
      expect(cllr([same, same], [different])).toBeCloseTo(expected, 6);
    });
});

describe('rocArea', () => {
  it('is the share of pairs in the right order, ties half', () => {
    expect(rocArea({ same: [2, 3], different: [0, 1] })).toBe(1);
    expect(rocArea({ same: [1], different: [1] })).toBe(0.5);
    expect(rocArea({ same: [0, 2], different: [1, 1] })).toBe(0.5);
  });
});

describe('log10LikelihoodRatio', () => {
  it('never falls as the score rises', () => {
    const known = population(150, 1);
    let before = Number.NEGATIVE_INFINITY;
    for (let score = -5; score <= 5; score += 0.05) {
      const ratio = log10LikelihoodRatio(score, known) as number;
      expect(ratio).toBeGreaterThanOrEqual(before);
      before = ratio;
    }
  });

  it('follows the true ratio of two normal populations, 2 x/ln 10, where there are pairs enough', () => {
    const known = population(4000, 2);
    for (const score of [-1, -0.5, 0, 0.5, 1])
      expect(Math.abs((log10LikelihoodRatio(score, known) as number) - (2 * score) / Math.LN10)).toBeLessThan(0.2);
  });

  it('goes no further than the number of pairs behind it', () => {
    const known: KnownScores = {
      name: 'clear cut',
      same: Array.from({ length: 50 }, (_, k) => 10 + k),
      different: Array.from({ length: 20 }, (_, k) => -10 - k),
    };
    expect(log10LikelihoodRatio(1000, known)).toBeCloseTo(Math.log10(20), 12);
    expect(log10LikelihoodRatio(-1000, known)).toBeCloseTo(-Math.log10(50), 12);
  });

  it('does not depend on how many pairs of either kind there happen to be', () => {
    const { same, different, name } = population(4000, 3);
    const few: KnownScores = { name, same: same.slice(0, 800), different };
    for (const score of [-0.5, 0, 0.5])
      expect(
        Math.abs(
          (log10LikelihoodRatio(score, few) as number) -
            (log10LikelihoodRatio(score, { name, same, different }) as number),
        ),
      ).toBeLessThan(0.2);
  });

  it('says nothing on fewer than ten pairs of a kind', () => {
    const { name, same, different } = population(30, 4);
    expect(log10LikelihoodRatio(1, { name, same: same.slice(0, 9), different })).toBeNull();
    expect(log10LikelihoodRatio(1, { name, same, different: different.slice(0, 9) })).toBeNull();
  });
});
