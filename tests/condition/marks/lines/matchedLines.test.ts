import { describe, expect, it } from 'vitest';
import { differenceLines, type LineMark } from '../../../../src/core/condition/marks/lines/lines.ts';
import { matchedLines } from '../../../../src/core/condition/marks/lines/matchedLines.ts';
import { lossField } from '../../../../src/core/condition/relief/loss.ts';
import { designHeight, pair, pitch, type Surface } from '../../pressedSeal.ts';

/** A crack one cell wide that wanders inward from the rim, `high` on whatever it crosses; `along` counts from the rim, mm. */
const cracked =
  (high: number, length = 13): Surface =>
  (x, y) => {
    const along = 17 - x;
    const aside = Math.abs(y - 0.5 * Math.sin(along / 3) - 0.12 * along);
    return designHeight(x, y) + (x > 0 && along > 0 && along < length && aside < 0.6 * pitch ? high : 0);
  };

const noiseMm = 0.025;
const matched = (subject: Surface, reference: Surface): LineMark[] => matchedIn(pair(subject, reference, noiseMm));
const matchedIn = (seen: ReturnType<typeof pair>): LineMark[] => matchedLines(seen, lossField(seen));
const onWay = ({ chain }: LineMark): boolean => Math.abs(chain.y - 0.12 * (17 - chain.x)) < 0.8 && chain.x > 3;

describe('matchedLines', () => {
  it('finds a crack that no single cell shows, on whichever face carries it, where lines of single cells are too faint', () => {
    const seen = pair(cracked(0.075), designHeight, noiseMm);
    const later = matchedIn(seen);
    expect(later.map(({ carriedBy }) => carriedBy)).toEqual(['subject']);
    expect(later.every(onWay)).toBe(true);
    expect(later[0].onSubjectMm).toBeGreaterThan(0.03);
    expect(differenceLines(seen, lossField(seen)).filter(onWay)).toEqual([]);
    const earlier = matched(designHeight, cracked(0.075));
    expect(earlier.map(({ carriedBy }) => carriedBy)).toEqual(['reference']);
    expect(earlier.every(onWay)).toBe(true);
  });

  it('says nothing of two scans of one surface, of a crack on both, nor of a short piece whose length does not make up for the noise', () => {
    expect(matched(designHeight, designHeight)).toEqual([]);
    expect(matched(cracked(0.075), cracked(0.075))).toEqual([]);
    expect(matched(cracked(0.06, 4), designHeight)).toEqual([]);
  });

  it('leaves a line alone of which the other face keeps a third, as a worn stroke does', () => {
    expect(matched(cracked(0.2), cracked(0.07))).toEqual([]);
    expect(matched(cracked(0.2), designHeight).filter(onWay)).toHaveLength(1);
  });

  it('leaves alone what the reference shows where the subject has lost the narrow forms about it', () => {
    const rubbed: Surface = (x, y) => (x > 4 ? 0.2 : 1) * designHeight(x, y);
    expect(matched(rubbed, cracked(0.15)).filter(onWay)).toEqual([]);
  });

  it('leaves alone what the reference shows on a form that was pressed down, where one beside it that is as high was pressed as well', () => {
    // A crack on a plateau, and 2 mm beside it a plateau as high as the crack.
    const plateaus =
      (crack: number, other: number): Surface =>
      (x, y) => {
        const along = x > 1 && x < 12;
        const raised = along && Math.abs(y - 1) < 1.5 ? 1.2 + (Math.abs(y - 1) < 0.6 * pitch ? crack : 0) : 0;
        return Math.max(designHeight(x, y), raised, along && Math.abs(y + 3) < 1.5 ? 1.2 + other : 0);
      };
    const high = plateaus(0.15, 0.15);
    expect(matched(plateaus(0, 0.15), high)).toHaveLength(1);
    expect(matched(plateaus(0, 0), high)).toEqual([]);
  });

  it('takes a cut that runs for most of its way between two forms, by what it is where the other face is bare', () => {
    const forms: Surface = (x, y) =>
      designHeight(x, y) + (x > -7 && x < -2 && Math.abs(Math.abs(y + 7) - 0.7) < 0.35 ? 0.4 : 0);
    const cut: Surface = (x, y) => forms(x, y) + (x > -7 && x < 1 && Math.abs(y + 7) < 0.6 * pitch ? 0.2 : 0);
    for (const [subject, reference, carrier] of [
      [cut, forms, 'subject'],
      [forms, cut, 'reference'],
    ] as const) {
      const found = matchedIn(pair(subject, reference));
      expect(found.map(({ carriedBy }) => carriedBy)).toEqual([carrier]);
      expect(found[0].chain.lengthMm).toBeGreaterThan(6);
    }
  });

  it('leaves alone a border that stands lower on the other face and is gone there in a few places', () => {
    const border =
      (high: number, gone: number): Surface =>
      (x, y) =>
        cracked((17 - x) % 3 < 1 ? gone : high)(x, y);
    expect(matched(border(0.5, 0.15), border(0.38, 0)).filter(onWay)).toEqual([]);
    expect(matched(border(0.15, 0.15), border(0, 0)).filter(onWay)).toHaveLength(1);
  });

  it('makes no line of bubbles in a row', () => {
    const bubble = (x: number, y: number, at: number) => (Math.hypot(x - at, y) < 0.4 ? 0.3 : 0);
    const row: Surface = (x, y) => designHeight(x, y) + [6.4, 7.9, 9.4].reduce((sum, at) => sum + bubble(x, y, at), 0);
    expect(matched(row, designHeight)).toEqual([]);
  });

  it('makes no line of strokes that the other face lacks, where they lie in line over ground that is bare on both', () => {
    const strokes: Surface = (x, y) => {
      const onStroke = [4.3, 6.3, 8.3, 10.3].some((at) => Math.abs(x - at) < 0.35);
      return designHeight(x, y) + (onStroke && Math.abs(y) < 0.6 * pitch ? 0.2 : 0);
    };
    expect(matched(designHeight, strokes)).toEqual([]);
    expect(matched(strokes, designHeight)).toEqual([]);
  });

  it('leaves a line that is one of many as high about it, as strokes of a design are that the other face shows lower', () => {
    const hatched =
      (count: number): Surface =>
      (x, y) => {
        const nearest = Math.min(count, Math.max(-count, Math.round(y / 1.5)));
        return designHeight(x, y) + (x > 7 && x < 11.5 && Math.abs(y - 1.5 * nearest) < 0.6 * pitch ? 0.15 : 0);
      };
    const inTheMiddle = ({ chain }: LineMark): boolean => Math.abs(chain.y) < 0.5;
    expect(matched(hatched(0), designHeight).filter(inTheMiddle)).toHaveLength(1);
    expect(matched(hatched(4), designHeight).filter(inTheMiddle)).toEqual([]);
  });

  it('leaves what keeps along the edge, as the foot of a wall does, and takes the same arc farther in', () => {
    const arc =
      (radius: number): Surface =>
      (x, y) =>
        designHeight(x, y) + (y > Math.abs(x) && Math.abs(Math.hypot(x, y) - radius) < 0.6 * pitch ? 0.15 : 0);
    expect(matched(arc(16.4), designHeight)).toEqual([]);
    expect(matched(arc(8), designHeight)).toHaveLength(1);
  });

  it('reads a groove of one face as no ridge of the other', () => {
    expect(matched(cracked(-0.1), designHeight)).toEqual([]);
    expect(matched(designHeight, cracked(-0.1))).toEqual([]);
  });
});
