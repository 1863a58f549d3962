import { describe, expect, it } from 'vitest';
import type { FoundMark } from '../../../src/core/condition/marks/index.ts';
import { composite } from '../../../src/core/condition/states/composite.ts';
import type { SubjectFindings } from '../../../src/core/condition/states/joinMarks.ts';
import { type SeenOnTwo, stateOrder } from '../../../src/core/condition/states/stateOrder.ts';
import { tellingMarks } from '../../../src/core/condition/states/tellingMarks.ts';
import type { WearState } from '../../../src/core/condition/types.ts';
import { wearLabel } from '../../../src/core/condition/wear/labels.ts';

const sizeMm = 40;
const mark = (more: object): FoundMark =>
  ({
    shape: 'cut',
    raised: true,
    volumeMm3: 1,
    carriedBy: 'reference',
    otherIsSound: true,
    matched: true,
    lengthMm: 20,
    ...more,
  }) as unknown as FoundMark;
const tells = (more: object): boolean => tellingMarks([mark(more)], sizeMm).length === 1;

describe('the marks that tell of a matrix’s state', () => {
  it('are raised, of a shape that a matrix keeps: lines measured on both faces however low, other marks of 0.3 mm³ or more', () => {
    for (const shape of ['cut', 'crack', 'scratch', 'line', 'region']) expect(tells({ shape })).toBe(true);
    for (const shape of ['pit', 'bubble', 'smear', 'chip']) expect(tells({ shape })).toBe(false);
    expect(tells({ raised: false })).toBe(false);
    expect(tells({ volumeMm3: 0.01 })).toBe(true);
    expect(tells({ matched: undefined })).toBe(false);
    for (const large of [
      { shape: 'region', lengthMm: 1 },
      { carriedBy: 'both', lengthMm: 24, matched: undefined },
    ]) {
      expect(tells({ ...large, volumeMm3: 0.3 })).toBe(true);
      expect(tells({ ...large, volumeMm3: 0.299 })).toBe(false);
    }
  });

  it('are no letter that the reference alone has deeper, and nothing of the subject where the other could not show it', () => {
    // Dirt in the matrix of the other does the same, whichever of the two is the lower.
    expect(tells({ shape: 'recut', carriedBy: 'subject' })).toBe(false);
    expect(tells({ shape: 'recut', carriedBy: 'reference' })).toBe(false);
    expect(tells({ carriedBy: 'subject', otherIsSound: false })).toBe(false);
    expect(tells({ carriedBy: 'reference', otherIsSound: false })).toBe(true);
    expect(tells({ carriedBy: 'subject', otherIsSound: true })).toBe(true);
  });

  it('are letters that no other of the legend equals, however small', () => {
    const letter = { shape: 'recut', matched: undefined, unequalled: true, volumeMm3: 0.01, lengthMm: 1 };
    expect(tells(letter)).toBe(true);
    expect(tells({ ...letter, unequalled: undefined })).toBe(false);
    expect(tells({ ...letter, raised: false })).toBe(false);
  });

  it('are lines of 0.12 of the face, or of 0.6 on both', () => {
    expect(tells({ lengthMm: 4.8 })).toBe(true);
    expect(tells({ lengthMm: 4.7 })).toBe(false);
    expect(tells({ lengthMm: 24, carriedBy: 'both' })).toBe(true);
    expect(tells({ lengthMm: 24, carriedBy: 'both', shape: 'scratch' })).toBe(false);
    expect(tells({ lengthMm: 23.9, carriedBy: 'both' })).toBe(false);
  });
});

describe('the order of two states', () => {
  const seen = (id: string, first: SeenOnTwo['first'], second: SeenOnTwo['second']): SeenOnTwo => ({
    id,
    first,
    second,
  });
  const a = seen('a', 'present', 'absent');
  const b = seen('b', 'absent', 'present');

  it('is turned round when the two are exchanged', () => {
    const lists = [
      [a],
      [b],
      [a, b],
      [seen('c', 'present', 'present')],
      [seen('d', 'present', 'cannotJudge')],
      [],
      [a, seen('c', 'present', 'present'), seen('d', 'cannotJudge', 'present')],
    ];
    const turned: Record<string, string> = { firstHas: 'secondHas', secondHas: 'firstHas' };
    for (const marks of lists) {
      const there = stateOrder(marks);
      const back = stateOrder(marks.map(({ id, first, second }) => ({ id, first: second, second: first })));
      expect(back.code).toBe(turned[there.code] ?? there.code);
    }
  });

  it('is said by the marks that say so, and those alone', () => {
    const rest = [seen('c', 'present', 'present'), seen('d', 'present', 'cannotJudge'), seen('e', 'absent', 'absent')];
    expect(stateOrder([...rest, a])).toEqual({ code: 'firstHas', marks: ['a'] });
    expect(stateOrder([...rest, b])).toEqual({ code: 'secondHas', marks: ['b'] });
    expect(stateOrder([...rest, a, b])).toEqual({ code: 'bothWays', onlyFirst: ['a'], onlySecond: ['b'] });
    expect(stateOrder(rest)).toEqual({ code: 'hidden', marks: ['d'] });
    expect(stateOrder([rest[0], rest[2], seen('f', 'absent', 'cannotJudge')])).toEqual({
      code: 'shared',
      marks: ['c'],
    });
    expect(stateOrder([rest[2]])).toEqual({ code: 'noneSeen', marks: [] });
  });
});

describe('the composite', () => {
  const map = (states: readonly (WearState | null)[], left = 0, turned = false) => ({
    width: states.length,
    height: 1,
    pitch: 1,
    left,
    top: 0,
    turned,
    labels: Uint8Array.from(states, (state) => (state ? wearLabel(state) : 0)),
  });
  const findings = (wearMap: object, fitted = true): SubjectFindings =>
    ({ fitted, wearMap }) as unknown as SubjectFindings;

  it('takes each cell of the first fitted map from who is soundest there: sharp, worn, added, none', () => {
    const first = map(['lower', 'lower', 'lost', 'added', 'cannotJudge', 'sharp', null]);
    const second = map(['sharp', 'lower', 'added', 'clogged', 'lost', 'sharp', 'sharp']);
    const share = composite([findings(first), findings(second)]);
    // Lower against lower and sharp against sharp stay with the first; the cell outside counts for nobody.
    expect(share.map(({ subject, fraction }) => [subject, Math.round(6 * fraction)])).toEqual([
      [0, 2],
      [1, 3],
    ]);
  });

  it('leaves out who did not fit, and has nothing where nobody did', () => {
    const [worn, sharp] = [map(['lower', 'lower']), map(['sharp', 'sharp'])];
    expect(composite([findings(sharp, false), findings(worn)])).toEqual([
      { subject: 0, fraction: 0 },
      { subject: 1, fraction: 1 },
    ]);
    expect(composite([findings(sharp, false)])).toEqual([{ subject: 0, fraction: 0 }]);
  });

  it('looks up the same place on maps that begin elsewhere', () => {
    const share = composite([
      findings(map(['lower', 'lower', 'lower', 'lower'])),
      findings(map(['sharp', 'sharp'], 2)),
    ]);
    expect(share.map(({ fraction }) => fraction)).toEqual([0.5, 0.5]);
  });
});
