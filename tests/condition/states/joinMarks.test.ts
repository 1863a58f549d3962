import { describe, expect, it } from 'vitest';
import type { FoundMark } from '../../../src/core/condition/marks/index.ts';
import { joinMarks, type SubjectFindings } from '../../../src/core/condition/states/joinMarks.ts';
import { wearLabel } from '../../../src/core/condition/wear/labels.ts';

const square = (x: number, y: number, half: number): Float64Array =>
  Float64Array.of(x - half, y - half, x + half, y - half, x + half, y + half, x - half, y + half);
const mark = (x: number, y: number, more: Partial<FoundMark> & { half?: number } = {}): FoundMark => {
  const { half = 0.2, ...rest } = more;
  const plain = { id: 'D1', shape: 'cut', at: {}, raised: true, carriedBy: 'subject', otherIsSound: true } as const;
  return { ...plain, outline: square(x, y, half), ...rest } as unknown as FoundMark;
};

/** A subject with these marks, all telling, on a map of 1 mm cells from −10 to 10 that is sound but where `worn` says. */
function subject(marks: readonly FoundMark[], worn: (x: number, y: number) => boolean = () => false): SubjectFindings {
  const labels = Uint8Array.from({ length: 441 }, (_, i) =>
    wearLabel(worn((i % 21) - 10, 10 - Math.floor(i / 21)) ? 'lower' : 'sharp'),
  );
  const wearMap = { width: 21, height: 21, pitch: 1, left: -10, top: 10, turned: false, labels };
  return { fitted: true, marks, telling: marks.map(({ id }) => id), wearMap } as unknown as SubjectFindings;
}

const count = (a: FoundMark, b: FoundMark): number => joinMarks([subject([a]), subject([b])]).length;

describe('marks of several pairs', () => {
  it('are one where their middles lie within 1.2 mm, in any direction', () => {
    for (const [x, y] of [
      [1.15, 0],
      [0, -1.15],
      [-0.8, 0.8],
    ])
      expect(count(mark(0, 0), mark(x, y)), `${x}, ${y}`).toBe(1);
    for (const [x, y] of [
      [1.25, 0],
      [0, -1.25],
      [-0.9, 0.9],
    ])
      expect(count(mark(0, 0), mark(x, y)), `${x}, ${y}`).toBe(2);
  });

  it('are one within half the extent of the smaller where that is more', () => {
    // Corners of a square of half side 4 lie 5.66 mm from its middle: half of it is 2.83.
    const wide = { half: 4 };
    expect([count(mark(0, 0, wide), mark(2.7, 0, wide)), count(mark(0, 0, wide), mark(2.9, 0, wide))]).toEqual([1, 2]);
    expect(count(mark(0, 0, wide), mark(2.7, 0))).toBe(2);
  });

  it('are two where one stands up and the other lies in, and where one subject has both', () => {
    expect(count(mark(0, 0), mark(0, 0, { raised: false }))).toBe(2);
    expect(joinMarks([subject([mark(0, 0), mark(0.1, 0, { id: 'D2' })])])).toHaveLength(2);
  });

  it('are absent where nothing was found on sound ground, and not judged where most of it is worn', () => {
    const seen = (worn: (x: number, y: number) => boolean) =>
      joinMarks([subject([mark(0, 0, { half: 3 })]), subject([], worn)])[0].seen;
    expect(seen(() => false)).toEqual(['present', 'absent']);
    expect(seen(() => true)).toEqual(['present', 'cannotJudge']);
    // Four corners and the middle: with one of the five worn more than six tenths are sound, with two they are not.
    expect(seen((x, y) => x > 2 && y > 2)).toEqual(['present', 'absent']);
    expect(seen((x) => x > 2)).toEqual(['present', 'cannotJudge']);
  });

  it('are present on a subject without a difference where the reference has them', () => {
    const [joined] = joinMarks([subject([mark(0, 0, { carriedBy: 'both' })]), subject([])]);
    expect([joined.onReference, joined.tells, ...joined.seen]).toEqual([true, true, 'present', 'present']);
  });

  it('are not judged where two findings say otherwise of the reference, or the pair was not fitted', () => {
    const disputed = joinMarks([
      subject([mark(0, 0, { carriedBy: 'subject' })]),
      subject([mark(0, 0, { carriedBy: 'reference' })]),
      subject([]),
    ]);
    expect(disputed).toHaveLength(1);
    expect(disputed[0].seen[2]).toBe('cannotJudge');
    const apart = { ...subject([]), fitted: false } as SubjectFindings;
    expect(joinMarks([subject([mark(0, 0)]), apart])[0].seen).toEqual(['present', 'cannotJudge']);
  });

  it('tell of the state where one subject shares a line that crosses the design and another lacks it on sound ground', () => {
    const shared = { carriedBy: 'both', crosses: true } as const;
    const lacked = { carriedBy: 'reference', otherIsSound: true } as const;
    const seen = (one: Partial<FoundMark>, two: Partial<FoundMark>) => {
      // Neither tells of the state in its own pair.
      const [a, b] = [one, two].map((more) => ({ ...subject([mark(0, 0, more)]), telling: [] }));
      return joinMarks([a, b]).map((each) => (each.tells ? each.seen : 'tells nothing'));
    };
    expect(seen(shared, lacked)).toEqual([['present', 'absent']]);
    expect(seen(lacked, shared)).toEqual([['absent', 'present']]);
    for (const [one, two] of [
      [{ ...shared, crosses: false }, lacked],
      [shared, { ...lacked, otherIsSound: false }],
      [shared, shared],
      [lacked, lacked],
      [
        { ...shared, raised: false },
        { ...lacked, raised: false },
      ],
    ] as const)
      expect(seen(one, two)).toEqual(['tells nothing']);
  });
});
