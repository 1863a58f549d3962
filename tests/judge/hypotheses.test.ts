import { describe, expect, it } from 'vitest';
import type { Mark } from '../../src/core/condition/index.ts';
import type { Fit } from '../../src/core/fit/index.ts';
import type { PairEvidence } from '../../src/core/judge/gates.ts';
import { evidenceOf, hypothesesOf, sharedAccidents } from '../../src/core/judge/hypotheses.ts';

const fit = { found: true, significance: 17, chance: { location: 5.5 } } as unknown as Fit;
const evidence = (same: number, handCopy: number, stockMotif: number): PairEvidence =>
  ({
    places: { tiles: { congruent: 7, compared: 9, sideMm: 3.1 } },
    weighed: { same, handCopy, stockMotif, scatterMm: 0.021, best: { epsilon: 0.1 } },
  }) as unknown as PairEvidence;
const of = (list: ReturnType<typeof evidenceOf>, code: string) => list.find((each) => each.code === code);

describe('pieces of evidence', () => {
  it('weigh one matrix less each rival, in powers of ten', () => {
    const list = evidenceOf(fit, evidence(4, 1.5, 6));
    expect(of(list, 'overHandCopy')).toMatchObject({ value: 2.5, favours: 'sameMatrix', over: 'otherMatrix' });
    expect(of(list, 'overStockMotif')).toMatchObject({ value: -2, favours: 'otherMatrix', over: 'sameMatrix' });
    expect(of(evidenceOf(fit, evidence(4, 3.9, 6)), 'overHandCopy')).toMatchObject({ favours: 'neither' });
    expect(of(list, 'wholeFace')).toMatchObject({ value: 17, chanceSigma: 5.5, over: 'unrelated' });
    expect(of(list, 'congruentCells')).toMatchObject({ value: 7, compared: 9, sideMm: 3.1, favours: 'neither' });
    expect(of(list, 'scatter')).toMatchObject({ value: 0.021 });
    expect(of(list, 'nowhereNear')).toMatchObject({ value: 0.1 });
  });

  it('favour neither below three tenths, either way', () => {
    const side = (apart: number) => of(evidenceOf(fit, evidence(apart, 0, 0)), 'overHandCopy')?.favours;
    expect([0.29, -0.29, 0.31, -0.31].map(side)).toEqual(['neither', 'neither', 'sameMatrix', 'otherMatrix']);
  });

  it('are the search alone where nothing was weighed', () => {
    const bare = { places: null, weighed: null } as unknown as PairEvidence;
    expect(evidenceOf(fit, bare).map(({ code }) => code)).toEqual(['wholeFace']);
  });
});

describe('shared accidents', () => {
  const mark = (shape: Mark['shape'], carriedBy: Mark['carriedBy']): Mark => ({ shape, carriedBy }) as Mark;

  it('count what no engraver means: cuts, cracks, scratches, lines and pits', () => {
    const all = (['cut', 'crack', 'scratch', 'line', 'pit', 'chip', 'bubble', 'smear', 'recut', 'region'] as const).map(
      (shape) => mark(shape, 'both'),
    );
    expect(sharedAccidents(all)).toMatchObject([{ value: 5, found: 5, favours: 'sameMatrix', over: 'otherMatrix' }]);
  });

  it('say nothing where there are none, and favour neither where none is shared', () => {
    expect(sharedAccidents([mark('chip', 'both')])).toEqual([]);
    expect(sharedAccidents([mark('cut', 'subject'), mark('crack', 'both')])).toMatchObject([{ value: 1, found: 2 }]);
    expect(sharedAccidents([mark('cut', 'subject')])).toMatchObject([{ value: 0, found: 1, favours: 'neither' }]);
  });
});

describe('the table of hypotheses', () => {
  const verdicts = (finding: Parameters<typeof hypothesesOf>[0]['finding'], found = true) =>
    hypothesesOf({ finding }, { found }, { code: 'notWeighed' }, null).map(
      ({ id, verdict }) => `${id} ${verdict.code}`,
    );

  it('follows from the finding alone', () => {
    expect(verdicts('supported')).toEqual([
      'sameMatrix supported',
      'copy notWeighed',
      'otherMatrix notSupported',
      'unrelated designsAgree',
    ]);
    expect(verdicts('against')).toEqual([
      'sameMatrix notSupported',
      'copy notWeighed',
      'otherMatrix supported',
      'unrelated designsAgree',
    ]);
    expect(verdicts('otherDesign', false)).toEqual([
      'sameMatrix notSupported',
      'copy notWeighed',
      'otherMatrix notSupported',
      'unrelated supported',
    ]);
    expect(verdicts('undecided')).toEqual([
      'sameMatrix notDecided',
      'copy notWeighed',
      'otherMatrix notDecided',
      'unrelated designsAgree',
    ]);
    expect(verdicts('undecided', false).at(-1)).toBe('unrelated designsNotSeenToAgree');
  });

  it('says of a copy only what was weighed under one matrix', () => {
    const copy = { code: 'notSupported' } as const;
    const of = (finding: 'supported' | 'against') => hypothesesOf({ finding }, fit, copy, null)[1].verdict.code;
    expect([of('supported'), of('against')]).toEqual(['notSupported', 'notWeighed']);
  });

  it('gives a ratio and its inverse, and none without known pairs', () => {
    const ratios = (log10: number | null) =>
      hypothesesOf({ finding: 'supported' }, fit, { code: 'notWeighed' }, log10).map(({ log10Lr }) => log10Lr);
    expect(ratios(1.7)).toEqual([1.7, null, -1.7, null]);
    expect(ratios(null)).toEqual([null, null, null, null]);
  });
});
