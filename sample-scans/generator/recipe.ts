import { chanceFor } from './chance.ts';
import { motifNames } from './motifs/index.ts';
import type { Recipe, Relation, ScanUnit } from './types.ts';

/** Limits for `randomRecipe`; what is not given keeps its default range. */
export interface RecipeRanges {
  readonly coverage?: readonly [number, number];
  readonly wear?: readonly [number, number];
  readonly warpMm?: readonly [number, number];
  readonly noiseMm?: readonly [number, number];
  readonly jitterMm?: readonly [number, number];
  readonly vertices?: number;
  /** Chance that an object is scanned whole. */
  readonly wholeChance?: number;
  /** Chance of another unit than mm, of reversed winding, of a mirrored file. */
  readonly unitChance?: number;
  readonly reversedChance?: number;
  readonly mirroredChance?: number;
  readonly clutter?: readonly [number, number];
}

/** A full recipe, every choice from the seed: linear sizes by shape, shrinkage by material chain. */
export function randomRecipe(seed: number, relation: Relation = 'same', ranges: RecipeRanges = {}): Recipe {
  const random = chanceFor(seed, 'recipe');
  const range = ([low, high]: readonly [number, number]): number => random.between(low, high);
  const shape = random.pick(['round', 'round', 'pointedOval', 'pointedOval', 'oval', 'shield', 'square'] as const);
  const sizeMm =
    shape === 'pointedOval'
      ? random.between(30, 75)
      : random.next() < 0.15
        ? random.between(12, 18)
        : random.between(18, shape === 'round' ? 70 : 45);
  const motif = random.pick(motifNames);
  const whole = random.next() < (ranges.wholeChance ?? 0.3);
  const otherUnit = (): ScanUnit =>
    random.next() < (ranges.unitChance ?? 0) ? random.pick(['cm', 'm', 'inch'] as const) : 'mm';
  return {
    seed,
    relation,
    shape,
    sizeMm,
    motif,
    coverage: Math.min(1, range(ranges.coverage ?? [0.55, 1.15])),
    wear: range(ranges.wear ?? [0, 0.8]),
    shrink: random.between(0.002, 0.03),
    warpMm: range(ranges.warpMm ?? [0.02, 0.3]),
    noiseMm: range(ranges.noiseMm ?? [0.005, 0.02]),
    jitterMm: range(ranges.jitterMm ?? [0.1, 0.3]),
    whole,
    vertices: ranges.vertices ?? 20_000,
    referenceUnit: otherUnit(),
    subjectUnit: otherUnit(),
    lipMm: random.between(0, 3),
    clutter: range(ranges.clutter ?? [0, 0.8]),
    reversedWinding: random.next() < (ranges.reversedChance ?? 0),
    mirrored: random.next() < (ranges.mirroredChance ?? 0),
    offsetMm: random.pick([5, 60, 150]),
  };
}
