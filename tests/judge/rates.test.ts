import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { heldOut, heldOutFirst } from '../../src/core/judge/population.ts';
import { crossCalibration, type ScoredPair } from '../bench/rows/crossCalibration.ts';
import {
  breechRates,
  coverageRates,
  coverageSets,
  firstCounts,
  firstRates,
  firstSets,
  generatorsCrossed,
  printedSets,
  rowsOf,
  searchedFinely,
  secondCounts,
  secondFloors,
  secondRates,
  summary,
  upperBound,
} from '../bench/rows/rates.ts';
import { recipeAt } from '../populations/index.ts';

/** What holds, and what was tried for it, as one text. */
const page = ['judge', 'tried/judge']
  .map((name) => readFileSync(new URL(`../../docs/${name}.md`, import.meta.url), 'utf8'))
  .join('\n')
  .replaceAll('**', '')
  .replace(/\s+/g, ' ');

describe('rates that are printed', () => {
  it('of poses within their uncertainty are those of the rows', () => {
    const fit = readFileSync(new URL('../../docs/fit.md', import.meta.url), 'utf8');
    for (const set of coverageSets) expect(fit).toContain(coverageRates(set));
  });

  it('of the second generator are those of the rows, in the documents and in every record', () => {
    for (const line of secondRates()) expect(page).toContain(line);
    expect(secondCounts(...printedSets)).toEqual(heldOut);
    for (const line of summary()) expect(page).toContain(line);
    // Of no other pair but copies by hand is a wrong support printed: there was none.
    const wrongly = printedSets
      .flatMap((set) => rowsOf(set))
      .filter(({ relation, finding }) => finding === 'supported' && ['sameMotif', 'unrelated'].includes(relation));
    expect(wrongly).toEqual([]);
    const counts = secondCounts('second-2640-2738');
    expect(page).toContain(`${counts.handCopiesOtherDesign} of the ${counts.handCopies} copies by hand`);
  });

  it.each([
    ['second-5016-5081', 5016, 66],
    ['second-5115-5147', 5115, 33],
    ['second-20000-20131', 20000, 132],
    ['second-21000-21131', 21000, 132],
  ] as const)('of %s are those of its rows', (set, from, count) => {
    for (const line of secondRates(set)) expect(page).toContain(line);
    const rows = rowsOf(set);
    expect(rows.map(({ seed }) => Number(seed))).toEqual(Array.from({ length: count }, (_, k) => from + k));
    for (const { seed, relation } of rows) expect(recipeAt(Number(seed)).relation).toBe(relation);
    expect(new Set(rows.map(({ commit }) => commit)).size).toBe(1);
  });

  it.each([
    [['second-5016-5081']],
    [['second-5016-5081', 'second-5115-5147']],
    [['second-20000-20131']],
    [['second-21000-21131']],
  ] as const)('of %s have their bounds', (sets) => {
    for (const line of secondFloors(...sets)) expect(page).toContain(line);
  });

  it('of the first generator, and of either calibrated on the other, are those of the rows', () => {
    expect(firstCounts(firstSets)).toEqual(heldOutFirst);
    for (const set of firstSets) for (const line of firstRates(set)) expect(page).toContain(line);
    for (const line of generatorsCrossed(searchedFinely, firstSets)) expect(page).toContain(line);
    for (const [set, from, count] of [
      ['first-780000-780239', 780_000, 240],
      ['first-790000-790143', 790_000, 144],
      ['first-800000-800095', 800_000, 96],
      ['first-810000-810095', 810_000, 96],
      ['first-820000-820095', 820_000, 96],
      ['first-830000-830095', 830_000, 96],
      ['first-840000-840095', 840_000, 96],
      ['first-850000-850095', 850_000, 96],
      ['first-860000-860095', 860_000, 96],
      ['first-870000-870095', 870_000, 96],
      ['first-880000-880095', 880_000, 96],
    ] as const) {
      const rows = rowsOf(set);
      expect(rows.map(({ seed }) => Number(seed))).toEqual(Array.from({ length: count }, (_, k) => from + k));
      expect(new Set(rows.map(({ commit }) => commit)).size).toBe(1);
    }
  });

  it('cost nothing where scores part one matrix from others, and one bit a pair where they say nothing', () => {
    const pairs = (shift: number): ScoredPair[] =>
      Array.from({ length: 400 }, (_, k) => ({
        kind: `${k % 4}`,
        same: k % 2 === 0,
        score: (k % 20) + (k % 2 === 0 ? shift : 0),
      }));
    expect(crossCalibration(pairs(100), pairs(100)).cllr).toBeLessThan(0.02);
    expect(crossCalibration(pairs(0), pairs(0)).cllr).toBeCloseTo(1, 1);
    expect(crossCalibration(pairs(100), pairs(0)).cllr).toBeGreaterThan(1);
  });

  it('have bounds that are those of the binomial law', () => {
    expect(upperBound(0, 59)).toBeCloseTo(1 - 0.05 ** (1 / 59), 6);
    expect(upperBound(1, 2)).toBeCloseTo(Math.sqrt(0.95), 6);
    expect(upperBound(3, 3)).toBe(1);
  });

  it('are of the pairs that were named, each once, of the relation that its recipe has', () => {
    const rows = rowsOf('second-2640-2738');
    expect(rows.map(({ seed }) => Number(seed))).toEqual(Array.from({ length: 99 }, (_, k) => 2640 + k));
    for (const { seed, relation } of rows) expect(recipeAt(Number(seed)).relation).toBe(relation);
    const pairs = rowsOf('breech').map(({ a, b }) => [a, b].sort().join(' '));
    expect(new Set(pairs).size).toBe(pairs.length);
    expect(new Set(pairs.flatMap((pair) => pair.split(' '))).size).toBe(40);
    expect(pairs).toHaveLength((40 * 39) / 2);
  });

  it('of the breech faces are those of the rows', () => {
    const rates = breechRates();
    for (const line of rates.lines) expect(page).toContain(line);
    expect(page).toContain(`Area under the curve (chance of the pair's own) ${rates.area.toFixed(5)}`);
    const [least, most] = rates.sameSignificance.map((value) => value.toFixed(1));
    const [low, high] = rates.sameScore.map((value) => value.toFixed(1));
    expect(page).toContain(`One slide: ${least} to ${most} σ`);
    expect(page).toContain(`score ${low} to ${high}`);
    expect(page).toContain(`Different: at most ${rates.differentMostSignificance.toFixed(1)} σ`);
    const raised = (value: number): string =>
      [...Math.abs(value).toFixed(1)].map((one) => (one === '.' ? '·' : '⁰¹²³⁴⁵⁶⁷⁸⁹'[Number(one)])).join('');
    expect(page).toContain(`chance at most 10⁻${raised(rates.sameMostLog10Chance)}`);
    expect(page).toContain(`chance at least 10⁻${raised(rates.differentLeastLog10Chance)}`);
    expect(rates.differentFound).toBe(0);
    expect(page).toContain(
      `${rates.denied} of ${rates.different} (${((100 * rates.denied) / rates.different).toFixed(1)} %)`,
    );
  });
});
