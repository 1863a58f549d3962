import type { Together as Found, SharedMark } from '../../condition/index.ts';
import { contradictionWords, sharedAccidentWords } from '../words/states.ts';
import { placeRecord } from './rounded.ts';
import { stateRecord } from './stateRecord.ts';
import type { Together } from './togetherSchema.ts';

/**
 * What several subjects say together as plain JSON, lengths in mm to 0.01, outlines as x, y pairs in the reference's face frame.
 * `names`: the subjects' files, in order. `dates`: words from documents by subject; an empty text is none. `turnDeg`: by which the
 * pictures stand upright, and places are told.
 */
export function togetherRecord(
  found: Found,
  names: readonly string[],
  dates: readonly string[] = [],
  turnDeg = 0,
): Together {
  const stated = dates.map((words, subject) => ({ subject, words: words.trim() })).filter(({ words }) => words !== '');
  return {
    marks: found.marks.map((mark) => markRecord(mark, turnDeg)),
    order: found.order.map((step) => ({ ...step, marks: [...step.marks] })),
    againstReference: found.againstReference.map(({ subject, ownMarks, ...state }) => ({
      subject,
      ...stateRecord(state),
      ownMarks: [...ownMarks],
    })),
    contradictions: found.contradictions.map((each) => ({
      subjects: each.one === null ? [each.two] : [each.one, each.two],
      marks: [...each.onlyOne, ...each.onlyTwo],
      words: contradictionWords(each, names),
    })),
    sharedAccidents: found.sharedAccidents.map((each) => ({
      subjects: [...each.subjects],
      mark: each.mark,
      causes: [...each.causes],
      words: sharedAccidentWords(each, names),
    })),
    composite: found.composite.map(({ subject, fraction }) => ({ subject, fraction: rounded(fraction, 4) })),
    ...(stated.length > 0 && { dates: stated }),
  };
}

const markRecord = ({ at, seen, outline, ...mark }: SharedMark, turnDeg: number) => ({
  ...mark,
  at: placeRecord(at, turnDeg),
  seen: [...seen],
  outline: Array.from(outline, (value) => rounded(value, 2)),
});

const rounded = (value: number, places: number): number => Number(value.toFixed(places));
