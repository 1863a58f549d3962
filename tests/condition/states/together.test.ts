import { describe, expect, it } from 'vitest';
import type { FoundMark } from '../../../src/core/condition/marks/index.ts';
import type { SubjectFindings } from '../../../src/core/condition/states/joinMarks.ts';
import { stateOfUndecided, stateReading } from '../../../src/core/condition/states/state.ts';
import { tellingMarks } from '../../../src/core/condition/states/tellingMarks.ts';
import { together } from '../../../src/core/condition/states/together.ts';
import { type WearMap, wearLabel } from '../../../src/core/condition/wear/labels.ts';

/** A map of 40 × 40 mm, all sharp but for what `unsound` says. */
function mapOf(unsound: (x: number, y: number) => boolean = () => false): WearMap {
  const labels = new Uint8Array(41 * 41);
  for (let i = 0; i < labels.length; i++) {
    const x = -20 + (i % 41);
    const y = 20 - Math.floor(i / 41);
    labels[i] = unsound(x, y) ? wearLabel('lost') : wearLabel('sharp');
  }
  return { width: 41, height: 41, pitch: 1, left: -20, top: 20, turned: false, labels };
}

function cutAt(x: number, y: number, over: Partial<FoundMark> = {}): FoundMark {
  return {
    id: 'M1',
    carriedBy: 'subject',
    onSubject: 'raised',
    raised: true,
    otherIsSound: true,
    matched: true,
    shape: 'cut',
    at: { deg: 0, hour: 12, radiusMm: Math.hypot(x, y) },
    areaMm2: 8,
    depthMm: 0.4,
    volumeMm3: 2,
    lengthMm: 10,
    readings: [],
    outline: Float64Array.of(x - 5, y - 0.4, x + 5, y - 0.4, x + 5, y + 0.4, x - 5, y + 0.4),
    ...over,
  };
}

const sizeMm = 40;

const subject = (name: string, marks: FoundMark[], wearMap = mapOf(), fitted = true): SubjectFindings => ({
  name,
  fitted,
  marks,
  telling: tellingMarks(marks, sizeMm).map(({ id }) => id),
  state: stateReading(marks, 0.9, sizeMm),
  wearMap,
});

describe('together', () => {
  it('orders subjects by a cut that one shows and the other, sound there, lacks', () => {
    const result = together([subject('A', []), subject('B', [cutAt(0, 5)])]);
    expect(result.marks).toHaveLength(1);
    expect(result.marks[0].seen).toEqual(['absent', 'present']);
    expect(result.order).toEqual([{ earlier: 0, later: 1, marks: ['T1'] }]);
    expect(result.againstReference).toMatchObject([
      { subject: 0, reading: 'cannotJudge', reason: { code: 'noneSeen' }, marks: [] },
      { subject: 1, reading: 'subjectLater', reason: { code: 'subjectHas' }, marks: ['T1'], ownMarks: ['M1'] },
    ]);
    expect(result.contradictions).toEqual([]);
  });

  it('orders nobody whose own pair is undecided: the object may be of another matrix', () => {
    const unsure = (one: SubjectFindings): SubjectFindings => ({ ...one, state: stateOfUndecided(one.state) });
    const [a, b, c] = [subject('A', []), subject('B', [cutAt(0, 5)]), subject('C', [])];
    expect(together([a, b, c]).order).toHaveLength(2);
    expect(together([a, b, unsure(c)]).order).toEqual([{ earlier: 0, later: 1, marks: ['T1'] }]);
    const result = together([a, unsure(b), c]);
    expect(result.order).toEqual([]);
    // What lies on it is listed all the same.
    expect(result.marks[0].seen).toEqual(['absent', 'present', 'absent']);
    expect(result.againstReference[1]).toMatchObject({ reading: 'cannotJudge', reason: { code: 'undecided' } });
  });

  it('says cannot judge, and orders nothing, where the other is lost there or did not fit', () => {
    const lost = together([
      subject(
        'A',
        [],
        mapOf((_, y) => y > 2),
      ),
      subject('B', [cutAt(0, 5)]),
    ]);
    expect(lost.marks[0].seen).toEqual(['cannotJudge', 'present']);
    expect(lost.order).toEqual([]);
    const unfitted = together([subject('A', [], mapOf(), false), subject('B', [cutAt(0, 5)])]);
    expect(unfitted.marks[0].seen).toEqual(['cannotJudge', 'present']);
  });

  it('takes a mark of the reference as present on subjects that show no difference there', () => {
    const onReference = cutAt(0, 5, { carriedBy: 'reference', onSubject: 'absent' });
    const result = together([subject('A', [onReference]), subject('B', [])]);
    expect(result.marks[0]).toMatchObject({ onReference: true, seen: ['absent', 'present'] });
    expect(result.order).toEqual([{ earlier: 0, later: 1, marks: ['T1'] }]);
    expect(result.againstReference[0]).toMatchObject({ subject: 0, reading: 'subjectEarlier', marks: ['T1'] });
  });

  it('flags contradictions instead of an order', () => {
    const result = together([subject('A', [cutAt(0, 5)]), subject('B', [cutAt(0, -8)])]);
    expect(result.order).toEqual([]);
    expect(result.contradictions).toEqual([{ one: 0, two: 1, onlyOne: ['T1'], onlyTwo: ['T2'] }]);
  });

  it('joins one mark found in two comparisons and lists shared sunk marks with both their causes', () => {
    const pit = (x: number): FoundMark => cutAt(x, 5, { shape: 'pit', onSubject: 'sunk', raised: false });
    const result = together([subject('A', [pit(0)]), subject('B', [pit(0.3)]), subject('C', [])]);
    expect(result.marks).toHaveLength(1);
    expect(result.sharedAccidents).toEqual([
      { subjects: [0, 1], mark: 'T1', causes: ['onTheMatrix', 'oneImpression'] },
    ]);
    expect(result.order).toEqual([]);
  });

  it('orders nothing by what the pair does not read: a short stroke of a letter, clogged letters, a mark beside a break, a line not measured on both faces', () => {
    const untold: Partial<FoundMark>[] = [
      { lengthMm: 4 },
      { shape: 'recut', carriedBy: 'reference', onSubject: 'absent' },
      { otherIsSound: false },
      { carriedBy: 'both', lengthMm: 20 },
      { matched: undefined },
    ];
    for (const over of untold) {
      const result = together([subject('A', []), subject('B', [cutAt(0, 5, over)])]);
      expect(result.order).toEqual([]);
      expect(result.marks[0].tells).toBe(false);
      expect(result.againstReference[1].reading).toBe('cannotJudge');
    }
  });

  it('misses no mark on a subject that has one of its own there, even one that does not tell', () => {
    const short = subject('A', [cutAt(0.4, 5, { lengthMm: 4 })]);
    const result = together([short, subject('B', [cutAt(0, 5)])]);
    expect(result.marks[0].seen).toEqual(['cannotJudge', 'present']);
    expect(result.order).toEqual([]);
  });

  it('keeps the own reading of a pair that has no part in the marks', () => {
    const lone = { ...subject('A', [cutAt(0, 5)], mapOf(), false) };
    const result = together([lone, subject('B', [])]);
    expect(result.againstReference[0]).toMatchObject({ reading: 'subjectLater', marks: [], ownMarks: ['M1'] });
    expect(result.order).toEqual([]);
  });

  it('names the reference where a pair’s own marks speak both ways', () => {
    const marks = [cutAt(0, 5), cutAt(0, -8, { id: 'M2', carriedBy: 'reference', onSubject: 'absent' })];
    const result = together([subject('A', marks)]);
    expect(result.contradictions).toEqual([{ one: null, two: 0, onlyOne: ['T2'], onlyTwo: ['T1'] }]);
    expect(result.againstReference[0]).toMatchObject({ reading: 'cannotJudge', reason: { code: 'bothWays' } });
  });

  it('builds the composite from whoever is soundest', () => {
    const left = mapOf((x) => x > 0);
    const right = mapOf((x) => x <= 0);
    const { composite } = together([subject('A', [], left), subject('B', [], right)]);
    expect(composite[0].fraction + composite[1].fraction).toBeCloseTo(1, 9);
    expect(Math.abs(composite[0].fraction - 21 / 41)).toBeLessThan(1e-9);
  });

  it('does not depend on the order of the subjects', () => {
    const a = subject('A', []);
    const b = subject('B', [cutAt(0, 5)]);
    const one = together([a, b]).order[0];
    const two = together([b, a]).order[0];
    expect([one.earlier, one.later]).toEqual([0, 1]);
    expect([two.earlier, two.later]).toEqual([1, 0]);
  });
});
