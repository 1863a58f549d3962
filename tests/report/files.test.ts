import { decode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { rasteriser } from '../../src/cli/rasterise.ts';
import { beginReport, makeRecord, makeReport, numberRows } from '../../src/core/report/index.ts';
import type { MeasuredPair } from '../../src/core/report/input.ts';
import { writeCsv as csv } from '../../src/core/scan/index.ts';
import { comparisonFixture, paradataFixture, sectionFixture } from './fixture.ts';

/** A reader of RFC 4180 that shares nothing with the writer. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let [row, field, quoted] = [[] as string[], '', false];
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    if (quoted) {
      if (c === '"' && text[i + 1] === '"') field += text[++i];
      else if (c === '"') quoted = false;
      else field += c;
    } else if (c === '"') quoted = true;
    else if (c === ',') {
      row.push(field);
      field = '';
    } else if (c === '\r' && text[i + 1] === '\n') {
      rows.push([...row, field]);
      [row, field] = [[], ''];
      i++;
    } else field += c;
  }
  return rows;
}

const rasterise = await rasteriser();
const report = makeReport(comparisonFixture({ pitch: 0.4 }), paradataFixture, {
  section: sectionFixture(),
  across: 120,
  pngWidth: 400,
  rasterise,
});
const table = (name: string): string[][] => readCsv(report.files.get(name) as string);

describe('the files beside the page', () => {
  it('are each figure as SVG and PNG, the captions and three tables', () => {
    const ids = ['faces', 'difference', 'distribution', 'wavelengths', 'section', 'cells'];
    const expected = [
      'numbers.csv',
      'cells.csv',
      'marks.csv',
      ...ids.flatMap((id) => [`${id}.svg`, `${id}.png`]),
      'captions.txt',
    ];
    expect([...report.files.keys()].sort()).toEqual(expected.sort());
  });

  it('keep the proportions of the drawings in pixels, full width as asked', () => {
    const png = (name: string) => decode(report.files.get(name) as Uint8Array);
    expect(png('faces.png').width).toBe(400);
    expect(png('distribution.png').width).toBe(Math.round((400 * 350) / 720));
  });

  it('say what they show inside the picture file', () => {
    expect(decode(report.files.get('difference.png') as Uint8Array).text.Description).toMatch(
      /^Simulated scans\. The subject/,
    );
  });

  it('can be left out, with the figures or without', () => {
    const options = { across: 100, section: sectionFixture() };
    const comparison = comparisonFixture({ pitch: 0.5 });
    const none = makeReport(comparison, paradataFixture, { ...options, withoutFigures: true });
    expect(none.html).not.toContain('<svg');
    expect(makeRecord(comparison, paradataFixture)).toEqual(none.record);
    expect([...none.files.keys()]).toEqual(['numbers.csv', 'cells.csv', 'marks.csv']);
    const inPage = makeReport(comparison, paradataFixture, { ...options, withoutFigureFiles: true });
    expect(inPage.html).toContain('<svg');
    expect([...inPage.files.keys()]).toEqual(['numbers.csv', 'cells.csv', 'marks.csv']);
  });

  it('come out the same twice', () => {
    const again = makeReport(comparisonFixture({ pitch: 0.4 }), paradataFixture, {
      section: sectionFixture(),
      across: 120,
      pngWidth: 400,
      rasterise,
    });
    expect(again.html).toBe(report.html);
    for (const [name, content] of report.files) expect(again.files.get(name), name).toEqual(content);
  });

  it('come out the same where some were drawn before the pair was judged, each handed out to be painted once', () => {
    const comparison = comparisonFixture({ pitch: 0.4 });
    const handed: string[] = [];
    const options = { section: sectionFixture(), across: 120, paintElsewhere: (id: string) => handed.push(id) };
    const { judgement } = comparison;
    const places = { places: { tiles: judgement.cells } } as unknown as MeasuredPair['places'];
    const further = beginReport({ ...comparison, weighed: judgement, places }, options);
    expect(handed).toEqual(['faces', ...(further.unmarked ?? []).map(({ id }) => id)]);
    expect(handed).toEqual(expect.arrayContaining(['distribution', 'cells']));
    // Where the finding hangs on the surfaces, or nothing was measured, all but the faces wait.
    const waiting = beginReport({ ...comparison, weighed: null, places }, options);
    const unmeasured = beginReport({ ...comparison, difference: null, weighed: judgement, places }, options);
    for (const { unmarked } of [waiting, unmeasured]) expect(unmarked).toBeNull();
    for (const before of [waiting, further]) {
      const after = makeReport(comparison, paradataFixture, { ...options, begun: before });
      expect(after.html).toBe(report.html);
      expect(after.figures).toEqual(report.figures);
    }
  });
});

describe('the tables', () => {
  it('hold every number once, with its unit, as the record has it', () => {
    const [head, ...rows] = table('numbers.csv');
    expect(head).toEqual(['name', 'value', 'unit', 'sd']);
    expect(new Set(rows.map(([name]) => name)).size).toBe(rows.length);
    const expected = numberRows(report.record);
    expect(rows.length).toBe(expected.length);
    rows.forEach(([name, value, unit, sd], i) => {
      expect(name).toBe(expected[i].name);
      expect(value === '' ? null : Number(value)).toBe(expected[i].value);
      expect(['mm', 'degree', '1', 'count']).toContain(unit);
      expect(sd === '' ? null : Number(sd)).toBe(expected[i].sd);
    });
    const scale = rows.find(([name]) => name === 'fit.models.oneScale.scale') as string[];
    expect([Number(scale[1]), Number(scale[3])]).toEqual([1.015228, 0.0004]);
  });

  it('list each cell and each mark', () => {
    const [cellHead, ...cells] = table('cells.csv');
    expect(cells.length).toBe(report.record.judge.cells.compared);
    expect(cells.filter((row) => row[cellHead.indexOf('congruent')] === 'true').length).toBe(
      report.record.judge.cells.congruent,
    );
    const [markHead, ...marks] = table('marks.csv');
    expect(marks.map(([id]) => id)).toEqual(['M1', 'M2', 'M3']);
    for (const row of marks) expect(row.length).toBe(markHead.length);
    expect(marks[2][markHead.indexOf('area_mm2')]).toBe('');
  });

  it('survive commas, quotes and line breaks', () => {
    const rows = [
      ['a,b', 'say "so"'],
      ['two\r\nlines', ''],
    ];
    expect(readCsv(csv(rows))).toEqual(rows);
  });
});
