import { describe, expect, it } from 'vitest';
import { type FoundMark, findMarks, placeOf } from '../../../src/core/condition/marks/index.ts';
import { lossField } from '../../../src/core/condition/relief/loss.ts';
import { stateOfTwoMatrices, stateReading } from '../../../src/core/condition/states/state.ts';
import { wearLabels } from '../../../src/core/condition/wear/labels.ts';
import type { Face } from '../../../src/core/face/index.ts';
import { lineWords, readingWords } from '../../../src/core/report/words/index.ts';
import { cellsWhere, designHeight, inBand, pair, type Surface, sizeMm } from '../pressedSeal.ts';

/** Distance from the line through (x0, y0) at `deg`, and place along it, mm. */
const toLine = (x: number, y: number, x0: number, y0: number, deg: number): [number, number] => {
  const c = Math.cos((deg * Math.PI) / 180);
  const s = Math.sin((deg * Math.PI) / 180);
  return [(y - y0) * c - (x - x0) * s, (x - x0) * c + (y - y0) * s];
};

/** A ridge (or groove, with a negative depth) `depth` high and `width` wide along a line, over a surface. */
const scored =
  (base: Surface, line: { x: number; y: number; deg: number; half: number; width: number; depth: number }): Surface =>
  (x, y) => {
    const [aside, along] = toLine(x, y, line.x, line.y, line.deg);
    const h = base(x, y);
    if (Math.abs(along) > line.half || Math.abs(aside) > line.width / 2) return h;
    const crest = Math.abs(line.depth) * (1 - Math.abs(aside) / (line.width / 2));
    // A cut scores the face to a depth and passes over what is deeper; a scratch is sunk into what stands there.
    return line.depth > 0 ? Math.max(h, crest) : h - crest;
  };

const relief = { sense: 'relief' } as Face;
const intaglio = { sense: 'intaglio' } as Face;

function marksOf(subject: Surface, reference: Surface = designHeight): FoundMark[] {
  const seen = pair(subject, reference);
  const loss = lossField(seen);
  const band = cellsWhere(seen.reference, inBand);
  return findMarks(seen, loss, wearLabels(seen, loss), band, { reference: intaglio, subject: relief });
}

const cut = { x: 0, y: -5, deg: 20, half: 14, width: 0.9, depth: 0.5 };
const scratch = { x: -4, y: 7, deg: -35, half: 5, width: 0.6, depth: -0.3 };
const shortCrack = { x: -8, y: 2, deg: 70, half: 1.3, width: 0.5, depth: 0.25 };

describe('findMarks', () => {
  it('finds nothing on a face against itself', () => {
    expect(marksOf(designHeight)).toEqual([]);
  });

  it('finds a cut that only the reference has, and says that the subject lacks it', () => {
    const [mark, ...rest] = marksOf(designHeight, scored(designHeight, cut));
    expect(rest).toEqual([]);
    expect(mark).toMatchObject({ carriedBy: 'reference', onSubject: 'absent', raised: true, shape: 'cut' });
    expect(mark.otherIsSound).toBe(true);
    expect(Math.abs(mark.depthMm - 0.5)).toBeLessThan(0.12);
    expect(mark.lengthMm).toBeGreaterThan(22);
    // A triangle half as wide at half its height, scanned at 0.2 mm; it scores the face to one level.
    const { section } = mark;
    expect(section?.verdict).toBe('cut');
    expect(Math.abs((section?.measured?.section.widthMm ?? 0) - 0.45)).toBeLessThan(0.1);
    expect(section?.measured?.level?.forLevel).toBeGreaterThan(2.5);
    expect(section && lineWords(section)).toMatch(
      /(keeping one level of|absent where the design stands higher than) 0\.[45]\d mm: a cut\.$/,
    );
    expect(readingWords(mark.readings[0])).toMatch(/later than the impression, or the wax did not take it/);
  });

  it('finds a cut that only the subject has, raised', () => {
    const [mark] = marksOf(scored(designHeight, cut));
    expect(mark).toMatchObject({ carriedBy: 'subject', onSubject: 'raised', shape: 'cut' });
    expect(mark.readings.length).toBeGreaterThan(1);
  });

  it('finds a scratch on the subject, sunk, with its place and its size', () => {
    const [mark, ...rest] = marksOf(scored(designHeight, scratch));
    expect(rest).toEqual([]);
    expect(mark).toMatchObject({ carriedBy: 'subject', onSubject: 'sunk' });
    const want = placeOf(scratch.x, scratch.y);
    expect(Math.abs(mark.at.deg - want.deg)).toBeLessThan(8);
    expect(Math.abs(mark.at.radiusMm - want.radiusMm)).toBeLessThan(1);
    expect(mark.at.hour).toBe(11);
    // A triangular section: half the width at half the depth, volume depth × width × length / 2.
    expect(Math.abs(mark.depthMm - 0.3)).toBeLessThan(0.06);
    expect(Math.abs(mark.volumeMm3 - 0.5 * 0.3 * 0.6 * 10)).toBeLessThan(0.3);
  });

  it('finds a line of 0.25 mm by 2.6 mm', () => {
    const marks = marksOf(scored(designHeight, shortCrack));
    expect(marks.some(({ carriedBy, onSubject }) => carriedBy === 'subject' && onSubject === 'raised')).toBe(true);
  });

  it('finds a cut that both carry, which shows in no difference', () => {
    const both = scored(designHeight, { ...cut, half: 30 });
    const marks = marksOf(both, both);
    expect(marks).toHaveLength(1);
    expect(marks[0]).toMatchObject({ carriedBy: 'both', onSubject: 'raised', shape: 'cut' });
    expect(marks[0].readings[0].code).toBe('madeAfterIt');
  });

  it('finds a pit and a bubble with area and depth, and does not call rubbed tops marks', () => {
    const pitted: Surface = (x, y) => {
      const pit = Math.hypot(x + 8, y - 2);
      const bead = Math.hypot(x - 7, y + 6);
      return (
        designHeight(x, y) - (pit < 1 ? 0.5 * (1 - pit * pit) : 0) + (bead < 0.9 ? 0.4 * (1 - (bead / 0.9) ** 2) : 0)
      );
    };
    const rubbed: Surface = (x, y) => Math.min(pitted(x, y), 0.5 + 0.5 * (pitted(x, y) - 0.5));
    const marks = marksOf(rubbed);
    expect(marks.map(({ shape, onSubject }) => [shape, onSubject]).sort()).toEqual([
      ['bubble', 'raised'],
      ['pit', 'sunk'],
    ]);
    const pit = marks.find(({ shape }) => shape === 'pit') as FoundMark;
    expect(Math.abs(pit.areaMm2 - Math.PI)).toBeLessThan(1);
    expect(Math.abs(pit.depthMm - 0.5)).toBeLessThan(0.1);
  });

  it('finds a letter cut deeper on one of the two, and not one that is merely rubbed', () => {
    const oneLetter =
      (factor: number): Surface =>
      (x, y) => {
        const phi = ((Math.atan2(y, x) / (2 * Math.PI)) * 24 + 24) % 24;
        return (
          designHeight(x, y) *
          (inBand(x, y) && Math.floor(phi) === 5 && Math.hypot(x, y) < 16 && Math.hypot(x, y) > 12 ? factor : 1)
        );
      };
    expect(marksOf(oneLetter(1.5))[0]).toMatchObject({ shape: 'recut', carriedBy: 'subject', onSubject: 'raised' });
    expect(marksOf(designHeight, oneLetter(1.5))[0]).toMatchObject({ shape: 'recut', carriedBy: 'reference' });
    expect(marksOf(oneLetter(0.7)).filter(({ shape }) => shape === 'recut')).toEqual([]);
  });
});

describe('placeOf', () => {
  it.each([
    [0, 5, 0, 12],
    [5, 0, 90, 3],
    [0, -5, 180, 6],
    [-5, 0, 270, 9],
    [-0.4, 5, 355.4, 12],
  ])('puts (%s, %s) at %s°, %s o’clock', (x, y, deg, hour) => {
    const at = placeOf(x, y);
    expect(at.deg).toBeCloseTo(deg, 1);
    expect(at.hour).toBe(hour);
    expect(at.radiusMm).toBeCloseTo(Math.hypot(x, y), 9);
  });
});

describe('stateReading', () => {
  const onReference = marksOf(designHeight, scored(designHeight, cut));
  const onSubject = marksOf(scored(designHeight, cut));
  const onBoth = onReference.map((mark): FoundMark => ({ ...mark, carriedBy: 'both', onSubject: 'raised' }));

  it('reads the subject as the earlier where it lacks a cut on sound ground, and as the later where it alone has one', () => {
    expect(stateReading(onReference, 0.9, sizeMm)).toMatchObject({ reading: 'subjectEarlier', marks: ['M1'] });
    expect(stateReading(onSubject, 0.9, sizeMm)).toMatchObject({ reading: 'subjectLater', marks: ['M1'] });
  });

  it('reads one state from a cut that both carry, if enough of the face could show a change', () => {
    expect(stateReading(onBoth, 0.9, sizeMm)).toMatchObject({ reading: 'sameState', marks: ['M1'] });
    expect(stateReading(onBoth, 0.3, sizeMm)).toMatchObject({
      reading: 'cannotJudge',
      reason: { code: 'tooLittleSound', soundFraction: 0.3 },
    });
  });

  it('takes a short line that both carry for strokes of the design', () => {
    const short = onBoth.map((mark) => ({ ...mark, lengthMm: 0.4 * sizeMm }));
    expect(stateReading(short, 0.9, sizeMm).reading).toBe('cannotJudge');
  });

  it('cannot judge where the ground is not sound, where marks contradict, or where there is none', () => {
    const onWorn = (marks: readonly FoundMark[]): FoundMark[] =>
      marks.map((mark) => ({ ...mark, otherIsSound: false }));
    expect(stateReading(onWorn(onReference), 0.9, sizeMm)).toMatchObject({
      reading: 'cannotJudge',
      reason: { code: 'hidden' },
    });
    expect(stateReading(onWorn(onSubject), 0.9, sizeMm).reading).toBe('cannotJudge');
    expect(stateReading([...onBoth, ...onWorn(onSubject)], 0.9, sizeMm).reading).toBe('sameState');
    expect(stateReading([...onReference, ...onSubject], 0.9, sizeMm)).toMatchObject({
      reading: 'cannotJudge',
      reason: { code: 'bothWays' },
    });
    expect(stateReading([], 0.9, sizeMm)).toMatchObject({
      reading: 'cannotJudge',
      reason: { code: 'noneSeen' },
    });
  });

  it('draws nothing from sunk marks and pits, nor from faces of two matrices', () => {
    expect(stateReading(marksOf(scored(designHeight, scratch)), 0.9, sizeMm).reading).toBe('cannotJudge');
    expect(stateOfTwoMatrices).toMatchObject({
      reading: 'cannotJudge',
      marks: [],
      reason: { code: 'twoMatrices' },
    });
    expect(stateReading(onReference, 0.9, sizeMm).reading).toBe('subjectEarlier');
  });
});
