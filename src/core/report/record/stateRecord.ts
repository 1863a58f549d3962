import type { StateReading } from '../../condition/index.ts';
import { stateReasonWords } from '../words/states.ts';
import { roundedShare } from './rounded.ts';

/** A reading of state as plain JSON: its ground as a code with its numbers, and in words. */
export const stateRecord = ({ reading, marks, reason }: StateReading) => ({
  reading,
  marks: [...marks],
  reason: 'soundFraction' in reason ? { ...reason, soundFraction: roundedShare(reason.soundFraction) } : { ...reason },
  words: stateReasonWords(reason),
});
