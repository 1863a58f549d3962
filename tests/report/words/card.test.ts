import { describe, expect, it } from 'vitest';
import { type CardFault, type CardScan, cardOfFields, fieldFaults } from '../../../src/core/read/index.ts';
import { cardFaultWords, fieldFaultWords, manifestFaultWords } from '../../../src/core/report/words/index.ts';
import { type ExamplesOf, expectPrintable, expectSentence } from './said.ts';

const field = 'card';
const faults: ExamplesOf<CardFault> = {
  shape: [{ field, code: 'shape', message: 'Invalid input' }],
  sealBeyondLast: [{ field, code: 'sealBeyondLast', number: 4, of: 3 }],
  chainEnd: [{ field, code: 'chainEnd', last: 'cast', object: 'mould' }],
  chainSteps: [{ field, code: 'chainSteps', steps: 3, stated: 1 }],
  hangsNot: [{ field, code: 'hangsNot', object: 'cast' }],
  castOnly: [{ field, code: 'castOnly', object: 'impression' }],
  sidesAlike: [{ field, code: 'sidesAlike', side: 'obverse' }],
  yearsReversed: [{ field, code: 'yearsReversed' }],
  survivingTooLarge: [{ field, code: 'survivingTooLarge' }],
  pieceTooSmall: [{ field, code: 'pieceTooSmall' }],
  legend: [{ field, code: 'legend', issue: { index: 0, code: 'noSource' } }],
};

const scan: CardScan = {
  ...{ name: 'a.ply', sha256: 'a'.repeat(64), unit: 'mm', unitFrom: 'stated', kind: 'impression', pitchMm: 0.1 },
  outline: { shape: 'round', heightMm: 40, widthMm: 40 },
};

describe('faults of a card', () => {
  it.each(Object.values(faults).flat())('are sentences, but for the message of the schema: %j', (fault) => {
    (fault.code === 'shape' ? expectPrintable : expectSentence)(cardFaultWords(fault));
  });

  it('say the numbers and the objects that do not go together', () => {
    const said = Object.values(faults).flat().map(cardFaultWords);
    for (const part of [
      'Seal 4 of 3 cannot be.',
      'The chain ends with a cast, but the object is a mould.',
      'The chain has 3 steps from the matrix, the card says 1.',
      "A cast does not hang on a document; a cast's original has its own field.",
      'A supplied letter names its source.',
    ])
      expect(said).toContain(part);
  });

  it('are told at the field that was written, by what it takes or by what does not go together', () => {
    const told = (fields: Record<string, string>) => fieldFaults(cardOfFields(fields, scan)).map(fieldFaultWords);
    expect(told({})).toEqual([{ field: 'shelfmark', words: 'The shelfmark is missing.' }]);
    expect(told({ shelfmark: 'x', sealNumber: 'two', sealOf: '3' })).toEqual([
      { field: 'sealNumber', words: 'Seal n of m takes two whole numbers.' },
    ]);
    expect(told({ shelfmark: 'x', sealNumber: '3', sealOf: '2' })).toEqual([
      { field: 'sealNumber', words: 'Seal 3 of 2 cannot be.' },
    ]);
    // No form has a field for it: the part of the card, and the schema's own message.
    expect(told({ shelfmark: 'x', fingerMarks: 'many' })).toEqual([
      { field: 'fingerMarks', words: expect.stringContaining('Invalid') },
    ]);
  });

  it('of a manifest name what an address has to be', () => {
    expectSentence(manifestFaultWords('base'));
    expectSentence(manifestFaultWords('rights'));
  });
});
