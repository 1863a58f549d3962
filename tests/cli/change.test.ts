import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { validateChange } from '../../src/core/report/index.ts';
import { twoDates } from '../bench/change/twoDates.ts';
import { ectype } from './run.ts';

const small = { sizeMm: 18, maxVertices: 14_000, negative: false, repeats: true };

describe('ectype change', () => {
  let folder = '';
  const path = (name: string): string => join(folder, name);
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'ectype-change-'));
    const { earlier, later, repeats } = twoDates(12, 'loss', small);
    writeFileSync(path('earlier.ply'), earlier.scan.bytes);
    writeFileSync(path('later.ply'), later.scan.bytes);
    writeFileSync(path('again.ply'), (repeats?.earlier ?? earlier).scan.bytes);
    writeFileSync(path('later-again.ply'), (repeats?.later ?? later).scan.bytes);
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('writes the record, two pages, figures and the table, and says what changed', () => {
    const repeats = ['--repeat', `earlier=${path('again.ply')}`, '--repeat', `later=${path('later-again.ply')}`];
    const scans = [path('earlier.ply'), path('later.ply')];
    const ran = ectype('change', ...scans, '--unit', 'mm', ...repeats, '--out', path('out'));
    expect(ran.stderr).toBe('');
    expect(ran.status).toBe(0);
    expect(ran.stdout).toMatch(/changed between the two scans.*mm³ are gone/s);
    const record = validateChange(JSON.parse(readFileSync(path('out/record.json'), 'utf8')));
    expect(record.noise?.from).toBe('repeats');
    for (const name of ['report.html', 'change.svg', 'change.png', 'dates.png', 'changes.csv'])
      expect(readFileSync(path(`out/${name}`)).length).toBeGreaterThan(100);
  });

  it.each([
    ['one scan', ['earlier.ply'], []],
    ['no place for the result', ['earlier.ply', 'later.ply'], ['--unit', 'mm']],
    ['a repeat of nobody', ['earlier.ply', 'later.ply'], ['--repeat', 'subject=again.ply', '--json', '-']],
    [
      'an output that is a repeat',
      ['earlier.ply', 'later.ply'],
      ['--repeat', 'earlier=again.ply', '--json', 'again.ply'],
    ],
  ])('refuses %s', (_, scans, options) => {
    const placed = options.map((option) =>
      option.replace(/(^|=)([\w-]+\.ply)$/, (_all, lead, name) => `${lead}${path(name)}`),
    );
    const { status, stdout, stderr } = ectype('change', ...scans.map(path), ...placed);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^ectype: [^\n]{10,}[.)]\n$/);
  });
});
