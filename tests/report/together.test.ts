import { describe, expect, it } from 'vitest';
import { datesFrom } from '../../src/cli/together.ts';
import type { Together as Found } from '../../src/core/condition/index.ts';
import {
  buildComparisons,
  buildRecord,
  togetherPage,
  togetherRecord,
  validateComparisons,
} from '../../src/core/report/index.ts';
import { orderDrawing } from '../../src/core/report/page/orderDrawing.ts';
import { comparisonFixture, paradataFixture } from './fixture.ts';

const names = ['<b>one</b>', 'two'];
const one = buildRecord(comparisonFixture({ pitch: 0.5 }), paradataFixture);
const found: Found = {
  marks: [
    {
      id: 'T1',
      shape: 'cut',
      at: { deg: 12.3456, hour: 12, radiusMm: 7.891 },
      raised: true,
      onReference: false,
      tells: true,
      seen: ['absent', 'present'],
      outline: Float64Array.of(0, 1, 2.34567, 1, 2, 3),
    },
  ],
  order: [{ earlier: 0, later: 1, marks: ['T1'] }],
  againstReference: [
    {
      subject: 0,
      reading: 'cannotJudge',
      reason: { code: 'tooLittleSound', soundFraction: 0.314 },
      marks: [],
      ownMarks: [],
    },
    { subject: 1, reading: 'subjectLater', reason: { code: 'subjectHas' }, marks: ['T1'], ownMarks: ['M3'] },
  ],
  contradictions: [{ one: 0, two: 1, onlyOne: ['T1'], onlyTwo: ['T2'] }],
  sharedAccidents: [{ subjects: [0, 1], mark: 'T4', causes: ['onTheMatrix', 'oneImpression'] }],
  composite: [
    { subject: 0, fraction: 0.6 },
    { subject: 1, fraction: 0.4 },
  ],
};

describe('several subjects in the record', () => {
  it('keeps marks, order and contradictions, outlines as plain numbers', () => {
    const record = buildComparisons([one, one], togetherRecord(found, names));
    expect(validateComparisons(JSON.parse(JSON.stringify(record)))).toEqual(record);
    expect(record.together.marks[0]).toMatchObject({
      seen: ['absent', 'present'],
      onReference: false,
      outline: [0, 1, 2.35, 1, 2, 3],
    });
    expect(record.together.order).toEqual([{ earlier: 0, later: 1, marks: ['T1'] }]);
    expect(record.together.againstReference?.[0]).toMatchObject({
      reading: 'cannotJudge',
      reason: { code: 'tooLittleSound', soundFraction: 0.314 },
      words: 'Only 31 % of the face could show a change.',
    });
    expect(record.together.dates).toBeUndefined();
  });

  it('changes nothing but the column of dates when dates are stated', () => {
    const { dates, ...rest } = togetherRecord(found, names, ['1310', ' ']);
    expect(rest).toEqual(togetherRecord(found, names));
    expect(dates).toEqual([{ subject: 0, words: '1310' }]);
  });
});

describe('the page of several subjects', () => {
  const page = togetherPage(buildComparisons([one, one], togetherRecord(found, names, ['', '<b>1310</b>'])));

  it('shows who has which mark, the order, contradictions and dates, with every word made safe', () => {
    expect(page).toContain('<td class="words">absent</td><td class="words">present</td>');
    expect(page).toMatch(/reads as earlier than .* \(T1\)/);
    expect(page).toContain('&lt;b&gt;one&lt;/b&gt; shows T1 without T2, and two the reverse: two matrices');
    expect(page).toContain('Only 31 % of the face could show a change.');
    expect(page).toMatch(/stood on the matrix when each was made.*or one impression had it/);
    expect(page).toContain('&lt;b&gt;1310&lt;/b&gt;');
    expect(page).not.toContain('<b>1310</b>');
    expect(page).toContain('nothing is worked out from them');
  });

  it('draws the partial order, earlier to the left, and nothing where the marks allow no step', () => {
    const drawing = orderDrawing(togetherRecord(found, ['one', 'two']), ['one', 'two', 'matrix']);
    const at = (text: string): number => {
      const mark = drawing?.marks.find((each) => each.kind === 'text' && each.text === text);
      return mark?.kind === 'text' ? mark.x : Number.NaN;
    };
    expect(at('one')).toBeLessThan(at('two'));
    expect(at('matrix')).toBeLessThan(at('two'));
    expect(drawing?.title).toContain('one before two');
    // A step over an object that stands between is drawn above its name.
    const order = [
      { earlier: 0, later: 1, marks: ['T1'] },
      { earlier: 1, later: 2, marks: ['T2'] },
      { earlier: 0, later: 2, marks: ['T3'] },
    ];
    const chain = orderDrawing(togetherRecord({ ...found, order, againstReference: [] }, ['a1', 'a2', 'a3']), [
      ...['a1', 'a2', 'a3', 'matrix'],
    ]);
    const heights = ['T1', 'a2', 'T3'].map((text) => {
      const mark = chain?.marks.find((each) => each.kind === 'text' && each.text === text);
      return mark?.kind === 'text' ? mark.y : Number.NaN;
    });
    expect(heights[2]).toBeLessThan(heights[0] - 12);
    expect(heights[2]).toBeGreaterThan(8);
    const none = { ...found, order: [], againstReference: [] };
    expect(orderDrawing(togetherRecord(none, ['one', 'two']), ['one', 'two', 'matrix'])).toBeNull();
  });

  it('carries limits, cautions, hashes and strength, and says that scans are simulated', () => {
    const simulated = buildComparisons([{ ...one, simulated: true }, one], togetherRecord(found, names));
    const said = togetherPage(simulated);
    expect(said).toContain('class="notice"');
    for (const part of ['Limits', 'Cautions', one.reference.sha256.slice(0, 32), 'for, moderate'])
      expect(said).toContain(part);
    expect(page).not.toContain('class="notice"');
  });

  it('begins with both seals of each pair', () => {
    const drawing = { width: 10, height: 10, marks: [], title: 'Two faces' };
    const faces = { id: 'faces', heading: 'The faces', drawing, caption: '' } as const;
    const said = togetherPage(buildComparisons([one, one], togetherRecord(found, names)), {
      faces: [faces, undefined],
    });
    expect(said.match(/The reference and /g)).toHaveLength(1);
    expect(said.indexOf('The reference and ')).toBeLessThan(said.indexOf('Order of states'));
  });

  it('asks nothing of the network', () => {
    expect(page).toContain("default-src 'none'");
  });
});

describe('datesFrom', () => {
  it('takes one text a subject in order, and refuses more', () => {
    expect(datesFrom('1284;;before 1310', 3)).toEqual(['1284', '', 'before 1310']);
    expect(datesFrom(undefined, 3)).toEqual([]);
    expect(() => datesFrom('1;2;3', 2)).toThrow(/3 dates for 2 subjects/);
  });
});
