import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { kernelsForEsbuild } from '../../src/build/kernels.mjs';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { killed } from './killing.ts';
import { ectype } from './run.ts';
import { leftBeside, runIn } from './runFolder.ts';
import { smallPair } from './smallPair.ts';

const seed = 1108;
let folder = '';
let writer = '';
let pair: string[] = [];
const path = (name: string): string => join(folder, name);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'ectype-kill-'));
  writer = path('built/cli/writer.mjs');
  pair = smallPair(folder, 3000, 16);
  await build({
    ...{ entryPoints: ['tests/cli/writesRun.ts'], outfile: writer, bundle: true, format: 'esm', platform: 'node' },
    plugins: [kernelsForEsbuild],
    define: { __ECTYPE_BUILD__: '"unknown"' },
  });
  // Where the program looks for its version.
  writeFileSync(path('package.json'), JSON.stringify({ version: '0' }));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The folder holds one whole run, or, between the two strokes, none and the former one beside it. */
function expectWhole(run: string): void {
  const was = readdirSync(folder).filter((name) => name.endsWith('.old'));
  if (runIn(run) === 'absent') expect(was).toHaveLength(1);
}

describe(`the writer of a run into the folder of a former one, seed ${seed}`, () => {
  it('killed at thirty random moments leaves one whole run or the other, and the next run clears up', async () => {
    const random = seededRandom(seed);
    const run = path('written');
    const fell = new Set<string>();
    for (let k = 0; k <= 30; k++) {
      const at = { writingMs: k === 0 ? 60_000 : random.between(0, 12) };
      fell.add((await killed([writer, run, String(k)], folder, at)).moment);
      expectWhole(run);
    }
    expect(fell).toContain('writing');
    await killed([writer, run, '31'], folder, { writingMs: 60_000 });
    expect(runIn(run)).not.toBe('absent');
    expect(leftBeside(folder)).toEqual([]);
  });

  it.each(['SIGINT', 'SIGTERM'] as const)(
    'told to stop by %s while it writes takes away what it wrote',
    async (signal) => {
      await killed([writer, path('written'), '32'], folder, { writingMs: 0 }, signal);
      expect(leftBeside(folder)).toEqual([]);
      expect(runIn(path('written'))).not.toBe('absent');
    },
  );
});

describe('compare into the folder of a former run', () => {
  it('killed while it writes leaves one whole run or the other', async () => {
    const args = ['compare', ...pair, '--out', path('run')];
    expect(ectype(...args).status).toBe(0);
    await killed(['dist/cli/main.js', ...args], folder, { writingMs: 5 });
    expectWhole(path('run'));
  });
});
