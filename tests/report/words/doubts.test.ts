import { describe, expect, it } from 'vitest';
import type { FreeMotion } from '../../../src/core/fit/index.ts';
import { doubtWords, freeMotionWords, startRefusalWords } from '../../../src/core/report/words/index.ts';
import { doubts, refusals } from './doubtExamples.ts';
import { expectPrintable, expectSentence } from './said.ts';

describe('the words of doubts', () => {
  it.each(Object.entries(doubts))('%s is said in a sentence', (_, examples) => {
    for (const doubt of examples) expectSentence(doubtWords(doubt));
  });

  it('carry the numbers of the code', () => {
    expect(doubtWords({ code: 'littleOverlap', leastShare: 0.35 })).toContain('35 %');
    expect(doubtWords({ code: 'hardlyResists', motions: ['turnZ', 'growth'] })).toContain('turn about z, growth');
    expect(startRefusalWords(refusals.scaleOutOfRange[0])).toMatch(/1\.60; only 0\.87 to 1\.14/);
    expect(doubtWords(doubts.searchPrefersAnother[0])).toMatch(/stands 31 standard .* this one 0\./);
  });

  it('name every motion that a relief may hardly resist', () => {
    const motions: Readonly<Record<FreeMotion, true>> = {
      ...{ turnX: true, turnY: true, turnZ: true },
      ...{ slideX: true, slideY: true, slideZ: true, growth: true },
    };
    const said = (Object.keys(motions) as FreeMotion[]).map((motion) => freeMotionWords[motion]);
    for (const words of said) expectPrintable(words);
    expect(new Set(said).size).toBe(said.length);
  });
});
