import type { FoundMark } from '../marks/index.ts';

export const stateDefaults = {
  /** Share of the face that must be filled, unworn and scanned before "no change" is said. */
  leastSound: 0.4,
  /** Marks smaller than this say nothing of the matrix's state, mm³, but for lines that were measured on both faces. */
  leastVolumeMm3: 0.3,
  /** Nor do lines shorter than this share of the face: short ones may be strokes of letters misplaced. */
  leastLength: 0.12,
  /** A line that both carry is taken for the matrix's, and not for strokes in a row, from this share of the face. */
  leastSharedLength: 0.6,
};

/** Lines that a matrix acquires once and keeps. */
const lines = new Set<FoundMark['shape']>(['cut', 'crack', 'scratch', 'line']);
/** Of what both carry: a ruled line of the design, in line with letters, has the section of a scratch. */
const shared = new Set<FoundMark['shape']>(['cut', 'crack']);

/**
 * Those marks of one pair that tell of the matrix's state; the only ones that order objects, two or many: raised, and a line that was measured on both faces
 * along its own way (matchedLines.ts), or one that both carry from side to side, a letter that no other of its legend equals (lettersAnew.ts; one that is only higher than on the other face
 * tells nothing: dirt that clogged the other's matrix, then or today, does the same), or a large region. `sizeMm`: the image's longer side.
 */
export function tellingMarks(
  marks: readonly FoundMark[],
  sizeMm: number,
  options: typeof stateDefaults = stateDefaults,
): FoundMark[] {
  return marks.filter((mark) => {
    // What the subject alone has where the other could not show it is as well the break's.
    if (!mark.raised || (mark.carriedBy === 'subject' && !mark.otherIsSound)) return false;
    if (mark.shape === 'recut') return mark.unequalled === true;
    if (!lines.has(mark.shape)) return mark.shape === 'region' && mark.volumeMm3 >= options.leastVolumeMm3;
    if (mark.carriedBy !== 'both') return mark.matched === true && mark.lengthMm >= sizeMm * options.leastLength;
    return (
      shared.has(mark.shape) &&
      mark.volumeMm3 >= options.leastVolumeMm3 &&
      mark.lengthMm >= sizeMm * options.leastSharedLength
    );
  });
}
