import { type Mark, placeOf } from '../../condition/index.ts';
import { placeTurned } from '../../read/index.ts';
import { clockHour } from './phrases.ts';
import { markWords } from './shapes.ts';

/** A mark by its place, as it is named in a sentence. `turnDeg`: of the picture it is seen in. */
export const namedMark = (mark: Mark, turnDeg: number): string =>
  endsAcross(mark)
    ? `the ${markWords[mark.shape]} across the face`
    : `the ${markWords[mark.shape]} at ${hourSeen(mark.at, turnDeg)} o’clock`;

/**
 * Where a mark lies, as it stands beside it in a list: a line across the face by where it begins and ends.
 * `flip`: −1 where x of the reference's face frame, in which the outline is, runs against the impression's.
 */
export function placeOfMark(mark: Mark, turnDeg: number, flip: 1 | -1): string {
  const ends = endsAcross(mark);
  if (!ends) return `${hourSeen(mark.at, turnDeg)} o’clock, ${Math.round(mark.at.radiusMm)} mm from the middle`;
  const [from, to] = ends.map(([x, y]) => hourSeen(placeOf(flip * x, y), turnDeg)).sort((a, b) => (a % 12) - (b % 12));
  return `across the face, from ${from} to ${to} o’clock`;
}

/**
 * The two places of its outline that are farthest apart, in the outline's frame, mm, of a mark that lies across the face: one that is much longer than
 * its middle is away from the face's has no hour of its own. Null of any other.
 */
function endsAcross({ outline, at }: Mark): readonly (readonly [x: number, y: number])[] | null {
  let [a, b, longest] = [0, 0, 0];
  for (let i = 0; i < outline.length; i += 2)
    for (let j = 0; j < i; j += 2) {
      const length = Math.hypot(outline[i] - outline[j], outline[i + 1] - outline[j + 1]);
      if (length > longest) [a, b, longest] = [i, j, length];
    }
  if (longest <= 3 * Math.max(1, at.radiusMm)) return null;
  return [a, b].map((k) => [outline[k], outline[k + 1]] as const);
}

const hourSeen = (at: Mark['at'], turnDeg: number): number => clockHour(placeTurned(at, turnDeg).hour);
