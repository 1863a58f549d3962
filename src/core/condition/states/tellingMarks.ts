import type { FoundMark } from '../marks/index.ts';

export const stateDefaults = {
  /** Share of the face that must be filled, unworn and scanned before "no change" is said. */
  leastSound: 0.4,
  /** Marks smaller than this say nothing of the matrix's state, mm³. */
  leastVolumeMm3: 0.3,
  /** Nor do cuts and cracks shorter than this share of the face: short ones may be strokes of letters misplaced. */
  leastLength: 0.12,
  /**
   * Up to this share they must also be plainly a cut or a crack, by this lead of their section, or run through the design as no
   * stroke does: a chip beside a form can look like a line.
   */
  plainLength: 0.25,
  plainLead: 1.2,
  /** Seen on less of its way than this and wider here than there by more than this (its pieces' spread over their mean), a line is spots in a row. */
  rowSeen: 0.75,
  rowSpread: 0.2,
  /** A line that both carry is taken for the matrix's, and not for strokes in a row, from this share of the face. */
  leastSharedLength: 0.6,
};

/** Shapes that a matrix acquires once and keeps. A letter higher on one of the two is none: dirt that clogged the matrix of the other, then or today, does the same. */
const lines = new Set<FoundMark['shape']>(['cut', 'crack', 'scratch', 'line']);
const ofTheMatrix = new Set<FoundMark['shape']>([...lines, 'region']);

/**
 * Those marks of one pair that tell of the matrix's state; the only ones that order objects, two or many. Raised, of a shape
 * that a matrix acquires once and keeps, large enough, and no stroke of the design in disguise. `sizeMm`: the face's long side.
 */
export function tellingMarks(
  marks: readonly FoundMark[],
  sizeMm: number,
  options: typeof stateDefaults = stateDefaults,
): FoundMark[] {
  return marks.filter(
    (mark) =>
      ofTheMatrix.has(mark.shape) &&
      mark.raised &&
      mark.volumeMm3 >= options.leastVolumeMm3 &&
      // What the subject alone has where the other could not show it is as well the break's.
      !(mark.carriedBy === 'subject' && !mark.otherIsSound) &&
      (!lines.has(mark.shape) || isLineOfItsOwn(mark, sizeMm, options)),
  );
}

/** Long enough to be no letter's stroke, or shorter and plainly a cut or a crack. A faint line must run through the design, on the subject: one that the
 * reference alone has may be a stroke rubbed away. */
function isLineOfItsOwn(mark: FoundMark, sizeMm: number, options: typeof stateDefaults): boolean {
  const least = mark.carriedBy === 'both' ? options.leastSharedLength : options.leastLength;
  if (mark.lengthMm < sizeMm * least || isRowOfSpots(mark, options)) return false;
  if (mark.faint) return mark.crosses === true && mark.carriedBy === 'subject';
  return mark.crosses === true || mark.lengthMm >= sizeMm * options.plainLength || isPlain(mark, options);
}

const isPlain = ({ section }: FoundMark, { plainLead }: typeof stateDefaults): boolean =>
  section !== undefined && section.verdict !== 'cannotTell' && section.lead >= plainLead;

/** A tool or a crack that stops and goes on keeps its width; bubbles in a row do not. */
const isRowOfSpots = ({ section }: FoundMark, { rowSeen, rowSpread }: typeof stateDefaults): boolean =>
  !!section?.measured && section.measured.seen < rowSeen && section.measured.section.widthSpread > rowSpread;
