import { describe, expect, it } from 'vitest';
import type { Mark, MarkCause, MarkReading } from '../../../src/core/condition/index.ts';
import { markReadings } from '../../../src/core/condition/marks/readings.ts';
import { readingWords } from '../../../src/core/report/words/index.ts';
import { expectSentence } from './said.ts';

const both = [true, false];
const senses = ['intaglio', 'relief'] as const;
const shapes: readonly Mark['shape'][] = [
  ...(['cut', 'crack', 'scratch', 'line', 'pit', 'chip', 'bubble', 'smear', 'recut', 'region'] as const),
];

const causes: Readonly<Record<MarkCause, true>> = {
  ...{
    matrixHadItBefore: true,
    accidentOfOneImpression: true,
    lossOfOneImpression: true,
    stoodOnMatrixOfBoth: true,
    madeAfterIt: true,
    castOfOneThatHadIt: true,
  },
  ...{ referenceLaterOrNotTaken: true, orderUnknown: true, anotherMatrixOrCopyBefore: true },
  ...{ standsInReference: true, subjectRaised: true, matrixDamagedOrAddedToReference: true },
  ...{ sharedSpeaksForMatrix: true, referenceDamaged: true, stoodOnMatrix: true, subjectDamagedOrCopied: true },
  ...{ standsInSubject: true, subjectDamaged: true, stoodOnMatrixOfSubject: true, addedToSubject: true },
  ...{ matrixHadIt: true, matrixDamagedBetween: true },
};

/** The readings of every mark there can be. */
const every: readonly MarkReading[][] = shapes.flatMap((shape) =>
  (['reference', 'subject', 'both'] as const).flatMap((carriedBy) =>
    both.flatMap((raised) =>
      senses.flatMap((referenceSense) =>
        senses.flatMap((subjectSense) =>
          both.map((otherIsSound) => {
            const onSubject = carriedBy === 'reference' ? 'absent' : raised ? 'raised' : 'sunk';
            return markReadings({ shape, carriedBy, onSubject, raised, referenceSense, subjectSense, otherIsSound });
          }),
        ),
      ),
    ),
  ),
);

describe('the readings of marks', () => {
  it('are sentences, the first of them no alternative', () => {
    for (const readings of every) {
      const said = readings.map(readingWords);
      for (const words of said) expectSentence(words);
      expect(said[0]).not.toMatch(/^Or /);
      expect(new Set(said).size).toBe(said.length);
    }
  });

  it('use every cause that there is', () => {
    expect(new Set(every.flat().map(({ code }) => code))).toEqual(new Set(Object.keys(causes)));
  });
});
