import type { RecipeRanges, Relation } from '../../../sample-scans/generator/index.ts';

/** What the pairs of one grade are made with. */
export const grades: Readonly<Record<'plain' | 'worn' | 'partial' | 'whole', RecipeRanges>> = {
  plain: { coverage: [1, 1.15], wear: [0, 0.25], clutter: [0, 0.4], wholeChance: 0 },
  worn: { coverage: [1, 1.15], wear: [0.4, 0.8], clutter: [0, 0.4], wholeChance: 0 },
  partial: { coverage: [0.55, 0.9], wear: [0.1, 0.5], clutter: [0, 0.6], wholeChance: 0 },
  whole: { coverage: [0.8, 1.15], wear: [0.1, 0.5], clutter: [0, 0.8], wholeChance: 1 },
};
export type Grade = keyof typeof grades;
export const gradeNames = Object.keys(grades) as Grade[];

const relations: readonly Relation[] = ['laterState', 'earlierState', 'laterState', 'earlierState', 'same'];

export interface SurfaceCase {
  readonly seed: number;
  readonly grade: Grade;
  readonly relation: Relation;
  readonly ranges: RecipeRanges;
}

/** The k-th case from a first seed: grades in turn, two in five of a later state, two of an earlier, one of the same. */
export function surfaceCase(firstSeed: number, k: number): SurfaceCase {
  const grade = gradeNames[k % gradeNames.length];
  const round = Math.floor(k / gradeNames.length);
  const ranges = { ...grades[grade], vertices: 30_000 + 10_000 * (round % 4) };
  return { seed: firstSeed + k, grade, relation: relations[round % relations.length], ranges };
}
