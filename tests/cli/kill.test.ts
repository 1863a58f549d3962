import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { killedCompare } from './killing.ts';
import { ectype } from './run.ts';
import { leftBeside, runIn } from './runFolder.ts';
import { smallPair } from './smallPair.ts';

const seed = 1108;
let folder = '';
const path = (name: string): string => join(folder, name);
let first = '';
let again: string[] = [];

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ectype-kill-'));
  again = [...smallPair(folder, 3000, 16), '--out', path('run')];
  expect(ectype('compare', ...again).status).toBe(0);
  first = runIn(path('run'));
}, 120_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe(`compare into the folder of a former run, seed ${seed}`, () => {
  it('killed at random moments leaves one whole run or the other, and the next run clears up', async () => {
    const random = seededRandom(seed);
    for (let k = 0; k < 10; k++) {
      const at = k % 3 === 0 ? { afterMs: random.between(0, 3000) } : { writingMs: random.between(0, 40) };
      await killedCompare(again, folder, at);
      const run = runIn(path('run'));
      if (run === 'absent') expect(readdirSync(folder).filter((name) => name.endsWith('.old'))).toHaveLength(1);
    }
    expect(ectype('compare', ...again).status).toBe(0);
    expect(runIn(path('run'))).not.toBe(first);
    expect(leftBeside(folder)).toEqual([]);
  }, 180_000);

  it.each(['SIGINT', 'SIGTERM'] as const)(
    'told to stop by %s while it writes takes away what it wrote',
    async (signal) => {
      await killedCompare(again, folder, { writingMs: 0 }, signal);
      expect(leftBeside(folder)).toEqual([]);
      expect(runIn(path('run'))).not.toBe('absent');
    },
    60_000,
  );
});
