import { describe, expect, it } from 'vitest';
import { type Mark, placeOf } from '../../../src/core/condition/index.ts';
import { placeOfMark } from '../../../src/core/report/words/index.ts';

const mark = (shape: Mark['shape'], middle: readonly [number, number], outline: readonly number[]): Mark => ({
  id: 'a',
  carriedBy: 'reference',
  at: placeOf(...middle),
  areaMm2: 1,
  depthMm: 0.1,
  volumeMm3: 0.1,
  shape,
  onSubject: 'absent',
  readings: [],
  outline: Float64Array.from(outline),
});

/** Twelve o'clock is up and three o'clock right, as on a clock's face. */
describe('where a mark lies', () => {
  const cut = mark('cut', [0.5, 1], [17.3, 10, 17.3, 9.4, -16.3, -8, -16.3, -7.4]);
  const pit = mark('pit', [0, -14], [-1, -14, 1, -14, 0, -13]);

  it('says the hour and the distance of a small one', () => {
    expect(placeOfMark(pit, 0, 1)).toBe('6 o’clock, 14 mm from the middle');
    expect(placeOfMark(pit, 90, 1)).toBe('9 o’clock, 14 mm from the middle');
  });

  it('says of a line across the face where it begins and ends, whichever way it was followed', () => {
    expect(placeOfMark(cut, 0, 1)).toBe('across the face, from 2 to 8 o’clock');
    const back = mark('cut', [0.5, 1], [-16.3, -8, 17.3, 10]);
    expect(placeOfMark(back, 0, 1)).toBe('across the face, from 2 to 8 o’clock');
  });

  it('turns with the picture, and is told in the impression’s sense where the outline is the matrix’s', () => {
    expect(placeOfMark(cut, 60, 1)).toBe('across the face, from 4 to 10 o’clock');
    expect(placeOfMark(cut, 0, -1)).toBe('across the face, from 4 to 10 o’clock');
  });
});
