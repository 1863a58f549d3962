import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { validateRecord } from '../../src/core/report/index.ts';
import { writePly } from '../../src/core/scan/index.ts';

const main = 'dist/cli/main.js';
let folder = '';
const path = (name: string): string => join(folder, name);
const run = (...args: string[]) => spawnSync(process.execPath, [main, ...args], { encoding: 'utf8', timeout: 60_000 });

const cube = [0, 20].flatMap((x) => [0, 20].flatMap((y) => [0, 20].map((z) => `v ${x} ${y} ${z}\n`))).join('');
const cubeFaces = '1 2 4 3|5 7 8 6|1 5 6 2|3 4 8 7|1 3 7 5|2 6 8 4'
  .split('|')
  .map((face) => `f ${face}\n`)
  .join('');

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ectype-cli-'));
  const pair = makePair({ ...randomRecipe(11, 'same', { vertices: 12_000, coverage: [1, 1] }), whole: false });
  writeFileSync(path('a.ply'), writePly(pair.reference.positions, pair.reference.triangles));
  writeFileSync(path('b.ply'), writePly(pair.subject.positions, pair.subject.triangles));
  writeFileSync(path('empty.ply'), '');
  writeFileSync(path('cut.ply'), readFileSync(path('a.ply')).subarray(0, 40_000));
  writeFileSync(
    path('random.stl'),
    Uint8Array.from({ length: 4000 }, (_, i) => (i * 7919 + 13) % 251),
  );
  writeFileSync(
    path('huge.ply'),
    'ply\nformat binary_little_endian 1.0\nelement vertex 4000000000\nproperty float x\nproperty float y\nproperty float z\nelement face 4000000000\nproperty list uchar int vertex_indices\nend_header\n',
  );
  writeFileSync(path('one.obj'), 'v 0 0 0\nv 20 0 0\nv 0 20 0\nf 1 2 3\n');
  writeFileSync(path('cube.obj'), cube + cubeFaces);
  writeFileSync(path('points.obj'), cube);
  writeFileSync(path('nan.obj'), `${'v nan nan nan\n'.repeat(8)}${cubeFaces}`);
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('bad input is answered by one sentence and the right exit code', () => {
  it.each([
    ['empty.ply', 3],
    ['cut.ply', 3],
    ['random.stl', 3],
    ['huge.ply', 3],
    ['points.obj', 3],
    ['nan.obj', 3],
    ['nowhere.ply', 3],
    ['one.obj', 4],
    ['cube.obj', 4],
  ])('%s: exit %i', (name, code) => {
    const { status, stderr, stdout } = run('describe', path(name));
    expect(status).toBe(code);
    expect(stderr).toMatch(/^ectype: .+\.\n$/);
    expect(stderr).toContain(name);
    expect(stdout).toBe('');
  });

  it('a folder: exit 3', () => {
    expect(run('describe', folder).status).toBe(3);
  });

  it('wrong use: exit 2', () => {
    expect(run('compare', path('a.ply')).status).toBe(2);
    expect(run('describe', path('a.ply'), '--nonsense').status).toBe(2);
    expect(run('nonsense').status).toBe(2);
    expect(run('describe', path('a.ply'), '--unit', 'furlong').status).toBe(2);
  });

  it('a unit that must be stated: exit 2, and the option is named', () => {
    const { status, stderr } = run('describe', 'sample-scans/odric-impression.ply');
    expect(status).toBe(2);
    expect(stderr).toContain('--unit');
  });
});

describe('compare', () => {
  it('writes a valid record and the differences in the file’s vertex order', () => {
    const done = run(
      'compare',
      path('a.ply'),
      path('b.ply'),
      '--unit',
      'mm',
      '--json',
      path('r.json'),
      '--differences',
      path('d.ply'),
    );
    expect(done.stderr).toBe('');
    expect(done.status).toBe(0);
    const record = validateRecord(JSON.parse(readFileSync(path('r.json'), 'utf8')));
    expect(record.fit.found).toBe(true);
    const header = readFileSync(path('d.ply'), 'latin1').split('end_header')[0];
    expect(header).toContain(`element vertex ${record.subject.vertices}`);
    expect(header).toContain('property float depth_difference_mm');
    expect(header).not.toContain('element face');
  });

  it('helps on every verb', () => {
    for (const verb of ['describe', 'compare', 'light', 'strip', 'calibrate', 'serve', 'samples']) {
      const { status, stdout } = run(verb, '--help');
      expect(status).toBe(0);
      expect(stdout).toContain(`ectype ${verb}`);
    }
  });
});
