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
 * The gates, with rival turns told away by their own places where support hangs on them alone: the rim of a coin or a lip agrees at every turn, letters and
 * ornaments at the right one. A design that repeats itself scores alike at several turns and stays undecided, and so does a legend cut anew under a
 * motif that repeats itself, whose score is low at either.
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
  const failed = gates.filter(({ group, passed }) => group === 'support' && !passed);
  const [hanging] = failed;
  if (failed.length !== 1 || hanging.code !== 'rivalTurns') return gates;
  const left = rivalTurns(fit, options.rivalShare).filter((turn) => {
    const there = weighedAt(reference, subject, fit, turn, given);
    return there === 'unknown' || (there !== null && there.score > weighed.score - options.rivalBelow);
  });
  const told = gate('support', 'rivalTurns', left.length, hanging.bound, hanging.limit);
  return gates.map((one) => (one === hanging ? told : one));
}

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
