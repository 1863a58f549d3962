import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { decode } from 'fast-png';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { itemsOfLeiden, parseCard, toTei } from '../../src/core/read/index.ts';
import { captionWords } from '../../src/core/report/words/index.ts';
import { writePly } from '../../src/core/scan/index.ts';
import { broken } from '../read/brokenScan.ts';
import { ectype } from './run.ts';

let folder = '';
const path = (name: string): string => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ectype-reading-'));
  const ranges = { vertices: 24_000, coverage: [1, 1] as const, wear: [0.1, 0.1] as const, clutter: [0, 0] as const };
  const { reference } = makePair({ ...randomRecipe(15, 'same', ranges), shape: 'round', sizeMm: 36, whole: false });
  writeFileSync(path('die.ply'), writePly(reference.positions, reference.triangles));
}, 180_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('ectype light', () => {
  it('draws a sweep, every frame with its own angles', () => {
    const { status, stdout } = ectype(
      'light',
      path('die.ply'),
      '--unit',
      'mm',
      '--from',
      '350,20',
      '--sweep',
      '3',
      '--out',
      path('a.png'),
    );
    expect(status).toBe(0);
    for (const azimuth of ['350°', '110°', '230°']) expect(stdout).toContain(`azimuth ${azimuth}, height 20°`);
    const frames = [1, 2, 3].map((k) => decode(readFileSync(path(`a-00${k}.png`))).data);
    expect(frames[0]).not.toEqual(frames[1]);
  });

  it('prints two objects on one plate at natural size, with their shelfmarks and credit', () => {
    const options = ['--print-scale', '1', '--dpi', '300', '--shelfmark', 'A 1;A 2', '--credit', 'Town Museum'];
    const scans = [path('die.ply'), path('die.ply')];
    const { status, stdout } = ectype('light', ...scans, '--unit', 'mm', ...options, '--out', path('plate.png'));
    expect(status).toBe(0);
    expect(stdout).toContain('Natural size at 300 dots per inch.');
    const { width, resolution } = decode(readFileSync(path('plate.png')));
    expect(resolution?.x).toBe(11811);
    // Two seals of 36 mm stand beside one another.
    expect(width).toBeGreaterThan((2 * 36 * 300) / 25.4);
  });

  it('prints an object so many dots high, in a look', () => {
    const options = ['--unit', 'mm', '--print-height', '500px', '--look', 'faint-legend'];
    const { status, stdout } = ectype('light', path('die.ply'), ...options, '--out', path('high.svg'));
    expect(status).toBe(0);
    expect(stdout).toContain('Faint legend');
    const [, height] = /<image [^>]*height="([\d.]+)"/.exec(readFileSync(path('high.svg'), 'utf8')) ?? [];
    expect((Number(height) * 600) / 72).toBeCloseTo(500, 0);
  });

  it('prints under a low lamp with shadows, and says what fills them', () => {
    const low = ['--print-scale', '1', '--dpi', '150', '--from', '315,12', '--shadows', '--words', 'de'];
    const { status, stdout } = ectype('light', path('die.ply'), '--unit', 'mm', '--out', path('low.png'), ...low);
    expect(status).toBe(0);
    for (const part of ['mit Schlagschatten', '20 %', 'unter Weiß']) expect(stdout).toContain(part);
  });

  it.each([
    [['--look', 'nothing-known'], 'faint-legend'],
    [['--print-scale', '1', '--print-height', '9mm'], 'leave one out'],
    [['--print-height', '9'], 'such as 1500px'],
    [['--look', 'faint-legend', '--from', '1,2'], 'leave out --from'],
    [['--look', 'missing.json'], 'no such file'],
    [['--dpi', '300'], 'state its --print-scale'],
    [['--print-scale', '1', '--dpi', '9'], 'between 50 and 2400'],
    [['--print-scale', '1', '--soft', '1.5'], 'from 0 to 1'],
    [['--print-scale', '1', '--look', 'soft-light', '--shadows'], 'leave out --shadows'],
    [['--print-scale', '1', '--sweep', '8'], 'a sweep is a film'],
    [['--print-scale', '1', '--from', '315,0'], 'above 0 and up to 90'],
    [['--unit', 'mm', '--print-scale', '50', '--dpi', '2400'], 'million dots'],
  ])('refuses %j in one sentence', (args, words) => {
    const { status, stderr } = ectype('light', path('die.ply'), '--out', path('b.png'), ...args);
    expect(status).toBeGreaterThan(1);
    expect(stderr).toMatch(/^ectype: [^\n]+\n$/);
    expect(stderr).toContain(words);
  });
});

describe('ectype strip', () => {
  it('finds the band by itself and says how it was unrolled and drawn', () => {
    const { status, stdout } = ectype(
      'strip',
      path('die.ply'),
      '--unit',
      'mm',
      '--out',
      path('s.png'),
      '--look',
      'faint-legend',
    );
    expect(status).toBe(0);
    expect(stdout).toMatch(/Legend strip, .*; letters \d\.\d mm high; .*Band found with confidence/);
    expect(stdout).toContain('Drawn: Faint legend:');
    const { width, resolution } = decode(readFileSync(path('s.png')));
    // Letters of about 3 mm are drawn 120 dots high; the ring of a seal of 36 mm is longer than 80 mm.
    expect(width).toBeGreaterThan(80 * 30);
    expect(resolution?.x).toBe(11811);
  });

  it('names the looks of its places in the language of captions', () => {
    const words = ['--words', 'fr', '--places', path('places.csv')];
    expect(ectype('strip', path('die.ply'), '--unit', 'mm', ...words).status).toBe(0);
    const [head, ...rows] = readFileSync(path('places.csv'), 'utf8').trim().split('\r\n');
    expect(head).toBe('ring,rank,degrees,hour,fromMm,toMm,strokeContrast,look');
    const looks = rows.map((row) => row.split(',').at(-1)?.replaceAll('"', '') ?? '');
    expect(looks.length).toBeGreaterThan(5);
    const french: readonly string[] = Object.values(captionWords.fr.looks);
    expect(looks.filter((look) => !french.includes(look))).toEqual([]);
  });

  it('draws letters as high as asked, the look that parts strokes best first, and the plain one', () => {
    const size = ['--letter-height', '5mm', '--dpi', '150'];
    const { status, stdout } = ectype('strip', path('die.ply'), '--unit', 'mm', ...size, '--out', path('s.svg'));
    expect(status).toBe(0);
    const svg = readFileSync(path('s.svg'), 'utf8');
    const contrasts = [...svg.matchAll(/stroke contrast ([\d.]+)/g)].map(([, value]) => Number(value));
    expect(contrasts).toHaveLength(2);
    expect(contrasts[0]).toBeGreaterThan(contrasts[1]);
    expect(svg).toContain('12 h');
    const [, letterMm] = /letters ([\d.]+) mm high/.exec(stdout) as RegExpExecArray;
    const [, times] = /([\d.]+) times natural size at 150/.exec(svg) as RegExpExecArray;
    expect(Number(letterMm) * Number(times)).toBeCloseTo(5, 0);
  });

  it.each([
    [['--letter-height', '5'], 'with its unit'],
    [['--letter-height', '5mm', '--print-scale', '1'], 'leave one out'],
    [['--print-scale', '1', '--dpi', '9'], 'between 50 and 2400'],
  ])('refuses %j in one sentence', (args, words) => {
    const { status, stderr } = ectype('strip', path('die.ply'), '--out', path('b.png'), ...args);
    expect(status).toBe(2);
    expect(stderr).toMatch(/^ectype: [^\n]+\n$/);
    expect(stderr).toContain(words);
  });

  it('will not put one scan together with itself alone', () => {
    const { status, stderr } = ectype('strip', path('die.ply'), '--composite', path('c.png'));
    expect(status).toBe(2);
    expect(stderr).toContain('at least two scans');
    expect(existsSync(path('c.png'))).toBe(false);
  });
});

describe('ectype card', () => {
  const texts = ['--shelfmark', 'M 4', '--legend', "+S'(igillum) GILDE"];

  it('writes the card in every form, with its plates and a manifest that lies at the stated address', () => {
    writeFileSync(path('fields.json'), JSON.stringify({ repository: 'Town Museum', side: 'obverse', makersNumber: 7 }));
    const more = [
      '--fields',
      path('fields.json'),
      '--base',
      'https://example.org/m4/',
      '--words',
      'de',
      '--dpi',
      '150',
    ];
    const { status, stdout } = ectype(
      'card',
      path('die.ply'),
      '--unit',
      'mm',
      ...texts,
      ...more,
      '--out',
      path('card'),
    );
    expect(status).toBe(0);
    const read = (name: string): string => readFileSync(join(path('card'), name), 'utf8');
    const card = parseCard(JSON.parse(read('card.json')));
    expect(card).toMatchObject({ shelfmark: 'M 4', repository: 'Town Museum', attachment: 'unknown' });
    expect(card.sides[0]).toMatchObject({ side: 'obverse', image: { from: 'matrixEdge' } });
    expect(card.cast).toBeUndefined();
    expect(read('card.xml')).toContain('<idno>M 4</idno>');
    expect(read('card.csv')).toContain('Vorderseite');
    expect(JSON.parse(read('card.jsonld'))['crm:P46i_forms_part_of']).toBeUndefined();
    const manifest = JSON.parse(read('manifest.json'));
    for (const canvas of manifest.items) {
      const { id } = canvas.items[0].items[0].body;
      const { width, height, resolution } = decode(
        readFileSync(join(path('card'), id.replace('https://example.org/m4/', ''))),
      );
      expect([width, height]).toEqual([canvas.width, canvas.height]);
      expect(resolution?.x).toBe(Math.round(150 / 0.0254));
    }
    // The face is printed at natural size.
    expect(manifest.items[0].service[0].physicalScale).toBeCloseTo(25.4 / 150, 5);
    expect(stdout).toContain('manifest.json');
  });

  it.each([
    [[], 'shelfmark is missing'],
    [[...texts, '--base', 'example.org'], 'ends with a slash'],
    [[...texts, '--words', 'la'], 'choose one of en, fr, de, es'],
    [['--fields', 'nothing.json'], 'no such file'],
  ])('refuses %j in one sentence', (args, words) => {
    const { status, stderr } = ectype(
      'card',
      path('die.ply'),
      '--unit',
      'mm',
      '--dpi',
      '150',
      '--out',
      path('no'),
      ...args,
    );
    expect(status).toBe(2);
    expect(stderr).toMatch(/^ectype: [^\n]+\n$/);
    expect(stderr).toContain(words);
    expect(existsSync(path('no'))).toBe(false);
  });
});

describe('ectype fragments', () => {
  it('fits two pieces of a broken impression to its matrix and prints them in their places', () => {
    const ranges = { vertices: 6_000, wear: [0.1, 0.1] as const, clutter: [0, 0] as const };
    const pair = makePair({
      ...randomRecipe(11, 'same', ranges),
      shape: 'round',
      sizeMm: 36,
      whole: false,
      coverage: 1,
    });
    writeFileSync(path('m.ply'), writePly(pair.reference.positions, pair.reference.triangles));
    for (const [k, { positions, triangles }] of broken(pair.subject, 1).entries())
      writeFileSync(path(`piece${k}.ply`), writePly(positions, triangles));
    const scans = ['m.ply', 'piece0.ply', 'piece1.ply'].map(path);
    const { status, stdout } = ectype(
      ...['fragments', ...scans, '--unit', 'mm', '--dpi', '200', '--words', 'fr', '--out', path('pieces.png')],
    );
    expect(status).toBe(0);
    expect(stdout).toContain('2 fragments à leur place, chacun ajusté sur m.ply : A (piece0.ply), B (piece1.ply).');
    expect(Number(/se font face sur (\d+) mm/.exec(stdout)?.[1])).toBeGreaterThan(30);
    expect(stdout).not.toContain('de deux empreintes');
    const { width } = decode(readFileSync(path('pieces.png')));
    expect(width).toBeGreaterThan((36 * 200) / 25.4);
    // The whole impression and a piece of it hold the same places: that cannot be one impression's.
    writeFileSync(path('whole.ply'), writePly(pair.subject.positions, pair.subject.triangles));
    const two = ['m.ply', 'piece0.ply', 'whole.ply'].map(path);
    const said = ectype('fragments', ...two, '--unit', 'mm', '--dpi', '100', '--out', path('two.png')).stdout;
    expect(Number(/A and B both carry (\d+) mm²/.exec(said)?.[1])).toBeGreaterThan(200);
    expect(said).toContain('fragments of one impression cannot overlap, so they are of two.');
  });

  it('refuses a single fragment', () => {
    const { status, stderr } = ectype('fragments', path('die.ply'), path('die.ply'), '--out', path('x.png'));
    expect([status, stderr]).toEqual([2, expect.stringContaining('at least two fragments')]);
  });
});

describe('ectype readings', () => {
  const tei = (name: string, leiden: string): string => {
    const transcription = { language: 'la', items: itemsOfLeiden(leiden), sources: [] };
    const header = { title: 'A', publication: 'B', sourceDescription: 'C', reader: name };
    writeFileSync(path(`${name}.xml`), toTei(transcription, header));
    return path(`${name}.xml`);
  };

  it('says how far two readers agree, place by place, and writes the table', () => {
    const { status, stdout } = ectype(
      ...['readings', tei('Ada', "+S'GILDE·OSTREY"), tei('Bo', "+S'GILDE·[..]TREI"), '--out', path('both.csv')],
    );
    expect(status).toBe(0);
    expect(stdout).toContain('Ada, Bo: Of 13 letters that both read, 12 agree');
    expect(stdout).toContain('Y | I: they read different letters');
    expect(readFileSync(path('both.csv'), 'utf8')).toContain('read by one of them only');
  });

  it('refuses what is no transcription', () => {
    writeFileSync(path('no.xml'), '<msDesc/>');
    const { status, stderr } = ectype('readings', path('no.xml'), path('no.xml'));
    expect(status).toBe(3);
    expect(stderr).toMatch(/^ectype: [^\n]+no TEI[^\n]*\n$/);
  });
});
