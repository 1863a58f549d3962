import type { Random } from '../../src/core/geometry/index.ts';
import type { Accident } from './accidents.ts';
import { chanceFor, subSeed } from './chance.ts';
import { type DamagedDie, type DieDamageKind, damageDie } from './damage.ts';
import { type Design, type DesignChoice, designSeal, recut } from './design.ts';
import { type Die, engrave } from './die.ts';
import type { HandOf } from './hands.ts';
import { castOf, type ImpressionChoice, impressionFrom, type Made, matrixFrom, recastFrom } from './made.ts';
import { type MotifName, motifNames } from './motifs/index.ts';
import type { Recipe } from './types.ts';

/** The two objects of a pair before they are scanned. */
export interface Objects {
  readonly reference: Made;
  readonly subject: Made;
  readonly referenceDesign: Design;
  readonly subjectDesign: Design;
  readonly dieMarks: ReadonlyArray<{ mark: Accident; inReference: boolean; inSubject: boolean }>;
}

/** Makes the die or dies and what descends from them, as the relation says. */
export function objectsOf(recipe: Recipe, handOf: HandOf, pitchMm: number): Objects {
  const { seed, relation, clutter } = recipe;
  const choice: DesignChoice = {
    shape: recipe.shape,
    sizeMm: recipe.sizeMm,
    motif: recipe.motif as MotifName,
    symmetryFold: recipe.symmetryFold,
    patternSeed: subSeed(seed, 'pattern'),
    legendSeed: subSeed(seed, 'legend'),
  };
  const design = designSeal(choice, handOf);
  const die = engrave(design, subSeed(seed, 'hand'), pitchMm);
  const random = chanceFor(seed, 'objects');
  const wax = waxChoice(recipe, random);
  const plain: Omit<Objects, 'reference' | 'subject'> = {
    referenceDesign: design,
    subjectDesign: design,
    dieMarks: [],
  };
  if (relation === 'handCopy' || relation === 'stockMotif' || relation === 'unrelated') {
    const other = otherDesign(recipe, design, choice, handOf);
    const otherDie = engrave(other, subSeed(seed, 'other hand'), pitchMm);
    const subject = impressionFrom(otherDie, wax, subSeed(seed, 'impression'));
    return {
      ...plain,
      subjectDesign: other,
      reference: matrixFrom(die, 0.6 * clutter, subSeed(seed, 'matrix')),
      subject,
    };
  }
  const state = dieState(recipe, die, random);
  const before = relation === 'earlierState' || !state ? die : state.die;
  const after = state && relation !== 'laterState' ? state.die : die;
  const changed = relation === 'laterState' || relation === 'earlierState' ? state : undefined;
  const impression = (label: string, choice: ImpressionChoice): Made =>
    impressionFrom(before, choice, subSeed(seed, label), changed);
  const subject = impression('impression', wax);
  const dieMarks = (state?.marks ?? []).map((mark) => ({
    mark,
    inReference: relation !== 'laterState',
    inSubject: relation !== 'earlierState',
  }));
  const result = { ...plain, subject, dieMarks };
  const { outline, sizeMm } = design;
  if (relation === 'castOfImpression')
    return {
      ...result,
      reference: matrixFrom(after, 0.6 * clutter, subSeed(seed, 'matrix')),
      subject: castOf(subject, outline, sizeMm, clutter, subSeed(seed, 'plaster')),
    };
  if (relation === 'sisterImpressions')
    return {
      ...result,
      reference: impression('sister', waxChoice({ ...recipe, wear: recipe.wear * random.next() }, random)),
    };
  if (relation === 'recastMatrix') {
    const parent = impression(
      'parent',
      waxChoice({ ...recipe, wear: 0.4 * recipe.wear, clutter: 0.3 * clutter }, random),
    );
    return { ...result, reference: recastFrom(parent, outline, sizeMm, 0.4 * clutter, subSeed(seed, 'metal')) };
  }
  return { ...result, reference: matrixFrom(after, 0.6 * clutter, subSeed(seed, 'matrix'), changed) };
}

function otherDesign(recipe: Recipe, design: Design, choice: DesignChoice, handOf: HandOf): Design {
  const { seed, relation } = recipe;
  if (relation === 'handCopy') return recut(design, recipe.jitterMm, subSeed(seed, 'copy'));
  if (relation === 'stockMotif') {
    const other = designSeal({ ...choice, legendSeed: subSeed(seed, 'other legend') }, handOf);
    return recut(other, 0.5 * recipe.jitterMm, subSeed(seed, 'copy'));
  }
  const random = chanceFor(seed, 'unrelated');
  const motif = random.pick(motifNames.filter((name) => name !== recipe.motif));
  return designSeal(
    {
      ...choice,
      motif,
      symmetryFold: undefined,
      patternSeed: subSeed(seed, 'other pattern'),
      legendSeed: subSeed(seed, 'other legend'),
    },
    handOf,
  );
}

/** The later state of the die, where the recipe has one: always in state pairs, now and then on old damage. */
function dieState(recipe: Recipe, die: Die, random: Random): DamagedDie | undefined {
  const changes = recipe.relation === 'laterState' || recipe.relation === 'earlierState';
  if (!changes && recipe.oldDamage)
    return recipe.oldDamage.length > 0 ? damageDie(die, recipe.oldDamage, random) : undefined;
  if (changes && recipe.stateDamage) return damageDie(die, recipe.stateDamage, random);
  if (!changes && random.next() > 0.3 * recipe.clutter) return undefined;
  const kinds: DieDamageKind[] = [random.pick(['cut', 'crack', 'recut', 'corrosion', 'cut'] as const)];
  if (random.next() < 0.25) kinds.push(random.pick(['crack', 'corrosion'] as const));
  return damageDie(die, kinds, random);
}

function waxChoice(recipe: Recipe, random: Random): ImpressionChoice {
  const some = (chance: number, low: number, high: number): number =>
    random.next() < chance ? random.between(low, high) : 0;
  return {
    wear: recipe.wear,
    shrink: recipe.shrink,
    clutter: recipe.clutter,
    underfilled: some(0.4 * recipe.clutter + 0.1, 0.05, 0.35),
    flattened: some(0.25 * recipe.wear, 0.2, 0.8),
    slipMm: recipe.secondStrikeMm ?? some(0.06 * recipe.clutter, 0.2, 0.8),
    blurMm: some(0.3 * recipe.clutter, 0.04, 0.14),
    clogged: Math.floor(some(0.35 * recipe.clutter, 1, 4)),
  };
}
