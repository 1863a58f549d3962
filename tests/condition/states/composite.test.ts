import { describe, expect, it } from 'vitest';
import { composite } from '../../../src/core/condition/states/composite.ts';
import type { SubjectFindings } from '../../../src/core/condition/states/joinMarks.ts';
import type { WearState } from '../../../src/core/condition/types.ts';
import { wearLabel } from '../../../src/core/condition/wear/labels.ts';

type Cell = WearState | 'none';
const label = (state: Cell): number => (state === 'none' ? 0 : wearLabel(state));

/** A map of 1 mm cells, x from `left`, rows downwards from y = 0. */
function subject(rows: readonly (readonly Cell[])[], left = 0, fitted = true): SubjectFindings {
  const labels = Uint8Array.from(rows.flat(), label);
  const wearMap = { width: rows[0].length, height: rows.length, pitch: 1, left, top: 0, turned: false, labels };
  return { fitted, wearMap } as unknown as SubjectFindings;
}

const fractions = (...subjects: SubjectFindings[]): number[] => composite(subjects).map(({ fraction }) => fraction);

describe('who gives what to a composite', () => {
  it('is at each place the first of those that are soundest there', () => {
    const one = subject([['sharp', 'lower', 'lost', 'added']]);
    const two = subject([['sharp', 'sharp', 'lower', 'lower']]);
    expect(fractions(one, two)).toEqual([0.25, 0.75]);
    expect(fractions(two, one)).toEqual([1, 0]);
  });

  it('puts sound before worn, worn before added, and takes nothing that is lost, not seen or not judged', () => {
    for (const [better, worse] of [
      ['sharp', 'lower'],
      ['lower', 'added'],
      ['blurred', 'added'],
      ['added', 'lost'],
      ['added', 'cannotJudge'],
    ] as const)
      expect(fractions(subject([[worse]]), subject([[better]])), `${better} before ${worse}`).toEqual([0, 1]);
    expect(fractions(subject([['lost', 'sharp']]), subject([['cannotJudge', 'none']]))).toEqual([0.5, 0]);
  });

  it('counts the places of the first fitted map alone, and looks them up in the others by place', () => {
    // The second map lies one millimetre to the right: its first cell is the first map's second.
    const one = subject([['lost', 'lost', 'none']]);
    const two = subject([['sharp', 'sharp', 'sharp']], 1);
    expect(fractions(one, two)).toEqual([0, 0.5]);
    const below = subject([
      ['lost', 'sharp'],
      ['sharp', 'lost'],
    ]);
    expect(fractions(below, subject([['sharp']], 0))).toEqual([0.5, 0.25]);
  });

  it('has no part for what is not fitted, and is nothing where nothing is', () => {
    const apart = subject([['sharp', 'sharp']], 0, false);
    expect(fractions(apart, subject([['lower', 'lost']]))).toEqual([0, 0.5]);
    expect(fractions(apart, apart)).toEqual([0, 0]);
    expect(fractions(subject([['none']]))).toEqual([0]);
    expect(composite([apart, subject([['sharp']])]).map((each) => each.subject)).toEqual([0, 1]);
  });
});
