import { describe, expect, it } from 'vitest';
import type { FoundMark } from '../../../src/core/condition/marks/index.ts';
import { type SubjectFindings, together } from '../../../src/core/condition/states/together.ts';
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

const subject = (name: string, marks: FoundMark[], wearMap = mapOf(), fitted = true): SubjectFindings => ({
  name,
  fitted,
  marks,
  wearMap,
});

describe('together', () => {
  it('orders subjects by a cut that one shows and the other, sound there, lacks', () => {
    const result = together([subject('A', []), subject('B', [cutAt(0, 5)])]);
    expect(result.marks).toHaveLength(1);
    expect(result.marks[0].seen).toEqual(['absent', 'present']);
    expect(result.order).toEqual([{ earlier: 0, later: 1, marks: ['T1'] }]);
    expect(result.againstReference).toEqual([{ subject: 1, subjectIs: 'later', marks: ['T1'] }]);
    expect(result.contradictions).toEqual([]);
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
    expect(result.againstReference).toEqual([{ subject: 0, subjectIs: 'earlier', marks: ['T1'] }]);
  });

  it('flags contradictions instead of an order', () => {
    const result = together([subject('A', [cutAt(0, 5)]), subject('B', [cutAt(0, -8)])]);
    expect(result.order).toEqual([]);
    expect(result.contradictions).toHaveLength(1);
    expect(result.contradictions[0].subjects).toEqual([0, 1]);
    expect(result.contradictions[0].words).toContain('A shows T1 without T2');
  });

  it('joins one mark found in two comparisons and lists shared sunk marks as accidents of the wax', () => {
    const pit = (x: number): FoundMark => cutAt(x, 5, { shape: 'pit', onSubject: 'sunk', raised: false });
    const result = together([subject('A', [pit(0)]), subject('B', [pit(0.3)]), subject('C', [])]);
    expect(result.marks).toHaveLength(1);
    expect(result.sharedAccidents).toHaveLength(1);
    expect(result.sharedAccidents[0].subjects).toEqual([0, 1]);
    expect(result.order).toEqual([]);
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
