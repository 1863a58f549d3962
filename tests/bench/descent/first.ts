import { chanceFor, subSeed } from '../../../sample-scans/generator/chance.ts';
import { type Design, designSeal } from '../../../sample-scans/generator/design.ts';
import { engrave } from '../../../sample-scans/generator/die.ts';
import { castOf, type ImpressionChoice, impressionFrom, type Made } from '../../../sample-scans/generator/made.ts';
import type { MotifName } from '../../../sample-scans/generator/motifs/index.ts';
import { handOf, randomRecipe } from '../../../sample-scans/generator/node.ts';
import { anyStyle, asFile, scanFaults, scanObject } from '../../../sample-scans/generator/scanned.ts';
import type { Recipe } from '../../../sample-scans/generator/types.ts';
import type { Random } from '../../../src/core/geometry/index.ts';
import { writePly } from '../../../src/core/scan/index.ts';
import type { DescentCase, DescentPair } from './pairs.ts';

/** A pair of the first generator: 6 to 35 % of the image broken off; a cast shares body, breakage and bending with its original. */
export function firstDescent({ seed, isCast, castFirst }: DescentCase): DescentPair {
  const recipe = {
    ...randomRecipe(seed, 'same', { wear: [0, 0.6], clutter: [0.2, 0.8], wholeChance: 0.3 }),
    vertices: 30_000,
  };
  const random = chanceFor(seed, 'descent');
  const design = designOf(recipe);
  const die = engrave(design, subSeed(seed, 'hand'), Math.max(0.07, recipe.sizeMm / 650));
  const press = (name: string): Made => impressionFrom(die, waxOf(recipe, random), subSeed(seed, name));
  const original = press('original');
  const other = isCast
    ? castOf(original, design.outline, recipe.sizeMm, recipe.clutter, subSeed(seed, 'plaster'))
    : press('other');
  const coverage = random.between(0.65, 0.94);
  const scan = (made: Made, name: string, shape: string, left: number): DescentPair['scans'][0] => {
    const choice = choiceOf(recipe, left, chanceFor(seed, `${name} how`));
    const scanned = scanObject(made, design, choice, subSeed(seed, name), subSeed(seed, shape));
    const { positions, triangles, unit } = asFile(scanned, 'mm', false);
    return { bytes: writePly(positions, triangles), unit };
  };
  const scans = [
    scan(original, 'a', 'shape', coverage),
    isCast ? scan(other, 'b', 'shape', coverage) : scan(other, 'b', 'other shape', random.between(0.65, 0.94)),
  ] as const;
  return {
    copyIs: isCast ? (castFirst ? 'reference' : 'subject') : null,
    scans: castFirst ? [scans[1], scans[0]] : scans,
    lostShare: 1 - coverage,
    castSize: isCast ? other.size / original.size : 1,
  };
}

const designOf = ({ seed, shape, sizeMm, motif }: Recipe): Design =>
  designSeal(
    {
      shape,
      sizeMm,
      motif: motif as MotifName,
      patternSeed: subSeed(seed, 'pattern'),
      legendSeed: subSeed(seed, 'legend'),
    },
    handOf,
  );

const waxOf = ({ wear, clutter, shrink }: Recipe, random: Random): ImpressionChoice => ({
  wear: wear * random.next(),
  shrink: shrink * random.between(0.8, 1.2),
  clutter,
  underfilled: 0.1 * random.next(),
  flattened: 0,
  slipMm: 0,
  blurMm: 0.04 * random.next(),
  clogged: random.below(2),
});

const choiceOf = (recipe: Recipe, coverage: number, random: Random): Parameters<typeof scanObject>[2] => ({
  coverage,
  warpMm: recipe.warpMm,
  whole: recipe.whole,
  marginMm: recipe.whole ? recipe.lipMm + 2 : recipe.lipMm * 0.5,
  vertices: recipe.vertices,
  style: anyStyle(random),
  handle: 'none',
  table: false,
  offsetMm: recipe.offsetMm,
  mirrored: false,
  faults: scanFaults(0.5 * recipe.clutter, recipe.noiseMm, recipe.sizeMm, random),
});
