import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bit, type GeneratedScan } from '../../sample-scans/generator/index.ts';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { apply, fromMatrix4, type Similarity, type Vec3 } from '../../src/core/geometry/index.ts';
import { type ComparisonRecord, validateRecord } from '../../src/core/report/index.ts';
import { writePly } from '../../src/core/scan/index.ts';
import { badFiles, faceless } from './files.ts';
import { ectype, ectypeAlone, ectypeInto, type Ran } from './run.ts';
import { runIn } from './runFolder.ts';

const verbs = [
  ...['describe', 'compare', 'change', 'light', 'strip', 'fragments', 'readings', 'card', 'calibrate'],
  ...['add', 'find', 'group', 'remove', 'worker', 'serve', 'samples'],
];
const pair = makePair({ ...randomRecipe(11, 'same', { vertices: 9000 }), whole: false, coverage: 1, sizeMm: 32 });
const fileOf = ({ positions, triangles }: GeneratedScan): Uint8Array => writePly(positions, triangles);
const bad = badFiles(fileOf(pair.reference));

let folder = '';
const path = (name: string): string => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ectype-cli-'));
  writeFileSync(path('die.ply'), fileOf(pair.reference));
  writeFileSync(path('wax.ply'), fileOf(pair.subject));
  const unrelated = makePair({ ...randomRecipe(9, 'same', { vertices: 7000 }), whole: false, coverage: 1, sizeMm: 32 });
  writeFileSync(path('stranger.ply'), fileOf(unrelated.subject));
  const small = fileOf({ ...pair.reference, positions: pair.reference.positions.map((value) => value / 3) });
  writeFileSync(path('small.ply'), small);
  for (const [name, content] of Object.entries({ ...bad, ...faceless })) writeFileSync(path(name), content);
  mkdirSync(path('folder'));
}, 180_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** One clear line on standard error, nothing on standard output, and not much time or memory. */
function expectRefusal(ran: Ran, code: number): void {
  expect(ran.stderr).toMatch(/^ectype: [^\n]{10,}[.)]\n$/);
  expect(ran.stderr).not.toMatch(/at \w+ \(|node:|undefined|NaN|\[object/);
  expect(ran.stdout).toBe('');
  expect(ran.status).toBe(code);
  expect(ran.seconds).toBeLessThan(5);
  expect(ran.megabytes).toBeLessThan(600);
}

describe('a process of its own', () => {
  // The other tests call one process that stays (`ectype`); what is typed in a shell is this.
  it.each([
    ['an answer', 0, ['describe', 'die.ply', '--unit', 'mm', '--json', '-']],
    ['a wrong use', 2, ['compare', 'die.ply', 'wax.ply']],
    ['a bad file', 3, ['describe', 'empty.ply', '--unit', 'mm']],
    ['no face', 4, ['describe', 'cube.obj', '--unit', 'mm']],
  ])('says what the one that stays says, with the same exit: %s', (_, exit, args) => {
    const named = args.map((arg) => (/\.\w+$/.test(arg) ? path(arg) : arg));
    const [alone, again] = [ectypeAlone(...named), ectype(...named)];
    expect(alone.status).toBe(exit);
    if (exit > 0) expectRefusal(alone, exit);
    const { seconds, megabytes, ...said } = alone;
    expect(again).toMatchObject(said);
  });

  // From so many bytes on a second thread is opened: for the rest of the work, and for reading as well.
  it.each([3e6, 7e6])('ends after a refusal, though another thread was opened for %i bytes', (bytes) => {
    writeFileSync(path('zeros.ply'), new Uint8Array(bytes));
    expectRefusal(ectypeAlone('compare', path('zeros.ply'), path('wax.ply'), '--unit', 'mm', '--json', '-'), 3);
    expectRefusal(ectypeAlone('compare', path('die.ply'), path('zeros.ply'), '--unit', 'mm', '--json', '-'), 3);
  });
});

describe('bad input', () => {
  it.each(Object.keys(bad))('is refused in one sentence that names the file, exit 3: %s', (name) => {
    const ran = ectype('describe', path(name), '--unit', 'mm');
    expectRefusal(ran, 3);
    expect(ran.stderr).toContain(name);
  });

  it.each(Object.keys(faceless))('without a face ends with 4 and says what to do: %s', (name) => {
    const ran = ectype('describe', path(name), '--unit', 'mm');
    expectRefusal(ran, 4);
    expect(ran.stderr).toContain('--face-toward');
  });

  it('names a file that is not there, and a folder, exit 3', () => {
    expectRefusal(ectype('describe', path('nowhere.ply')), 3);
    expectRefusal(ectype('describe', path('folder')), 3);
    expectRefusal(ectype('light', path('nowhere.ply'), '--out', path('x.png')), 3);
  });

  it('stops a comparison whichever of the two it is', () => {
    const [first, second] = [
      ectype('compare', path('empty.ply'), path('wax.ply'), '--json', '-'),
      ectype('compare', path('die.ply'), path('cube.obj'), '--unit', 'mm', '--json', '-'),
    ];
    expectRefusal(first, 3);
    expectRefusal(second, 4);
  });
});

describe('wrong use', () => {
  it.each([
    ['an unknown option', ['describe', 'die.ply', '--nonsense']],
    ['an unknown verb', ['guess', 'die.ply']],
    ['a unit that does not exist', ['describe', 'die.ply', '--unit', 'furlong']],
    ['a kind that does not exist', ['describe', 'die.ply', '--kind', 'coin']],
    ['two numbers where three belong', ['describe', 'die.ply', '--face-toward', '0,1']],
    ['a word where a number belongs', ['describe', 'die.ply', '--up', 'left']],
    ['no scan', ['describe']],
    ['no subject', ['compare', 'die.ply', '--json', '-']],
    ['nowhere to put the result', ['compare', 'die.ply', 'wax.ply']],
    ['a start that is no number', ['compare', 'die.ply', 'wax.ply', '--json', '-', '--start', 'left']],
    ['a start with too many numbers', ['compare', 'die.ply', 'wax.ply', '--json', '-', '--start', '1,1,1']],
    ['two starts', ['compare', 'die.ply', 'wax.ply', '--json', '-', '--start', '1', '--pairs', 'x.json']],
    ['pairs in a file that is not there', ['compare', 'die.ply', 'wax.ply', '--json', '-', '--pairs', 'x.json']],
    ['regions in a file that is no JSON', ['compare', 'die.ply', 'wax.ply', '--json', '-', '--exclude', 'die.ply']],
  ])('ends with 2 and one line: %s', (_, args) => {
    expectRefusal(ectype(...args.map((arg) => (arg.endsWith('.ply') ? path(arg) : arg))), 2);
  });

  it('asks for a unit that cannot be told, naming the option and the choices', () => {
    const ran = ectype('describe', path('small.ply'));
    expectRefusal(ran, 2);
    expect(ran.stderr).toContain('--unit');
    expect(ran.stderr).toMatch(/mm/);
    expect(ran.stderr).toMatch(/cm/);
  });

  it('without a verb prints the overview and ends with 2', () => {
    const { status, stdout } = ectype();
    expect(status).toBe(2);
    for (const verb of verbs) expect(stdout).toContain(verb);
  });
});

describe('--help', () => {
  it.each(verbs)('says what %s does and names its options', (verb) => {
    const { status, stdout, stderr } = ectype(verb, '--help');
    expect(status).toBe(0);
    expect(stderr).toBe('');
    expect(stdout).toContain(`ectype ${verb}`);
    expect(stdout).toContain('--help');
    if (verb === 'describe' || verb === 'compare')
      for (const option of ['unit', 'kind', 'material', 'scale-uncertainty', 'face-toward', 'up', 'repeat', 'json'])
        expect(stdout).toContain(`--${option} `);
  });
});

describe('describe', () => {
  it('says in JSON what it says in words', () => {
    const { status, stdout } = ectype('describe', path('die.ply'), '--unit', 'mm', '--json', '-');
    const described = JSON.parse(stdout);
    expect(status).toBe(0);
    expect(described).toMatchObject({ file: 'die.ply', unit: 'mm', unitFrom: 'stated', sense: 'intaglio' });
    expect(described.sha256).toBe(
      createHash('sha256')
        .update(readFileSync(path('die.ply')))
        .digest('hex'),
    );
    expect(described.vertices).toBe(pair.reference.positions.length / 3);
    expect(Math.abs(Math.max(described.outline.widthMm, described.outline.heightMm) - 32)).toBeLessThan(2.5);
  });

  it('says of every requirement of scanning whether it is met, and what to do where it is not', () => {
    const { stdout } = ectype('describe', path('die.ply'), '--unit', 'mm', '--json', '-');
    const scanning: { code: string; passes: boolean | null; remedy: string | null }[] = JSON.parse(stdout).scanning;
    expect(scanning.map(({ code }) => code)).toEqual([
      'unit',
      'spacing',
      'noise',
      'filled',
      'bothSides',
      'scaleCheck',
      'repeat',
      'material',
    ]);
    for (const { passes, remedy } of scanning) expect(remedy === null).toBe(passes === true);
    expect(scanning.find(({ code }) => code === 'unit')?.passes).toBe(true);
    expect(scanning.find(({ code }) => code === 'repeat')?.passes).toBe(false);
    expect(ectype('describe', path('die.ply'), '--unit', 'mm').stdout).toMatch(/fail {5}no second scan/);
  });
});

describe('a result that cannot be written', () => {
  it('is said in one line, exit 5, and names the place', () => {
    for (const place of ['folder', 'no folder/described.json', 'die.ply/described.json']) {
      const ran = ectype('describe', path('die.ply'), '--unit', 'mm', '--json', path(place));
      expectRefusal(ran, 5);
      expect(ran.stderr).toContain(place);
    }
  });

  it.runIf(existsSync('/dev/full'))('is no finding either where standard output is full', () => {
    expect(ectypeInto('/dev/full', 'describe', path('die.ply'), '--unit', 'mm')).toBe(5);
  });
});

describe('a scan', () => {
  it('is never written over by what is said of it, exit 2', () => {
    const before = readFileSync(path('die.ply'));
    symlinkSync(path('die.ply'), path('link.json'));
    for (const [verb, ...options] of [
      ['describe', '--json', path('die.ply')],
      ['describe', '--json', path('link.json')],
      ['light', '--out', path('die.ply')],
      ['strip', '--out', path('die.ply')],
    ])
      expectRefusal(ectype(verb, path('die.ply'), '--unit', 'mm', ...options), 2);
    for (const options of [
      ['--json', path('wax.ply')],
      ['--differences', path('link.json')],
      ['--out', folder],
    ])
      expectRefusal(ectype('compare', path('die.ply'), path('wax.ply'), '--unit', 'mm', ...options), 2);
    expect(readFileSync(path('die.ply')).equals(before)).toBe(true);
  });
});

describe('compare', () => {
  let ran: Ran;
  let record: ComparisonRecord;

  beforeAll(() => {
    const results = ['--json', path('record.json'), '--differences', path('differences.ply')];
    ran = ectype('compare', path('die.ply'), path('wax.ply'), '--unit', 'mm', ...results);
    record = validateRecord(JSON.parse(readFileSync(path('record.json'), 'utf8')));
  }, 180_000);

  it('ends with 0 and says its finding in words', () => {
    expect(ran.status).toBe(0);
    expect(ran.stderr).toBe('');
    expect(ran.stdout).toContain(record.judge.finding);
    expect(ran.stdout).toContain(record.judge.sentence);
  });

  it('writes a record that its schema accepts, with the fit in the files’ own coordinates', () => {
    const found = fromMatrix4(record.fit.subjectToReference as number[]);
    const truth = pair.truth.referenceFromSubject as Similarity;
    expect(record.fit).toMatchObject({ found: true, turnedOver: true, mirrored: false });
    let [sum, count] = [0, 0];
    pair.subject.bits.forEach((bits, i) => {
      if (bits !== bit.face) return;
      const p = [...pair.subject.positions.subarray(3 * i, 3 * i + 3)] as unknown as Vec3;
      const [q, r] = [apply(found, p), apply(truth, p)];
      sum += (q[0] - r[0]) ** 2 + (q[1] - r[1]) ** 2 + (q[2] - r[2]) ** 2;
      count++;
    });
    expect(Math.sqrt(sum / count)).toBeLessThan(record.fit.chosen === 'rigid' ? 0.5 : 0.06);
  });

  it('writes a depth difference for every vertex, in the file’s order, in the file’s place', () => {
    const { names, rows } = readPoints(readFileSync(path('differences.ply')));
    const { positions, bits } = pair.subject;
    expect(names.slice(0, 4)).toEqual(['x', 'y', 'z', 'depth_difference_mm']);
    expect(rows).toHaveLength(positions.length / 3);
    rows.forEach((row, i) => {
      for (let k = 0; k < 3; k++) expect(Math.abs(row[k] - positions[3 * i + k])).toBeLessThan(1e-4);
    });
    const face = [...bits.keys()].filter((i) => bits[i] === bit.face);
    const met = face.filter((i) => Number.isFinite(rows[i][3]));
    expect(met.length / face.length).toBeGreaterThan(0.85);
    const truth = pair.subject.trueDifference as Float32Array;
    const off = met.map((i) => Math.abs(rows[i][3] - truth[i])).sort((a, b) => a - b);
    expect(off[off.length >> 1]).toBeLessThan(0.04);
  });

  it('begins at places marked on both scans, in the files’ own coordinates, and leaves regions out', () => {
    const truth = pair.truth.referenceFromSubject as Similarity;
    const face = [...pair.subject.bits.keys()].filter((i) => pair.subject.bits[i] === bit.face);
    const pairs = [0.1, 0.5, 0.9].map((share) => {
      const i = face[Math.floor(share * (face.length - 1))];
      const at = [...pair.subject.positions.subarray(3 * i, 3 * i + 3)] as unknown as Vec3;
      return { reference: apply(truth, at).map((value, k) => value + 0.4 * (k === 0 ? 1 : -1)), subject: at };
    });
    const square = [
      [-3, -3],
      [3, -3],
      [3, 3],
      [-3, 3],
    ];
    writeFileSync(path('pairs.json'), JSON.stringify({ pairs }));
    writeFileSync(
      path('regions.json'),
      JSON.stringify({ regions: [{ outline: square, why: 'tag', by: 'A. Tester' }] }),
    );
    const byHand = ['--pairs', path('pairs.json'), '--exclude', path('regions.json')];
    const done = ectype('compare', path('die.ply'), path('wax.ply'), '--unit', 'mm', '--json', '-', ...byHand);
    expect(done.stderr).toBe('');
    const { fit, excluded } = validateRecord(JSON.parse(done.stdout));
    expect(fit.start).toMatchObject({ by: 'hand', from: 'pairs' });
    expect(excluded).toEqual([{ why: 'tag', by: 'A. Tester', areaMm2: 36, outline: square.flat() }]);
    const [here, there] = [fit.subjectToReference, record.fit.subjectToReference].map((m) =>
      fromMatrix4(m as number[]),
    );
    for (const { subject: at } of pairs) {
      const [p, q] = [apply(here, at), apply(there, at)];
      expect(Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2])).toBeLessThan(0.03);
    }
  });

  it('writes a report that carries its typeface and asks for nothing, in less than 3 MB', () => {
    const done = ectype('compare', path('die.ply'), path('wax.ply'), '--unit', 'mm', '--out', path('report'));
    expect(done.status).toBe(0);
    const html = readFileSync(path('report/report.html'), 'utf8');
    expect(html).toMatch(/@font-face\{font-family:'Alegreya';font-style:italic[^}]*src:url\(data:font\/woff2;base64,/);
    expect(html).not.toMatch(/(?:src|href)="(?!data:|#)/);
    expect(html.length).toBeLessThan(3e6);
    runIn(path('report'));
  });

  it('ends with 0 for unrelated seals too: a record without a fit', () => {
    const none = ectype('compare', path('die.ply'), path('stranger.ply'), '--unit', 'mm', '--json', '-');
    expect(none.status).toBe(0);
    const { fit, judge } = validateRecord(JSON.parse(none.stdout));
    expect(fit.found).toBe(false);
    expect(fit.subjectToReference).toBeNull();
    expect(judge.finding).toBe('otherDesign');
  });
});

/** Vertices of a binary PLY with float and double properties and no faces, read by its header alone. */
function readPoints(bytes: Buffer): { names: string[]; rows: number[][] } {
  const end = bytes.indexOf('end_header\n') + 'end_header\n'.length;
  const header = bytes.subarray(0, end).toString('latin1').split('\n');
  expect(header).toContain('format binary_little_endian 1.0');
  expect(header.some((line) => line.startsWith('element face'))).toBe(false);
  const count = Number(header.find((line) => line.startsWith('element vertex'))?.split(' ')[2]);
  const properties = header.filter((line) => line.startsWith('property')).map((line) => line.split(' '));
  let at = end;
  const rows = Array.from({ length: count }, () =>
    properties.map(([, type]) => {
      const value = type === 'double' ? bytes.readDoubleLE(at) : bytes.readFloatLE(at);
      at += type === 'double' ? 8 : 4;
      return value;
    }),
  );
  expect(at).toBe(bytes.length);
  return { names: properties.map(([, , name]) => name), rows };
}

describe('docs/command-line.md', () => {
  it('explains every option of every verb', () => {
    const page = readFileSync('docs/command-line.md', 'utf8');
    for (const verb of verbs)
      for (const [, option] of ectype(verb, '--help').stdout.matchAll(/^ {2}--([a-z-]+)/gm))
        if (option !== 'help') expect(page, `${verb} --${option}`).toContain(`\`--${option}\``);
  });
});
