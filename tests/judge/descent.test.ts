import { describe, expect, it } from 'vitest';
import type { SizeTest } from '../../src/core/compare/index.ts';
import type { LossesInCommon } from '../../src/core/condition/index.ts';
import { descentOf, saysDescent } from '../../src/core/judge/descent.ts';
import type { Conclusion } from '../../src/core/judge/finding.ts';
import type { Limit, SizeCaution } from '../../src/core/judge/index.ts';
import { limitsOf } from '../../src/core/judge/limits.ts';
import { limitWords } from '../../src/core/report/words/index.ts';
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
    const caution = (ratio: number, sd: number, swapped = false): SizeCaution | null =>
      (swapped
        ? descentOf('relief', 'intaglio', sized(1 / ratio, sd / ratio ** 2), [])
        : descentOf('intaglio', 'relief', sized(ratio, sd), [])
      ).caution;
    for (const swapped of [false, true]) {
      const found = caution(1.0252, 0.0044, swapped);
      expect(found?.kind).toBe('grown');
      expect(found && limitWords({ code: 'size', ...found })).toContain('2.5 ± 0.4 %');
      // Wax that shrank, and plaster that grew by what plaster may.
      expect(caution(0.9918, 0.0042, swapped)).toBeNull();
      expect(caution(1.003, 0.0001, swapped)).toBeNull();
      // Large, but not surely.
      expect(caution(1.0252, 0.02, swapped)).toBeNull();
    }
    expect(descentOf('relief', 'relief', sized(1.0252, 0.0044), []).caution).toBeNull();
    // Which is the positive is not known: roles exchanged, the matrix is larger than its wax, as it should be.
    expect(descentOf('intaglio', 'relief', sized(1.0252, 0.0044), [], undefined, false).caution).toBeNull();
  });

  it('puts it first among the limits of a supported finding, and among no other’s', () => {
    const copy = descentOf('intaglio', 'relief', sized(1.025, 0.001, { favours: 'copy', copyIs: 'reference' }), []);
    expect(copy.caution).toEqual({
      kind: 'copy',
      favours: 'copy',
      copyIs: 'reference',
      oneSense: false,
      ratio: 1.025,
      sd: 0.001,
    });
    const limits = (finding: Conclusion['finding']): Limit[] =>
      limitsOf(fitWith(), { finding, reasons: [] }, 30, undefined, copy.caution);
    expect(limits('supported')[0]).toEqual({ code: 'size', ...copy.caution });
    for (const other of ['undecided', 'against', 'otherDesign'] as const)
      expect(limits(other).map(({ code }) => code)).not.toContain('size');
  });

  it('takes a direction from size alone, and one descent from what both lack that no dirt makes and no chance', () => {
    const common = (count: number, atEdge: number, byChance = 0) => ({ count, atEdge, byChance, areaMm2: 4 * count });
    const codeOf = (size: Partial<SizeTest>, losses: ReturnType<typeof common> | null = null) =>
      descentOf('relief', 'relief', sized(0.99, 0.001, size), [], { losses, edge: null }).code;
    expect(codeOf({ favours: 'copy', copyIs: 'subject' })).toBe('subjectFromReference');
    expect(codeOf({ favours: 'copy', copyIs: 'reference' }, common(3, 1))).toBe('referenceFromSubject');
    expect(codeOf({ favours: 'copy', copyIs: 'either' })).toBe('oneDescent');
    expect(codeOf({}, common(3, 1))).toBe('oneDescent');
    for (const losses of [null, common(0, 0), common(1, 1), common(3, 0), common(3, 1, 2)])
      expect(codeOf({}, losses)).toBe('cannotJudge');
  });

  it('takes one descent from a single loss at the edge whose broken floor is surely the same on both, and says so with its caution', () => {
    const by = (sigma: number, changes: Partial<LossesInCommon> = {}, roughMm = 0.08, alike = 0.97) =>
      descentOf('relief', 'relief', sized(0.99, 0.001), [], {
        losses: { count: 1, atEdge: 1, byChance: 0, areaMm2: 20, floors: { sigma, alike, roughMm }, ...changes },
        edge: null,
      });
    expect(by(12).code).toBe('oneDescent');
    expect(by(12).by.losses?.floors?.sigma).toBe(12);
    for (const none of [
      by(4.9),
      by(12, { atEdge: 0 }),
      by(12, { byChance: 1 }),
      by(12, {}, 0.04),
      by(12, {}, 0.08, 0.7),
    ])
      expect(none.code).toBe('cannotJudge');
    // Two tell by their number, and then nothing is said of floors that do not.
    expect(by(2, { count: 3 }).by.losses).toMatchObject({ count: 3, floors: null });
  });

  it('takes one descent from a broken edge that is surely the same, and then a direction where only one of the two can be the copy', () => {
    const codeOf = (sigma: number, size: Partial<SizeTest> = {}, roughMm = 0.2, apartMm = 0.02) => {
      const edge = { lengthMm: 20, roughMm, apartMm, sigma, stretches: [] };
      return descentOf('relief', 'relief', sized(0.99, 0.001, size), [], { losses: null, edge }).code;
    };
    expect(codeOf(5)).toBe('oneDescent');
    expect(codeOf(3.9)).toBe('cannotJudge');
    // The hollow top of a shield is as smooth as this.
    expect(codeOf(5, {}, 0.04)).toBe('cannotJudge');
    // Over a long way two breaks may be surely somewhat alike, and yet stray from one another nearly as far as from their curves.
    expect(codeOf(5, {}, 0.2, 0.15)).toBe('oneDescent');
    expect(codeOf(5, {}, 0.2, 0.16)).toBe('cannotJudge');
    const onlyCopy = { largerPercent: 1, sdPercent: 0.1, mostPercent: 0.25, material: null };
    expect(codeOf(5, { onlyCopy: { copyIs: 'subject', ...onlyCopy } })).toBe('subjectFromReference');
    expect(codeOf(5, { onlyCopy: { copyIs: 'reference', ...onlyCopy } })).toBe('referenceFromSubject');
    // Size alone says no descent: two impressions differ by as much.
    expect(codeOf(3.9, { onlyCopy: { copyIs: 'subject', ...onlyCopy } })).toBe('cannotJudge');
  });

  it('is said where one matrix is supported, and where that is undecided of a shared broken edge alone', () => {
    const edge = { lengthMm: 20, roughMm: 0.2, apartMm: 0.05, sigma: 5, stretches: [] };
    const losses = { count: 3, atEdge: 1, areaMm2: 9, byChance: 0 };
    const by = (inCommon: Parameters<typeof descentOf>[4]) =>
      descentOf('relief', 'relief', sized(1, 0.001), [], inCommon);
    expect(saysDescent('supported', by({ losses: null, edge: null }))).toBe(true);
    expect(saysDescent('undecided', by({ losses: null, edge }))).toBe(true);
    expect(saysDescent('undecided', by({ losses, edge: null }))).toBe(false);
    for (const finding of ['against', 'otherDesign'] as const)
      expect(saysDescent(finding, by({ losses, edge }))).toBe(false);
  });
});
