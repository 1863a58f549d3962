import { Ajv2020 } from 'ajv/dist/2020.js';
import { beforeAll, describe, expect, it } from 'vitest';
import type { ChangeComparison } from '../../src/core/changeBetween.ts';
import { type ChangeReport, changeJsonSchema, makeChangeReport, validateChange } from '../../src/core/report/index.ts';
import { compareDates } from '../bench/change/grade.ts';
import { twoDates } from '../bench/change/twoDates.ts';
import { paradataFixture } from './fixture.ts';

const small = { sizeMm: 18, maxVertices: 14_000, negative: false, repeats: true };

describe('the report of one object on two dates', () => {
  let comparison: ChangeComparison;
  let report: ChangeReport;
  beforeAll(async () => {
    comparison = await compareDates(twoDates(12, 'loss', small));
    report = makeChangeReport(comparison, paradataFixture);
  });

  it('has a record that its schema admits, in this language and as JSON Schema', () => {
    const { record } = report;
    const json = JSON.parse(JSON.stringify(record));
    expect(validateChange(json)).toEqual(record);
    expect(new Ajv2020({ strict: false, validateFormats: false }).validate(changeJsonSchema(), json)).toBe(true);
    expect(record).toMatchObject({ schema: 'ectype/change/1', judged: true, why: null });
    expect(record.noise?.from).toBe('repeats');
    expect(record.repeats).toMatchObject({
      earlier: { file: 'earlier-again.ply' },
      later: { file: 'later-again.ply' },
    });
    expect(record.changes[0]).toMatchObject({ direction: 'lowered' });
    expect(() => validateChange({ ...json, registration: null })).toThrow(RangeError);
    expect(() => validateChange({ ...json, changes: [{ ...json.changes[0], causes: [] }] })).toThrow(/causes/);
  });

  it('asks no question of matrices', () => {
    const { judge: _none, ...rest } = report.record;
    expect(_none).toBeUndefined();
    expect(JSON.stringify(rest)).not.toMatch(/sameMatrix|madeFrom|hypotheses/);
  });

  it('has two pages with the sentence, both dates, the map, every cause and every limit', () => {
    const { html, record } = report;
    expect(html.match(/<section class="sheet/g)).toHaveLength(2);
    expect(html).toContain('id="figure-dates"');
    expect(html).toContain('id="figure-change"');
    expect(html).toContain('chipped or flaked');
    expect(html).toContain('mm³');
    for (const { words } of record.limits) expect(html).toContain(words.replaceAll("'", '&#39;').slice(0, 40));
    expect(html.replaceAll(/data:[^)"]*/g, '')).not.toMatch(/NaN|undefined/);
    expect([...report.files.keys()].sort()).toEqual(['captions.txt', 'change.svg', 'changes.csv', 'dates.svg']);
  });

  it('says why where nothing can be judged, and draws the dates alone', () => {
    const none = makeChangeReport({ ...comparison, result: { judged: false, why: 'noFit' } }, paradataFixture);
    expect(none.record).toMatchObject({ judged: false, why: 'noFit', registration: null, changes: [] });
    expect(none.html).toContain(none.record.sentence);
    expect(none.files.has('change.svg')).toBe(false);
  });
});
