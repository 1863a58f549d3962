import type { Sense } from '../../face/index.ts';
import type { Mark, MarkCause, MarkReading } from '../types.ts';

/** What a mark is read from; heights in the positive's sense. */
export interface MarkFacts {
  readonly shape: Mark['shape'];
  readonly carriedBy: Mark['carriedBy'];
  readonly onSubject: Mark['onSubject'];
  /** Raised or sunk on whichever face carries it. */
  readonly raised: boolean;
  readonly referenceSense: Sense;
  readonly subjectSense: Sense;
  /** Whether the other face is filled, unworn and scanned there. */
  readonly otherIsSound: boolean;
}

/** What each face is: a matrix (`intaglio`), or pressed or cast (`relief`). */
export type Senses = Pick<MarkFacts, 'referenceSense' | 'subjectSense'>;

/**
 * Every cause a mark can have, the likelier first. Raised or sunk is a clue and no proof: burr, solder or
 * dirt in a matrix print sunk, and added wax, dirt and bubbles stand raised. All is said in the positive's sense.
 */
export function markReadings(facts: MarkFacts): MarkReading[] {
  const { shape, referenceSense, subjectSense, otherIsSound } = facts;
  return causesOf(facts).map((code, k) => ({
    code,
    shape,
    referenceSense,
    subjectSense,
    otherIsSound,
    first: k === 0,
  }));
}

function causesOf(facts: MarkFacts): readonly MarkCause[] {
  if (facts.carriedBy === 'both') return bothCauses(facts);
  return facts.carriedBy === 'reference' ? referenceCauses(facts) : subjectCauses(facts);
}

function bothCauses({ raised, referenceSense, subjectSense }: MarkFacts): readonly MarkCause[] {
  if (referenceSense !== 'relief' || subjectSense !== 'relief') return ['madeAfterIt', 'castOfOneThatHadIt'];
  return raised ? ['matrixHadItBefore', 'accidentOfOneImpression'] : ['lossOfOneImpression', 'stoodOnMatrixOfBoth'];
}

function referenceCauses({ raised, otherIsSound, referenceSense }: MarkFacts): readonly MarkCause[] {
  if (referenceSense === 'intaglio' && raised)
    return otherIsSound
      ? ['referenceLaterOrNotTaken', 'anotherMatrixOrCopyBefore']
      : ['referenceLaterOrNotTaken', 'orderUnknown', 'anotherMatrixOrCopyBefore'];
  if (referenceSense === 'intaglio') return ['standsInReference', 'subjectRaised'];
  return raised ? ['matrixDamagedOrAddedToReference', 'sharedSpeaksForMatrix'] : ['referenceDamaged', 'stoodOnMatrix'];
}

function subjectCauses({ shape, raised, referenceSense, subjectSense }: MarkFacts): readonly MarkCause[] {
  if (subjectSense === 'intaglio') return [raised ? 'subjectDamagedOrCopied' : 'standsInSubject'];
  if (!raised) return ['subjectDamaged', 'stoodOnMatrixOfSubject'];
  const ofTheMatrix = referenceSense === 'intaglio' ? 'matrixHadIt' : 'matrixDamagedBetween';
  return isCompact(shape) ? ['addedToSubject', ofTheMatrix] : [ofTheMatrix, 'addedToSubject'];
}

const isCompact = (shape: Mark['shape']): boolean => shape === 'bubble' || shape === 'smear' || shape === 'pit';
