import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { evidenceFigures, evidenceHash } from '../../src/core/report/record/evidenceHash.ts';

const steps = ['face', 'design', 'fit', 'compare', 'condition', 'judge'] as const;

const filesOf = (step: string): string[] =>
  readdirSync(join('src/core', step), { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => join('src/core', step, file));

describe('the figures that the record hashes', () => {
  it.each(steps)('hold every table of thresholds of %s', async (step) => {
    const kept = new Set<unknown>(Object.values(evidenceFigures[step]));
    const missed: string[] = [];
    for (const file of filesOf(step))
      for (const [name, value] of Object.entries(await import(join(process.cwd(), file))))
        if (name.endsWith('Defaults') && !kept.has(value)) missed.push(`${file}: ${name}`);
    expect(missed).toEqual([]);
  });

  it('are numbers, words and lists of them: nothing that JSON would drop', () => {
    const odd: string[] = [];
    const walk = (value: unknown, path: string): void => {
      if (value === undefined || typeof value === 'function' || value instanceof RegExp) odd.push(path);
      else if (typeof value === 'object' && value !== null)
        for (const [name, part] of Object.entries(value)) walk(part, `${path}.${name}`);
    };
    walk(evidenceFigures, 'figures');
    expect(odd).toEqual([]);
  });

  it('make a hash that a change of any one of them changes', () => {
    const before = evidenceHash();
    const table = evidenceFigures.judge.evidence as { leastPlaces: number };
    const kept = table.leastPlaces;
    try {
      table.leastPlaces = kept + 1;
      expect(evidenceHash()).not.toBe(before);
    } finally {
      table.leastPlaces = kept;
    }
    expect(evidenceHash()).toBe(before);
  });
});
