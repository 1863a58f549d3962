import { chanceOf } from './chance.ts';
import type { Amount, PairRecipe, Question, Relation } from './types.ts';

/** One level of the factor “relation”: hand copies come in bands of displacement, µm. */
export interface RelationLevel {
  readonly relation: Relation;
  readonly bandUm?: readonly [number, number];
}

export const relationLevels: readonly RelationLevel[] = [
  { relation: 'same' },
  { relation: 'handCopy', bandUm: [30, 60] },
  { relation: 'cast' },
  { relation: 'handCopy', bandUm: [60, 150] },
  { relation: 'state' },
  { relation: 'unrelated' },
  { relation: 'recast' },
  { relation: 'handCopy', bandUm: [150, 300] },
  { relation: 'legendRecut' },
  { relation: 'sameMotif' },
  { relation: 'handCopy', bandUm: [300, 1000] },
];
export const questionLevels: readonly Question[] = ['negativePositive', 'twoPositives', 'twoNegatives'];
const amounts: readonly Amount[] = ['none', 'some', 'many'];
export const imageLeftLevels: readonly (readonly [number, number])[] = [
  [1, 1],
  [0.8, 0.98],
  [0.55, 0.8],
  [0.35, 0.55],
  [0.2, 0.35],
];
export const spacingLevels = [0.06, 0.1, 0.18, 0.3] as const;

const cells = relationLevels.length * questionLevels.length;
const rest = amounts.length * amounts.length * imageLeftLevels.length * spacingLevels.length;
/** How many recipes the full design has. */
export const designSize = cells * rest;

/**
 * Recipe `index` of the factorial design: every run of 33 has each relation under each question once; the other factors
 * (lip, accidents, image left, spacing) step through their 180 combinations in scattered order, each cell starting
 * elsewhere, so that 5940 recipes are the full design. What has a range is drawn within it from the index.
 */
export function recipeAt(index: number): PairRecipe {
  const cell = index % cells;
  const block = Math.floor(index / cells) % rest;
  const { relation, bandUm } = relationLevels[cell % relationLevels.length];
  let code = (block * 77 + cell * 53) % rest;
  const digit = (levels: number): number => {
    const value = code % levels;
    code = (code - value) / levels;
    return value;
  };
  const chance = chanceOf(`recipe ${index}`);
  const left = imageLeftLevels[digit(imageLeftLevels.length)];
  const spacing = spacingLevels[digit(spacingLevels.length)];
  return {
    question: questionLevels[Math.floor(cell / relationLevels.length)],
    relation,
    ...(bandUm ? { displacementUm: chance.logRange(bandUm[0], bandUm[1]) } : {}),
    lip: amounts[digit(amounts.length)],
    accidents: amounts[digit(amounts.length)],
    imageLeft: chance.range(left[0], left[1]),
    spacingMm: spacing * chance.range(0.85, 1.15),
  };
}
