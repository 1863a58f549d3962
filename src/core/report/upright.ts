import { type Upright, uprightOfFaces } from '../read/index.ts';
import type { ChangeComparison, Pair } from './input.ts';

/** How the pictures of a pair stand, and so from where the hours of its places are told: in the reference's face frame, in the impression's sense. */
export const uprightOf = ({ reference, subject, fit }: Pair): Upright =>
  uprightOfFaces(reference.face, subject.face, fit);

/** The same of two dates, in the earlier's frame. */
export const uprightOfDates = (comparison: ChangeComparison): Upright => uprightOf(pairOfDates(comparison));

/** The two faces as plates take them: the later laid by the registration, not by the first fit. */
export function pairOfDates({ earlier, later, fit, result }: ChangeComparison): Pair {
  const registered = result.judged
    ? {
        ...fit,
        chosen: 'rigid' as const,
        models: fit.models.map(({ warp: _warp, ...model }) => ({
          ...model,
          referenceFromSubject: result.earlierFromLater,
        })),
      }
    : fit;
  return { reference: earlier, subject: later, fit: registered };
}
