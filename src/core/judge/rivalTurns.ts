import type { Face } from '../face/index.ts';
import { type Fit, modelOf, type RivalTurn } from '../fit/index.ts';
import type { evidenceDefaults } from './evidenceDefaults.ts';
import { gate } from './gate.ts';
import type { Landmark } from './landmarks.ts';
import { measurePlaces } from './measure.ts';
import { type Weighed, weighSeen } from './rivals.ts';
import type { Gate } from './types.ts';

type Options = typeof evidenceDefaults;

const fisher = (correlation: number): number => Math.atanh(Math.min(0.999, correlation));

/** Turns that agree by more than `share` of what the chosen one does. */
export const rivalTurns = ({ rivalTurns: listed, score }: Fit, share: number): RivalTurn[] =>
  listed.filter((turn) => fisher(turn.score) > share * fisher(score));

/**
 * The gates, with rival turns told away by what their own places say, where a group hangs on them alone. A turn that is right has letters and ornaments
 * in their places: support does not hang on one whose score is far below the chosen turn's, nor what speaks against on one that speaks
 * against as well. A design that repeats itself scores alike at several turns, and stays undecided.
 */
export function withRivalsTold(
  gates: readonly Gate[],
  reference: Face,
  subject: Face,
  fit: Fit,
  weighed: Weighed,
  options: Options,
  given?: readonly Landmark[],
): readonly Gate[] {
  const hanging = gates.find(
    (one) => isRivals(one) && !one.passed && gates.every((g) => g.group !== one.group || g === one || g.passed),
  );
  if (!hanging) return gates;
  const support = hanging.group === 'support';
  const listed = rivalTurns(fit, support ? options.rivalShare : options.rivalEqual);
  const left = listed.filter((turn) => {
    const there = weighedAt(reference, subject, fit, turn, given);
    if (there === 'unknown') return true;
    if (!there) return false;
    return support ? there.score > weighed.score - options.rivalBelow : there.overCopy > options.against;
  });
  const told = gate(hanging.group, hanging.code, left.length, hanging.bound, hanging.limit);
  return gates.map((one) => (one === hanging ? told : one));
}

const isRivals = ({ code }: Gate): boolean => code === 'rivalTurns';

/** The places weighed as the search left that turn, null where too few are seen there. */
function weighedAt(
  reference: Face,
  subject: Face,
  fit: Fit,
  { referenceFromSubject }: RivalTurn,
  given?: readonly Landmark[],
): Weighed | null | 'unknown' {
  if (!referenceFromSubject) return 'unknown';
  const model = { ...modelOf(fit, 'oneScale'), referenceFromSubject, scale: referenceFromSubject.scale };
  return weighSeen(measurePlaces(reference, subject, { ...fit, models: [model, model, model] }, given));
}
