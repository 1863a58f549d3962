import type { LineMark } from './lines/lines.ts';

export const strokeDefaults = {
  /** The face that shows less has at least this share of the line: a mark that it lacks leaves less. */
  leastShare: 0.15,
  /** So much of the line lies within the legend, and it is no longer than this share of the size, as strokes are. */
  withinLegend: 0.7,
  longest: 0.12,
};

/**
 * The face on which a raised line of one of them stands lower, where the line is a stroke of a letter that the other shows fuller;
 * null for a line of its own. Where that face is a matrix, dirt or corrosion fills the stroke; where it is an impression, the wax was not pressed so
 * deep or is rubbed, and there is no mark. `band`: cells of the legend; `sizeMm`: the image's longer side.
 */
export function lowerStroke(
  { chain, carriedBy, onReferenceMm, onSubjectMm }: LineMark,
  band: Uint8Array,
  sizeMm: number,
  options = strokeDefaults,
): 'reference' | 'subject' | null {
  if (carriedBy === 'both' || chain.lengthMm > options.longest * sizeMm) return null;
  const [fuller, lower] = carriedBy === 'subject' ? [onSubjectMm, onReferenceMm] : [onReferenceMm, onSubjectMm];
  if (!(fuller > 0 && lower > options.leastShare * fuller)) return null;
  const within = chain.cells.filter((i) => band[i] === 1).length;
  if (within < options.withinLegend * chain.cells.length) return null;
  return carriedBy === 'subject' ? 'reference' : 'subject';
}
