import { expect, test } from 'vitest';
import { designSize, questionLevels, recipeAt, relationLevels } from './index.ts';

const cells = relationLevels.length * questionLevels.length;
const all = Array.from({ length: designSize }, (_, index) => recipeAt(index));

test('every run of 33 recipes asks each relation under each question once', () => {
  const band = (um: number | undefined): string =>
    um ? String([60, 150, 300].filter((edge) => um >= edge).length) : '';
  for (const start of [0, 33 * 7, 33 * 100]) {
    const run = all.slice(start, start + cells);
    expect(new Set(run.map((r) => r.question + r.relation + band(r.displacementUm))).size).toBe(cells);
  }
});

test('the full design has every combination once, and the levels of each factor equally often', () => {
  const level = (left: number): number => [0.35, 0.55, 0.8, 0.999].filter((edge) => left >= edge).length;
  const spacing = (mm: number): number => [0.08, 0.14, 0.24].filter((edge) => mm >= edge).length;
  const key = (i: number): string =>
    [i % cells, all[i].lip, all[i].accidents, level(all[i].imageLeft), spacing(all[i].spacingMm)].join();
  expect(new Set(all.map((_, i) => key(i))).size).toBe(designSize);
  expect(all.filter(({ lip }) => lip === 'many').length).toBe(designSize / 3);
  expect(all.filter(({ imageLeft }) => imageLeft === 1).length).toBe(designSize / 5);
});
