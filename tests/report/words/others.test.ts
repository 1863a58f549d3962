import { describe, expect, it } from 'vitest';
import type { StateReason } from '../../../src/core/condition/index.ts';
import type { BandDoubt } from '../../../src/core/design/index.ts';
import { gateWords } from '../../../src/core/report/words/gates.ts';
import { bandDoubtWords } from '../../../src/core/report/words/index.ts';
import { populationWords } from '../../../src/core/report/words/population.ts';
import { stateReasonWords, stateSentence } from '../../../src/core/report/words/states.ts';
import { strikeWords } from '../../../src/core/report/words/strike.ts';
import { type ExamplesOf, expectPrintable, expectSentence } from './said.ts';

describe('the words of legend bands', () => {
  const doubts: Readonly<Record<BandDoubt, true>> = {
    ...{ noInnerLine: true, noOuterLine: true, noLine: true, uncertain: true },
  };
  it.each(Object.keys(doubts) as BandDoubt[])('%s is said in a sentence', (doubt) => {
    expectSentence(bandDoubtWords(doubt));
  });
});

describe('the words of states', () => {
  const reasons: ExamplesOf<StateReason> = {
    bothWays: [{ code: 'bothWays' }],
    referenceHas: [{ code: 'referenceHas' }],
    subjectHas: [{ code: 'subjectHas' }],
    hidden: [{ code: 'hidden' }],
    noneSeen: [{ code: 'noneSeen' }],
    shared: [{ code: 'shared' }],
    twoMatrices: [{ code: 'twoMatrices' }],
    undecided: [{ code: 'undecided' }],
    noFit: [{ code: 'noFit' }],
    tooLittleSound: [{ code: 'tooLittleSound', soundFraction: 0.31 }],
  };
  it.each(Object.entries(reasons))('%s is said in a sentence', (_, examples) => {
    for (const reason of examples) expectSentence(stateReasonWords(reason));
  });

  it.each(['sameState', 'subjectEarlier', 'subjectLater', 'cannotJudge'] as const)(
    '%s, with marks and without',
    (reading) => {
      for (const marks of [[], ['M1', 'M2']]) expectSentence(stateSentence({ reading, marks }));
    },
  );
});

describe('the words of a second strike', () => {
  it.each(['slip', 'doubleStrike'] as const)('%s is said in sentences', (kind) => {
    for (const turnDeg of [0, -3]) {
      const words = strikeWords({ kind, shiftMm: 0.62, towardDeg: 91, turnDeg, share: 0.4, contrast: 0.3 });
      expectSentence(words);
      expect(words).toContain('0.62 mm toward 91°');
    }
  });
});

describe('the words of gates', () => {
  it.each(Object.entries(gateWords))('%s has a name', (_, { name }) => {
    expectPrintable(name);
  });
});

describe('the words of the population', () => {
  it('are sentences that carry its counts', () => {
    const words = populationWords();
    expectSentence(words);
    expect(words).toMatch(
      /On 3628 .* 1058 of 1319 .* 3 denied; .* 76 µm .*, 79 of 1319; of 330 .* Of 989 copies .* 546 were/,
    );
    expect(words).toMatch(/On 1248 of the first .* 377 of 624 .* 3 denied.* of 520 .* 2 supported/);
  });
});
