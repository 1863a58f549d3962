import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { fixedWork } from '../bench/fixedWork.ts';
import { ectypeAlone } from './run.ts';
import { smallPair } from './smallPair.ts';

const folder = mkdtempSync(join(tmpdir(), 'ectype-speed-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A twenty-fifth of the bench's fixed work in triangles, a tenth in places asked for. */
const yardstick = (): number => fixedWork(200, 20_000);

describe('what a small comparison costs', () => {
  // Processor time on both sides, since other work on the machine says nothing of this program. Docs: docs/speed.md.
  it('stays within a wide bound of fixed work', { timeout: 110_000 }, () => {
    yardstick();
    const least = (times: number, one: () => number): number => Math.min(...Array.from({ length: times }, one));
    const fixed = least(3, yardstick);
    const files = ['--json', join(folder, 'r.json'), '--differences', join(folder, 'd.ply')];
    const pair = smallPair(folder);
    const seconds = least(2, () => {
      const { status, seconds: used, stderr } = ectypeAlone('compare', ...pair, ...files);
      expect(status, stderr).toBe(0);
      // An engine that does not know a setting (src/cli/engine.ts) would say so.
      expect(stderr).toBe('');
      return used;
    });
    const ratio = seconds / fixed;
    const said = `${seconds.toFixed(2)} s ÷ ${fixed.toFixed(3)} s`;
    // 14 to 16 on 28 November 2026, on a machine with other work; far below, the yardstick is at fault.
    expect(ratio, said).toBeLessThan(25);
    expect(ratio, said).toBeGreaterThan(3);
  });
});
