import { describe, expect, it } from 'vitest';
import { placeAfter, widthOf } from '../../src/app/read/state/nextLetter.ts';
import { findLegendBand, readingX } from '../../src/core/design/index.ts';
import { stripFromFace, unroll } from '../../src/core/read/index.ts';
import { inkOf } from '../../src/workers/browser/readingStrip.ts';
import { engravedFace } from '../read/engravedFace.ts';

describe('where the next letter stands', () => {
  it('is within a third of a letter of the truth for nine of ten letters of engraved legends', () => {
    let [found, guessed, count] = [0, 0, 0];
    for (const seed of [1, 3, 9]) {
      const { face, letters, legend } = engravedFace(seed, { wear: 0.3 });
      const band = findLegendBand(face);
      if (!band) throw new Error(`no band on face ${seed}`);
      const strip = unroll(face.detail, band);
      const { pitch } = strip.grid;
      const letterMm = band.lettersInnerMm - band.lettersOuterMm;
      const places = letters.map(({ x, y }) => {
        const at = stripFromFace(strip, readingX(face.sense, x), y);
        return at ? at.column * pitch : Number.NaN;
      });
      const spaced = spacesIn(
        legend,
        letters.map(({ char }) => char),
      );
      const ink = { columns: inkOf(strip), pitchMm: pitch, letterMm };
      for (let i = 1; i < letters.length; i++) {
        // The strip's seam lies between some pair.
        if (!(places[i] > places[i - 1] && places[i] - places[i - 1] < 4 * letterMm)) continue;
        const of = (columns: Float32Array | null): number =>
          placeAfter({ ...ink, columns }, places[i - 1], letters[i - 1].char, letters[i].char, spaced[i]);
        if (Math.abs(of(ink.columns) - places[i]) < 0.35 * letterMm) found++;
        if (Math.abs(of(null) - places[i]) < 0.35 * letterMm) guessed++;
        count++;
      }
    }
    console.log(`next letters found: ${found} of ${count} on their relief, ${guessed} by widths alone`);
    expect(found / count).toBeGreaterThan(0.9);
    expect(found).toBeGreaterThanOrEqual(guessed);
  }, 180_000);

  it('scales with the letters, and grows with both widths where no relief is known', () => {
    const blind = (letterMm: number) => ({ columns: null, pitchMm: 0.1, letterMm });
    expect(placeAfter(blind(6), 0, 'A', 'B')).toBeCloseTo(2 * placeAfter(blind(3), 0, 'A', 'B'), 9);
    expect(placeAfter(blind(3), 0, 'M', 'M')).toBeGreaterThan(placeAfter(blind(3), 0, 'I', 'I'));
    expect(placeAfter(blind(3), 0, 'A', 'B', true)).toBeGreaterThan(placeAfter(blind(3), 0, 'A', 'B'));
    expect(widthOf('É')).toBe(widthOf('E'));
  });

  it('never runs off the strip', () => {
    const ink = { columns: new Float32Array(100), pitchMm: 0.1, letterMm: 3 };
    expect(placeAfter(ink, 9.8, 'A', 'B')).toBeCloseTo(9.9, 9);
  });
});

/** Whether something other than a letter stands before each letter. */
function spacesIn(legend: string, letters: readonly string[]): boolean[] {
  const out: boolean[] = [];
  let between = false;
  for (const char of legend) {
    if (char !== letters[out.length]) between = true;
    else {
      out.push(between);
      between = false;
    }
  }
  return out;
}
