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
import { comparisonFixture, paradataFixture } from './fixture.ts';

const one = buildRecord(comparisonFixture({ pitch: 0.5 }), paradataFixture);
const found: Found = {
  marks: [
    {
      id: 'T1',
      shape: 'cut',
      at: { deg: 12.3456, hour: 12, radiusMm: 7.891 },
      raised: true,
      onReference: false,
      seen: ['absent', 'present'],
      outline: Float64Array.of(0, 1, 2.34567, 1, 2, 3),
    },
  ],
  order: [{ earlier: 0, later: 1, marks: ['T1'] }],
  againstReference: [{ subject: 1, subjectIs: 'later', marks: ['T1'] }],
  contradictions: [{ subjects: [0, 1], marks: ['T1'], words: 'one shows <T1> without T2' }],
  sharedAccidents: [],
  composite: [
    { subject: 0, fraction: 0.6 },
    { subject: 1, fraction: 0.4 },
  ],
};

describe('several subjects in the record', () => {
  it('keeps marks, order and contradictions, outlines as plain numbers', () => {
    const record = buildComparisons([one, one], togetherRecord(found));
    expect(validateComparisons(JSON.parse(JSON.stringify(record)))).toEqual(record);
    expect(record.together.marks[0]).toMatchObject({
      seen: ['absent', 'present'],
      onReference: false,
      outline: [0, 1, 2.35, 1, 2, 3],
    });
    expect(record.together.order).toEqual([{ earlier: 0, later: 1, marks: ['T1'] }]);
    expect(record.together.dates).toBeUndefined();
  });

  it('changes nothing but the column of dates when dates are stated', () => {
    const { dates, ...rest } = togetherRecord(found, ['1310', ' ']);
    expect(rest).toEqual(togetherRecord(found));
    expect(dates).toEqual([{ subject: 0, words: '1310' }]);
  });
});

describe('the page of several subjects', () => {
  const page = togetherPage(buildComparisons([one, one], togetherRecord(found, ['', '<b>1310</b>'])));

  it('shows who has which mark, the order, contradictions and dates, with every word made safe', () => {
    expect(page).toContain('<td class="words">absent</td><td class="words">present</td>');
    expect(page).toMatch(/reads as earlier than .* \(T1\)/);
    expect(page).toContain('one shows &lt;T1&gt; without T2');
    expect(page).toContain('&lt;b&gt;1310&lt;/b&gt;');
    expect(page).not.toContain('<b>1310</b>');
    expect(page).toContain('nothing is worked out from them');
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
