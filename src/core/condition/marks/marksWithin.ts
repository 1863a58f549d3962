import type { WearRelief } from '../relief/relief.ts';
import { cellsOfMark } from './cellOutline.ts';
import type { FoundMark } from './foundMark.ts';
import { markDefaults } from './markDefaults.ts';

/** The marks that lie within the marked cells by `leastWithin` of their own, numbered anew. */
export function marksWithin(
  relief: Pick<WearRelief, 'reference' | 'turned'>,
  marks: readonly FoundMark[],
  marked: Uint8Array,
  { leastWithin } = markDefaults,
): FoundMark[] {
  const shareOf = (mark: FoundMark): number => {
    const cells = cellsOfMark(relief, mark);
    return cells.filter((i) => marked[i]).length / Math.max(1, cells.length);
  };
  return numbered(marks.filter((mark) => shareOf(mark) >= leastWithin));
}

/** Marks named M1, M2 and so on in their order. */
export const numbered = (marks: readonly FoundMark[]): FoundMark[] =>
  marks.map((mark, k) => ({ ...mark, id: `M${k + 1}` }));
