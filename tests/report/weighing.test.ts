import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import type { Evidence, Gate } from '../../src/core/judge/index.ts';
import { plain } from '../../src/core/report/figures/figure.ts';
import { makeReport, reportFileNames } from '../../src/core/report/index.ts';
import { number } from '../../src/core/report/page/html.ts';
import { rounded } from '../../src/core/report/record/rounded.ts';
import { comparisonFixture, paradataFixture } from './fixture.ts';

const base = comparisonFixture({ pitch: 0.4 });
const neither = { favours: 'neither', over: 'neither' } as const;
const gates: Gate[] = [
  { group: 'support', code: 'scoreFor', value: 0.7839, bound: 'atLeast', limit: 2, passed: false },
  { group: 'against', code: 'overlap', value: 0.412, bound: 'atLeast', limit: 0.4, passed: true },
];
const weighed = {
  ...base,
  judgement: {
    ...base.judgement,
    score: 0.7839,
    interval: [-0.2, 1.41] as const,
    evidence: [
      { code: 'nowhereNear', ...neither, value: 0 },
      { code: 'size', ...neither, value: 1.025161, sd: 0.004355 },
      { code: 'accidentsShared', ...neither, value: 0, found: 6 },
    ] satisfies Evidence[],
    gates,
  },
};
const report = makeReport(weighed, paradataFixture, { withoutFigures: true });

/** Rows of the page's table whose caption begins so, as the reader sees them. */
function rowsOf(caption: string): string[][] {
  const tables = report.html.match(/<table><caption>[\s\S]*?<\/table>/g) ?? [];
  const [found] = tables.filter((table) => table.startsWith(`<table><caption>${caption}`));
  const [, body] = found.split('<tbody>');
  return body
    .split('</tr>')
    .map((row) =>
      [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/g)].map(([, cell]) => cell.replace(/<\/?span[^>]*>/g, '')),
    )
    .filter((row) => row.length > 0);
}

describe('the weighing on the page', () => {
  it('prints the score with what it is without one part of the face after another', () => {
    expect(report.html).toContain('Score that the finding rests on: +0.78');
    expect(report.html).toContain('between −0.20 and +1.41');
    expect(report.record.judge.interval).toEqual([-0.2, 1.41]);
  });

  it('prints a ratio to its uncertainty, a count whole, and a share of nothing like its likes', () => {
    const values = new Map(rowsOf('What each piece of evidence').map((row) => [row[0], row[1]]));
    expect(values.get('size')).toBe('1.0252 ± 0.0044');
    expect(values.get('accidents shared')).toBe('0 of 6');
    expect(values.get('places nowhere near')).toBe('0.000');
  });

  it('prints every threshold with what was held against it, and carries it in the record and the table', () => {
    expect(rowsOf('From the numbers')).toEqual([
      ['supported', 'score', 'at least 2.000', '0.784', 'no'],
      ['against', 'share of the smaller face that kept weight in the fit', 'at least 0.400', '0.412', 'yes'],
    ]);
    expect(report.record.judge.gates).toHaveLength(2);
    const numbers = report.files.get('numbers.csv') as string;
    expect(numbers).toContain(`judge.score,${rounded(weighed.judgement.score, 4)},1,`);
    expect(numbers).toContain('judge.evidence.size,1.025161,1,0.004355');
  });

  it('says where the steps of the strength begin, and that they are none of a likelihood ratio', () => {
    expect(report.html).toContain('weak from +2.0, moderate from +4.0, strong from +8.0');
    expect(report.html).toContain('They are no steps of a likelihood ratio');
  });
});

describe('the report’s files', () => {
  it('have no name that a later run into the same folder would not clear away', () => {
    for (const name of makeReport(weighed, paradataFixture, { across: 120, pngWidth: 300 }).files.keys())
      expect(reportFileNames).toContain(name);
  });
});

describe('numbers in captions', () => {
  it('are rounded as the record’s are in the tables, so that the two never differ in the last digit', () => {
    const random = seededRandom(5);
    for (let k = 0; k < 2000; k++) {
      const value = random.between(-1, 1);
      expect(plain(value, 3)).toBe(number(rounded(value, 4), 3));
    }
    // 0.05951 is 0.0595 in the record, and that is printed 0.059 or 0.060, but the same in both.
    expect(plain(0.05951, 3)).toBe(number(0.0595, 3));
  });
});

describe('simulated scans', () => {
  it('are called so by the word of the file itself, whatever its name', () => {
    const named = (simulated?: true) => {
      const side = (prepared: typeof base.reference) => ({
        ...prepared,
        scan: { ...prepared.scan, name: 'wax.ply', ...(simulated && { simulated }) },
      });
      return { ...base, reference: side(base.reference), subject: side(base.subject) };
    };
    const notice = (simulated?: true): boolean =>
      makeReport(named(simulated), paradataFixture, { withoutFigures: true }).html.includes('class="notice"');
    expect(notice(true)).toBe(true);
    expect(notice()).toBe(false);
  });
});
