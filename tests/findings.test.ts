import { describe, expect, it } from 'vitest';
import type { Relation } from '../sample-scans/generator/index.ts';
import { type BenchPair, runPair } from './bench/pairs.ts';

/** Small and clear: about 120 points across, whole, little worn. */
const small = { vertices: 14_000, warpMm: [0.02, 0.05], noiseMm: [0.005, 0.008] } as const;
const pairOf = (relation: Relation, seed: number): Promise<BenchPair> =>
  runPair(seed, relation, small, { whole: false, coverage: 1, wear: 0.1 });

// Seeds 61 to 64 were looked at while this was written: they hold the way from two files to a finding fast and measure no rate.
describe('from two files to a finding', () => {
  it.each([63, 64])('a copy cut by hand is spoken against, with its ground in the gates: seed %i', async (seed) => {
    const { comparison } = await pairOf('handCopy', seed);
    const { finding, score, limits } = comparison.judgement;
    expect(comparison.fit.found).toBe(true);
    expect(finding).toBe('against');
    expect(score).toBeLessThan(-2.5);
    expect(limits[0].code).toBe('twoMatrices');
  });

  it.each([61, 63])('faces of two designs are told apart, with nothing of a fit: seed %i', async (seed) => {
    const { comparison } = await pairOf('unrelated', seed);
    expect(comparison.fit.found).toBe(false);
    expect(comparison.judgement.finding).toBe('otherDesign');
    expect(comparison.judgement.limits.map(({ code }) => code)).toContain('noBetterThanUnrelated');
  });
});
