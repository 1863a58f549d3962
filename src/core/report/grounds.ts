import type { FigureId } from './figures/figure.ts';
import type { ComparisonRecord } from './record/schema.ts';

/** What a finding can rest on. */
export type GroundCode =
  | 'places'
  | 'relief'
  | 'nothingCorresponds'
  | 'cells'
  | 'sharedMarks'
  | 'state'
  | 'size'
  | 'wear';

/** One piece of the argument: what it speaks for, and the figure on which it can be seen. */
export interface Ground {
  readonly code: GroundCode;
  /** One matrix, another one, or neither: then it says what happened, and nothing of who cut it. */
  readonly favours: 'one' | 'another' | 'neither';
  readonly figure: FigureId;
}

/** Most grounds that one argument is made of. */
export const mostGrounds = 6;

/** Below this, in powers of ten, the places favour neither. */
const leastScore = 0.3;

/**
 * The grounds of a finding in the order of their weight: what decided first (the places of letters; without a fit, that
 * nothing corresponds), what agrees with it but is not weighed, then what happened to the two. Numbers stay in the
 * record; this says which of them make the argument.
 */
export function groundsOf(record: ComparisonRecord): Ground[] {
  if (!record.fit.found) return [{ code: 'nothingCorresponds', favours: favoursWithoutFit(record), figure: 'faces' }];
  const grounds: (Ground | null)[] = [
    placesGround(record),
    { code: 'relief', favours: record.judge.finding === 'otherDesign' ? 'another' : 'one', figure: 'difference' },
    cellsGround(record),
    record.damage.some(({ carriedBy }) => carriedBy === 'both')
      ? { code: 'sharedMarks', favours: 'one', figure: 'marks' }
      : null,
    record.judge.state.marks.length > 0 ? { code: 'state', favours: 'neither', figure: 'difference' } : null,
    record.size.ratio === null ? null : { code: 'size', favours: 'neither', figure: 'section' },
    wholeHeightKept(record) === null ? null : { code: 'wear', favours: 'neither', figure: 'wavelengths' },
  ];
  return grounds.filter((ground) => ground !== null).slice(0, mostGrounds);
}

const favoursWithoutFit = ({ judge }: ComparisonRecord): Ground['favours'] =>
  judge.finding === 'otherDesign' ? 'another' : 'neither';

function placesGround({ judge }: ComparisonRecord): Ground | null {
  if (!judge.landmarks?.seen || judge.score === null) return null;
  const favours = judge.score > leastScore ? 'one' : judge.score < -leastScore ? 'another' : 'neither';
  return { code: 'places', favours, figure: 'constellation' };
}

function cellsGround({ judge: { cells } }: ComparisonRecord): Ground | null {
  if (cells.compared === 0) return null;
  return { code: 'cells', favours: 2 * cells.congruent >= cells.compared ? 'one' : 'neither', figure: 'cells' };
}

/** Height kept over the whole image; null where it was not measured. */
export const wholeHeightKept = ({ wear }: ComparisonRecord): number | null =>
  wear.zones.find(({ zone }) => zone === 'whole')?.heightKept ?? null;
