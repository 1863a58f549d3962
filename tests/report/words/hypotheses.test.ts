import { describe, expect, it } from 'vitest';
import type { EvidenceCode, Verdict } from '../../../src/core/judge/index.ts';
import { evidenceWords, verdictWords } from '../../../src/core/report/words/index.ts';
import { sizeSays } from './cautions.ts';
import { type ExamplesOf, expectPrintable, expectSentence } from './said.ts';

const verdicts: ExamplesOf<Verdict> = {
  supported: [{ code: 'supported' }],
  notSupported: [{ code: 'notSupported' }],
  notDecided: [{ code: 'notDecided' }],
  notWeighed: [{ code: 'notWeighed' }],
  designsAgree: [{ code: 'designsAgree' }],
  designsNotSeenToAgree: [{ code: 'designsNotSeenToAgree' }],
  bySize: sizeSays.flatMap((size) =>
    (['reference', 'subject', null] as const).map((blunter) => ({ code: 'bySize', size, blunter }) as const),
  ),
};

const pieces: ExamplesOf<EvidenceCode> = {
  wholeFace: [{ code: 'wholeFace', chanceSigma: 5.04 }],
  overHandCopy: [{ code: 'overHandCopy' }],
  overStockMotif: [{ code: 'overStockMotif' }],
  scatter: [{ code: 'scatter' }],
  nowhereNear: [{ code: 'nowhereNear' }],
  congruentCells: [{ code: 'congruentCells', compared: 18, sideMm: 4.2 }],
  size: [{ code: 'size' }],
  sharpness: [{ code: 'sharpness' }],
  accidentsShared: [{ code: 'accidentsShared', found: 6 }],
};

// Both follow a name and are closed by the page: the full stop is put to them there.
const closed = (words: string): string => `It stands so: ${words}.`;

describe('the words of hypotheses', () => {
  it.each(Object.entries(verdicts))('%s is said', (_, examples) => {
    for (const verdict of examples) expectSentence(closed(verdictWords(verdict)));
  });

  it('give size its ratio', () => {
    for (const verdict of verdicts.bySize) expect(verdictWords(verdict)).toContain('1.0252 ± 0.0044');
  });
});

describe('the words of evidence', () => {
  it.each(Object.entries(pieces))('%s has a name, a unit and what it says', (_, examples) => {
    for (const piece of examples) {
      const { name, words } = evidenceWords(piece);
      expectPrintable(name);
      expectSentence(closed(words));
    }
  });

  it('have a name each', () => {
    const names = Object.values(pieces).map(([piece]) => evidenceWords(piece).name);
    expect(new Set(names).size).toBe(names.length);
  });

  it('count what was compared', () => {
    expect(evidenceWords(pieces.congruentCells[0]).unit).toBe('of 18');
    expect(evidenceWords(pieces.accidentsShared[0]).unit).toBe('of 6');
  });
});
