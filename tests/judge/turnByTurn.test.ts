import { describe, expect, it } from 'vitest';
import { chanceDensity, overlapsAt, reachedAt } from '../../src/core/fit/index.ts';
import { quantile } from '../../src/core/geometry/index.ts';
import { clearDefaults, turnByTurn } from '../../src/core/judge/clear.ts';
import { analyticFace, disc, ringWithGap, waves } from './analyticFace.ts';

const [a, b] = [1, 2].map((seed) => analyticFace(waves(seed), ringWithGap(7)));

describe('what chance reaches at single turns', () => {
  it('is a law of area 1 with the quartiles of what was reached, which one true turn does not move', () => {
    const standard = (p: number): number => -Math.log(-Math.log(p));
    const values = Array.from({ length: 144 }, (_, k) => 2 + 0.7 * standard((k + 0.5) / 144));
    const [density, withOne] = [chanceDensity(values), chanceDensity([...values.slice(1), 40])];
    const below = (law: (value: number) => number, to: number): number => {
      let sum = 0;
      for (let value = -5; value < to; value += 0.001) sum += 0.001 * law(value);
      return sum;
    };
    expect(below(density, 40)).toBeCloseTo(1, 3);
    for (const p of [0.25, 0.5, 0.75]) {
      expect(below(density, 2 + 0.7 * standard(p))).toBeCloseTo(p, 2);
      expect(below(withOne, 2 + 0.7 * standard(p))).toBeCloseTo(p, 1);
    }
  });

  it('is never narrower than half a standard deviation', () => {
    expect(chanceDensity([2, 2, 2, 2])(2)).toBeCloseTo(Math.LN2 / 2 / 0.5, 6);
  });
});

describe('one design over chance, turn by turn', () => {
  it('is the mean over turns and ways of the likelihood of what was reached, under what one design would reach', () => {
    const turns = clearDefaults.turnsApart;
    const reached = reachedAt(a.image, b.image, 20, turns);
    const cells = overlapsAt(
      a.image,
      b.image,
      20,
      Array.from({ length: turns }, (_, k) => (2 * Math.PI * k) / turns),
    );
    const chance = chanceDensity(reached);
    const normal = (x: number): number => Math.exp(-(x * x) / 2) / Math.sqrt(2 * Math.PI);
    let sum = 0;
    const middle = quantile(reached, 0.5);
    reached.forEach((at, k) => {
      const r = Math.max(at, middle);
      const own = (kept: number): number => normal(Math.min(0, r - Math.atanh(kept) * Math.sqrt(cells[k] - 3)));
      sum += (0.1 * own(0.6) + 0.3 * own(0.75) + 0.6 * own(0.85)) / chance(r) / reached.length;
    });
    expect(reached).toHaveLength(2 * turns);
    const found = turnByTurn(a, b, 20);
    expect(found.likelihoodRatio / sum).toBeCloseTo(1, 3);
    expect(found.reached).toBe(Math.max(...reached));
  });

  it('speaks against one design where there is none, and for it where there is one, at whatever turn', () => {
    expect(turnByTurn(a, b, 20).likelihoodRatio).toBeLessThan(0.1);
    expect(turnByTurn(a, a, 20).likelihoodRatio).toBeGreaterThan(1e6);
  });

  it('tells nothing of faces that have too little in common', () => {
    const specks = [1, 2].map((seed) => analyticFace(waves(seed), disc(2)));
    expect(turnByTurn(specks[0], specks[1], 20).likelihoodRatio).toBeGreaterThan(0.1);
  });
});
