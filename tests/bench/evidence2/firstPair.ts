import type { GeneratedScan, Recipe, Relation } from '../../../sample-scans/generator/index.ts';
import { makePair, randomRecipe } from '../../../sample-scans/generator/node.ts';
import { writePly } from '../../../src/core/scan/index.ts';
import type { KnownPair } from './scored.ts';

/** Half of one matrix, half different; three of four copies by hand are out of place by less than 0.15 mm. */
const relations: readonly Relation[] = [
  ...(['same', 'castOfImpression', 'sisterImpressions', 'recastMatrix', 'laterState', 'earlierState'] as const),
  ...(['handCopy', 'handCopy', 'handCopy', 'stockMotif', 'unrelated', 'unrelated'] as const),
];

/** Root mean square distances of the copyist, mm: one range for each copy of a turn. */
const copyists = [
  [0.03, 0.06],
  [0.06, 0.15],
  [0.15, 0.3],
] as const;

const vertices = [6000, 12_000, 24_000, 40_000];

/** Recipe `seed` of the first generator: relations, copyists and fineness of the scans in turn, all else from the seed. */
export function firstRecipe(seed: number): Recipe {
  return randomRecipe(seed, relations[seed % relations.length], {
    vertices: vertices[Math.floor(seed / relations.length) % vertices.length],
    coverage: [0.3, 1.15],
    jitterMm: copyists[seed % copyists.length],
  });
}

/** A pair of the first generator, by that recipe. */
export function firstPair(seed: number): KnownPair {
  const recipe = firstRecipe(seed);
  const { reference, subject } = makePair(recipe);
  return {
    relation: recipe.relation,
    displacementUm: recipe.relation === 'handCopy' ? 1000 * recipe.jitterMm : undefined,
    imageLeft: recipe.coverage,
    reference: file(reference),
    subject: file(subject),
  };
}

const file = ({ positions, triangles, unit }: GeneratedScan): KnownPair['reference'] => ({
  bytes: writePly(positions, triangles),
  unit,
});
