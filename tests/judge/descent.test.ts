import { describe, expect, it } from 'vitest';
import type { SizeTest } from '../../src/core/compare/index.ts';
import { descentOf } from '../../src/core/judge/descent.ts';
import type { Conclusion } from '../../src/core/judge/finding.ts';
import { limitsOf } from '../../src/core/judge/limits.ts';
import { fitWith } from './fitWith.ts';

const sized = (ratio: number, sd: number, changes: Partial<SizeTest> = {}): SizeTest => ({
  ratio,
  sd,
  x: ratio,
  y: ratio,
  depth: ratio,
  favours: 'neither',
  copyIs: 'either',
  reading: [],
  ...changes,
});

describe('descentOf', () => {
  it('cautions where a positive is larger than its negative by more than plaster grows, at 95 %, whichever was the reference', () => {
    const caution = (ratio: number, sd: number, swapped = false): string | null | undefined =>
      (swapped
        ? descentOf('relief', 'intaglio', sized(1 / ratio, sd / ratio ** 2), [])
        : descentOf('intaglio', 'relief', sized(ratio, sd), [])
      ).caution?.limit;
    for (const swapped of [false, true]) {
      expect(caution(1.0252, 0.0044, swapped)).toContain('2.5 ± 0.4 %');
      expect(caution(1.0252, 0.0044, swapped)).toContain('the negative would be a copy');
      // Wax that shrank, and plaster that grew by what plaster may.
      expect(caution(0.9918, 0.0042, swapped)).toBeUndefined();
      expect(caution(1.003, 0.0001, swapped)).toBeUndefined();
      // Large, but not surely.
      expect(caution(1.0252, 0.02, swapped)).toBeUndefined();
    }
    expect(descentOf('relief', 'relief', sized(1.0252, 0.0044), []).caution).toBeNull();
  });

  it('puts it first among the limits of a supported finding, and among no other’s', () => {
    const copy = descentOf('intaglio', 'relief', sized(1.025, 0.001, { favours: 'copy', copyIs: 'reference' }), []);
    expect(copy.caution?.sentence).toBe(
      'Size speaks for a matrix recast from the impression: the reference would be the copy.',
    );
    expect(copy.caution?.limit).toContain('1.0250 ± 0.0010');
    const limits = (finding: Conclusion['finding']): string[] =>
      limitsOf(
        fitWith(),
        { finding, strength: 'weak', sentence: '', reasons: [] },
        30,
        undefined,
        copy.caution?.limit,
      ).map(({ words }) => words);
    expect(limits('supported')[0]).toBe(copy.caution?.limit);
    for (const other of ['undecided', 'against', 'otherDesign'] as const)
      expect(limits(other)).not.toContain(copy.caution?.limit);
  });
});
