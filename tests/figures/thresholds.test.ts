import { expect, it } from 'vitest';
import { evidenceFigures } from '../../src/core/report/record/evidenceHash.ts';

/** One line a threshold, lists in one. */
function lines(value: unknown, path: string): string[] {
  if (typeof value === 'object' && value !== null && !Array.isArray(value) && !ArrayBuffer.isView(value))
    return Object.entries(value).flatMap(([key, part]) => lines(part, path ? `${path}.${key}` : key));
  return [`${path} ${JSON.stringify(value)}`];
}

/**
 * Whoever holds two records against one another trusts that equal hashes mean equal thresholds, and that a change was meant: it
 * shows here, line by line, and belongs into docs/changes.md.
 */
it('the named thresholds that records hash: none moves unseen', async () => {
  await expect(`${lines(evidenceFigures, '').join('\n')}\n`).toMatchFileSnapshot('thresholds.txt');
});
