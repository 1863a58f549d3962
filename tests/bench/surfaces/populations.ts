import type { Recipe, RecipeRanges, Relation } from '../../../sample-scans/generator/index.ts';

/** What the pairs of one grade are made with. */
export const grades: Readonly<Record<'plain' | 'worn' | 'partial' | 'whole', RecipeRanges>> = {
  plain: { coverage: [1, 1.15], wear: [0, 0.25], clutter: [0, 0.4], wholeChance: 0 },
  worn: { coverage: [1, 1.15], wear: [0.4, 0.8], clutter: [0, 0.4], wholeChance: 0 },
  partial: { coverage: [0.55, 0.9], wear: [0.1, 0.5], clutter: [0, 0.6], wholeChance: 0 },
  whole: { coverage: [0.8, 1.15], wear: [0.1, 0.5], clutter: [0, 0.8], wholeChance: 1 },
};
export type Grade = keyof typeof grades;
export const gradeNames = Object.keys(grades) as Grade[];

/** Two in five of a later state, two of an earlier; the fifth of one state, with an old cut or crack on both. */
const relations: readonly Relation[] = ['laterState', 'earlierState', 'laterState', 'earlierState', 'same'];
const old = [['cut'], ['crack'], []] as const;

export interface SurfaceCase {
  readonly seed: number;
  readonly grade: Grade;
  readonly relation: Relation;
  readonly ranges: RecipeRanges;
  readonly fixed: Partial<Recipe>;
}

/** The k-th case from a first seed: grades in turn, then states in turn. Slips have a table of their own. */
export function surfaceCase(firstSeed: number, k: number): SurfaceCase {
  const grade = gradeNames[k % gradeNames.length];
  const round = Math.floor(k / gradeNames.length);
  const relation = relations[round % relations.length];
  const oldDamage = relation === 'same' ? old[Math.floor(round / relations.length + k) % old.length] : undefined;
  return {
    seed: firstSeed + k,
    grade,
    relation,
    ranges: { ...grades[grade], vertices: 30_000 + 10_000 * (round % 4) },
    fixed: { secondStrikeMm: 0, ...(oldDamage && { oldDamage }) },
  };
}
