import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { population, populationWords, upperBoundOfNone } from '../../src/core/judge/population.ts';

const page = readFileSync(new URL('../../docs/judge.md', import.meta.url), 'utf8');

/** Sums over the held-out tables of docs/judge.md: rows "| kind | n | fitted | supported | undecided | against | …". */
function heldOutSums(): Record<'n' | 'supported' | 'against', { same: number; different: number }> {
  const sums = {
    n: { same: 0, different: 0 },
    supported: { same: 0, different: 0 },
    against: { same: 0, different: 0 },
  };
  const [, after] = page.split('### Held-out pairs: ');
  const [tables] = after.split('### By coverage');
  for (const [, kind, n, , supported, , against] of tables.matchAll(
    /^\| (\w+) \| (\d+) \| (\d+) \| (\d+) \| (\d+) \| (\d+) \| /gm,
  )) {
    const side = /^(handCopy|stockMotif|unrelated)$/.test(kind) ? 'different' : 'same';
    sums.n[side] += Number(n);
    sums.supported[side] += Number(supported);
    sums.against[side] += Number(against);
  }
  return sums;
}

describe('population', () => {
  it('says what the tables of docs/judge.md say', () => {
    const { heldOut } = population;
    expect(heldOutSums()).toEqual({
      n: { same: heldOut.same, different: heldOut.different },
      supported: { same: heldOut.sameSupported, different: heldOut.differentSupported },
      against: { same: heldOut.sameAgainst, different: heldOut.differentAgainst },
    });
    expect(page).toContain(`| reference | ${population.same}: `);
    expect(page).toContain(`${population.handCopies} cut again by hand`);
    expect(page).toContain(`${population.stockMotifs} stock motifs`);
    expect([...page.matchAll(/^\| C_llr,.*?\| 0\.15 \| ([0-9.]+);/gm)].map(([, cllr]) => Number(cllr))).toEqual([
      ...heldOut.cllr,
    ]);
    expect(page).toContain(`2,032: `);
    expect(population.different).toBe(2032);
  });

  it('bounds a rate that was never seen: (1 − bound)ⁿ = 5 %', () => {
    for (const n of [1, 59, 439]) expect((1 - upperBoundOfNone(n)) ** n).toBeCloseTo(0.05, 12);
    // The rule of three.
    expect(upperBoundOfNone(439)).toBeCloseTo(3 / 439, 3);
  });

  it('never prints a nought without its bound', () => {
    for (const [, after] of populationWords().matchAll(/\b0 of \d+( \(upper 95 % bound)?/g))
      expect(after).toBeDefined();
    expect(populationWords()).toContain('0 of 439 (upper 95 % bound 0.7 %)');
  });
});
