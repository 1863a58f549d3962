import type { Together as Found, SharedMark } from '../../condition/index.ts';
import type { Together } from './togetherSchema.ts';

/**
 * What several subjects say together as plain JSON, lengths in mm to 0.01, outlines as x, y pairs in the reference's face frame.
 * `dates`: words from documents by subject; an empty text is none.
 */
export function togetherRecord(found: Found, dates: readonly string[] = []): Together {
  const stated = dates.map((words, subject) => ({ subject, words: words.trim() })).filter(({ words }) => words !== '');
  return {
    marks: found.marks.map(markRecord),
    order: found.order.map((step) => ({ ...step, marks: [...step.marks] })),
    againstReference: found.againstReference.map((step) => ({ ...step, marks: [...step.marks] })),
    contradictions: found.contradictions.map((each) => ({
      ...each,
      subjects: [...each.subjects],
      marks: [...each.marks],
    })),
    sharedAccidents: found.sharedAccidents.map((each) => ({ ...each, subjects: [...each.subjects] })),
    composite: found.composite.map(({ subject, fraction }) => ({ subject, fraction: rounded(fraction, 4) })),
    ...(stated.length > 0 && { dates: stated }),
  };
}

const markRecord = ({ at, seen, outline, ...mark }: SharedMark) => ({
  ...mark,
  at: { deg: rounded(at.deg, 1), hour: at.hour, radiusMm: rounded(at.radiusMm, 2) },
  seen: [...seen],
  outline: Array.from(outline, (value) => rounded(value, 2)),
});

const rounded = (value: number, places: number): number => Number(value.toFixed(places));
