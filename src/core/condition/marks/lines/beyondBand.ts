import { columnOf, median, rowOf } from '../../../geometry/index.ts';
import type { WearRelief } from '../../relief/relief.ts';
import type { BandPlaces } from './bandChance.ts';
import { contrastsAcross, evenCourse, middleOf, type Place } from './contrasts.ts';
import type { LineMark } from './lines.ts';

export const beyondBandDefaults = {
  /** Distance of the two sides, mm: beyond those of letters' strokes. */
  field: { besideMm: 0.9 },
  farMm: 0,
  /** Places on either side from which the line's own way is taken, and over how much of it its middle is, mm. */
  reach: 6,
  courseMm: 0.5,
  /** Fewer places on either part say nothing. */
  leastPlaces: 5,
};

/**
 * How high a line stands beyond the legend's band over how high it stands within it: the ratio of the medians of c, the height over the mean of two sides
 * across its own way, along its whole course, mean of the faces that carry it. A mark has one section wherever it runs, and a crack thins out inward; a limb of the motif in line
 * with a letter's stroke is the higher of the two. 1 where either part is too short to tell.
 */
export function beyondOverWithin(
  relief: WearRelief,
  { chain, carriedBy }: Pick<LineMark, 'chain' | 'carriedBy'>,
  placeOf: BandPlaces['placeOf'],
  options = beyondBandDefaults,
): number {
  const { reference, subject } = relief;
  const course = evenCourse(reference, chain, options.courseMm);
  const faces = carriedBy === 'both' ? [reference, subject] : [relief[carriedBy]];
  const across = faces.map((face) => {
    const { rows } = contrastsAcross(face, course, options);
    return rows[middleOf(rows)];
  });
  const cellOf = ([x, y]: Place): number =>
    Math.round(rowOf(reference, y)) * reference.width + Math.round(columnOf(reference, x));
  const heightMm = (isPart: (place: number) => boolean): number | null => {
    const heights = course.flatMap((place, k) => {
      const value = across.reduce((sum, each) => sum + each[k], 0) / faces.length;
      return isPart(placeOf(cellOf(place))) && !Number.isNaN(value) ? [value] : [];
    });
    return heights.length < options.leastPlaces ? null : median(heights);
  };
  const within = heightMm((place) => place >= 0 && place <= 1);
  const beyond = heightMm((place) => place > 1);
  return within === null || beyond === null ? 1 : beyond / Math.max(within, 1e-6);
}
