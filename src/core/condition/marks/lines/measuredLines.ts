import type { HeightGrid } from '../../../geometry/index.ts';
import type { WearRelief } from '../../relief/relief.ts';
import type { Mark } from '../../types.ts';
import type { carrierSurfaces } from './carrierSurface.ts';
import type { Chain } from './chains.ts';
import { lineSection } from './lineSection.ts';
import type { LineMark } from './lines.ts';
import { type LineMeasure, measureLine } from './measureLine.ts';

/** A line and its size. */
export interface MeasuredLine extends LineMark {
  readonly measured: LineMeasure;
}

export function measureOf(relief: WearRelief, { chain, carriedBy }: LineMark): LineMeasure {
  return measureLine(relief.reference, surfaceOf(relief, chain, carriedBy), chain);
}

/**
 * Whether a line strays by no more than this share of its length: its cells, or, since one end of these may hook into a form beside, the middle of its section,
 * places far off left out.
 */
export function isStraight(
  relief: WearRelief,
  line: MeasuredLine,
  surfaces: ReturnType<typeof carrierSurfaces>,
  mostStray: number,
): boolean {
  const { chain } = line;
  if (chain.strayMm < mostStray * chain.lengthMm) return true;
  const section = sectionOf(relief, line, surfaces).measured;
  return section !== null && section.strayMm < mostStray * section.lengthMm;
}

export function sectionOf({ reference }: WearRelief, line: MeasuredLine, surfaces: ReturnType<typeof carrierSurfaces>) {
  const { chain, carriedBy, measured } = line;
  return lineSection(surfaces(carriedBy, chain), chain, reference, isRaised(line) ? 1 : -1, measured.widthMm);
}

export const isRaised = ({ carriedBy, onReferenceMm, onSubjectMm }: LineMark): boolean =>
  (carriedBy === 'reference' ? onReferenceMm : onSubjectMm) > 0;

/** What a line is measured on: the difference, or where there is none of it the face or faces that carry it. */
function surfaceOf(
  { reference, subject, difference: d }: WearRelief,
  { cells }: Chain,
  carriedBy: Mark['carriedBy'],
): Float32Array {
  const heights = ({ z, mask }: HeightGrid): Float32Array => z.map((value, i) => (mask[i] ? value : Number.NaN));
  if (carriedBy === 'both')
    return heights(reference).map((z, i) => (subject.mask[i] ? (z + subject.z[i]) / 2 : Number.NaN));
  const seen = cells.filter((i) => !Number.isNaN(d[i])).length;
  if (seen > 0.5 * cells.length) return d;
  return heights(carriedBy === 'reference' ? reference : subject);
}
