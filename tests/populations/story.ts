import { breakOff } from './breakOff.ts';
import type { Chance } from './chance.ts';
import { copyByHand, motifAnew } from './copying.ts';
import { cutMatrix } from './cutMatrix.ts';
import { type Drawing, draw, drawLegend, type Layout, layoutOf, letterHand } from './drawing.ts';
import { type Lattice, latticeOver, ramp } from './lattice.ts';
import type { Made } from './made.ts';
import { motifKinds } from './motifs.ts';
import type { Outline } from './outline.ts';
import { conditionCode, type ObjectKind, type PairRecipe, type Shape } from './types.ts';
import { mould, press, pressing, trimToMatrix } from './wax.ts';
import { type Counter, clogging, cutThrough, hurt, hurtMatrix, matrixCrack, recutLetter } from './wounds.ts';

export interface Told {
  readonly made: Made;
  readonly kind: ObjectKind;
  readonly drawing: Drawing;
}

export interface Story {
  readonly reference: Told;
  readonly subject: Told;
  readonly state: 'subjectEarlier' | 'subjectLater' | null;
  readonly displacementUm: number | null;
}

/** A matrix with its drawing. */
interface Cut {
  readonly made: Made;
  readonly drawing: Drawing;
}

/** Makes both objects of a pair, from the drawing to what is left of them today. */
export function tell(recipe: PairRecipe, chance: Chance): Story {
  const counter: Counter = { next: 0 };
  const first = firstMatrix(recipe, chance.branch('first matrix'), counter);
  const displacementUm = recipe.relation === 'handCopy' ? (recipe.displacementUm ?? chance.logRange(30, 300)) : null;
  const second = secondMatrix(recipe, first, displacementUm ?? 0, chance, counter);
  const later = recipe.question !== 'negativePositive' && chance.yes(0.5);
  const state = recipe.relation === 'state' ? (later ? 'subjectLater' : 'subjectEarlier') : null;
  const ofReference = state === 'subjectEarlier' ? second : first;
  const ofSubject = state === 'subjectEarlier' ? first : second;
  const reference = makeReference(recipe, ofReference, chance.branch('reference'), counter);
  const subject = makeSubject(recipe, ofSubject, reference, chance.branch('subject'), counter);
  const left = breakOff(subject.made, recipe.imageLeft, chance.branch('break'), counter);
  return { reference, subject: { ...subject, made: left }, state, displacementUm };
}

function outlineOf(shape: Shape, sizeMm: number, chance: Chance): Outline {
  const ratio = {
    round: 1,
    oval: chance.range(1.15, 1.4),
    pointed: chance.range(1.4, 1.7),
    shield: chance.range(1.08, 1.2),
  };
  return { shape, halfWidth: sizeMm / 2 / ratio[shape], halfHeight: sizeMm / 2 };
}

function latticeFor({ halfWidth, halfHeight }: Outline): Lattice {
  const pad = 0.13 * halfWidth + 3.5;
  const pitch = Math.min(0.13, Math.max(0.035, (2 * (halfHeight + pad)) / 560));
  return latticeOver(halfWidth + pad, halfHeight + pad, pitch);
}

/** A layout of the recipe's size, shape and motif, or of such as are drawn. */
export function newLayout(
  recipe: Pick<PairRecipe, 'displacementUm' | 'sizeMm' | 'shape' | 'motif'>,
  chance: Chance,
): Layout {
  const least = (recipe.displacementUm ?? 0) > 250 ? 25 : 12;
  const sizeMm = recipe.sizeMm ?? chance.logRange(least, 72);
  const shape = recipe.shape ?? chance.choose(['round', 'round', 'oval', 'pointed', 'pointed', 'shield'] as const);
  return layoutOf(outlineOf(shape, sizeMm, chance), recipe.motif ?? chance.choose(motifKinds), chance);
}

function firstMatrix(recipe: PairRecipe, chance: Chance, counter: Counter): Cut {
  const layout = newLayout(recipe, chance);
  const drawing = draw(layout, letterHand(chance.branch('hand')), chance.branch('drawing'));
  const made = cutMatrix(drawing, latticeFor(layout.outline), chance.branch('cutting'));
  const cracked = { none: 0, some: 0.25, many: 0.6 }[recipe.accidents];
  return { drawing, made: chance.yes(cracked) ? hurtMatrix(made, matrixCrack, chance.branch('crack'), counter) : made };
}

/** The matrix that the second object comes from. */
function secondMatrix(recipe: PairRecipe, first: Cut, displacementUm: number, chance: Chance, counter: Counter): Cut {
  const { drawing, made } = first;
  const own = chance.branch('second matrix');
  switch (recipe.relation) {
    case 'state': {
      const drawn = own.choose([cutThrough, cutThrough, cutThrough, matrixCrack, recutLetter(drawing)]);
      const named = { cut: cutThrough, matrixCrack, letterRecut: recutLetter(drawing) };
      const wound = recipe.wound ? named[recipe.wound] : drawn;
      return { drawing, made: hurtMatrix(made, wound, own, counter) };
    }
    case 'recast': {
      const impression = press(made, pressing(own, 'none', false), own.branch('press'));
      const shrink = own.choose([own.range(0.01, 0.026), own.range(-0.002, 0.004)]);
      return { drawing, made: trimToMatrix(mould(impression, shrink, own), own) };
    }
    case 'handCopy': {
      const copy = copyByHand(drawing, displacementUm / 1000, own.branch('copy'));
      const scale = own.range(0.985, 1.01);
      return {
        drawing: copy,
        made: { ...cutMatrix(copy, made.lattice, own.branch('cutting'), made.outside), scale: [scale, scale, scale] },
      };
    }
    case 'sameMotif':
      return motifCutAnew(first, own);
    case 'legendRecut':
      return legendRecut(first, chance, own);
    case 'unrelated': {
      const near = own.yes(0.5)
        ? { ...recipe, shape: drawing.outline.shape, sizeMm: 2 * drawing.outline.halfHeight }
        : recipe;
      const motif = own.choose(motifKinds);
      return firstMatrix({ ...near, motif, accidents: 'none' }, own, counter);
    }
    default:
      return first;
  }
}

function motifCutAnew({ drawing, made }: Cut, chance: Chance): Cut {
  const freedom = 2 * drawing.outline.halfWidth * chance.range(0.012, 0.03);
  const rest = motifAnew(drawing.rest, drawing, freedom, chance.branch('motif'));
  const written = drawLegend(drawing.rings, drawing.outline, letterHand(chance), chance.branch('legend'));
  const anew = { ...drawing, rest, ...written };
  return { drawing: anew, made: cutMatrix(anew, made.lattice, chance.branch('cutting'), made.outside) };
}

/** The old motif to the last burr, the legend's band scraped down and written anew. */
function legendRecut({ drawing, made }: Cut, pair: Chance, chance: Chance): Cut {
  const anew = {
    ...drawing,
    ...drawLegend(drawing.rings, drawing.outline, letterHand(chance), chance.branch('legend')),
  };
  // The motif is cut first and from the same chance: it comes out the same.
  const cut = cutMatrix(anew, made.lattice, pair.branch('first matrix').branch('cutting'), made.outside);
  const z = cut.z.slice();
  const condition = cut.condition.slice();
  const scraped = chance.range(0.02, 0.1);
  const edge = drawing.rings[0].footInset - drawing.rings[0].letterMm;
  const inner = drawing.rings[drawing.rings.length - 1].footInset;
  for (let i = 0; i < z.length; i++) {
    const inset = -cut.outside[i];
    const band = ramp(inset, edge * 0.7, edge) * (1 - ramp(inset, inner, inner + 0.2 * edge));
    z[i] += scraped * band;
    if (Math.abs(z[i] - made.z[i]) > 0.0005 && inset > 0) condition[i] = conditionCode.recut;
  }
  return { drawing: anew, made: { ...cut, z, condition } };
}

const fromNoOther = (recipe: PairRecipe): boolean => recipe.relation === 'same' || recipe.relation === 'cast';

function makeReference(recipe: PairRecipe, cut: Cut, chance: Chance, counter: Counter): Told {
  const { drawing } = cut;
  const moulds = recipe.question === 'twoNegatives' && fromNoOther(recipe) && chance.yes(0.6);
  if (recipe.question === 'twoPositives' || moulds) {
    const impression = press(
      cut.made,
      pressing(chance, recipe.lip, recipe.accidents === 'many'),
      chance.branch('press'),
    );
    const amount = recipe.accidents === 'none' ? 'none' : 'some';
    const made = hurt(impression, false, amount, chance.branch('hurt'), counter);
    if (!moulds) return { made, kind: 'impression', drawing };
    return { made: mould(made, chance.range(-0.003, 0.012), chance.branch('mould')), kind: 'mould', drawing };
  }
  const dirty = chance.yes({ none: 0, some: 0.3, many: 0.6 }[recipe.accidents]);
  const made = dirty ? hurtMatrix(cut.made, clogging, chance.branch('clogged'), counter) : cut.made;
  return { made, kind: 'matrix', drawing };
}

function makeSubject(recipe: PairRecipe, cut: Cut, reference: Told, chance: Chance, counter: Counter): Told {
  const { drawing } = cut;
  const many = recipe.accidents === 'many';
  const impression = (): Made => press(cut.made, pressing(chance, recipe.lip, many), chance.branch('press'));
  const moulded = (object: Made, name: string): Made => mould(object, chance.range(-0.003, 0.012), chance.branch(name));
  const hurtToday = (made: Made, cast: boolean): Made =>
    hurt(made, cast, recipe.accidents, chance.branch('hurt'), counter);
  if (recipe.relation === 'cast') {
    if (recipe.question === 'negativePositive')
      return {
        made: hurtToday(moulded(moulded(hurt(impression(), false, 'some', chance, counter), 'mould'), 'cast'), true),
        kind: 'cast',
        drawing,
      };
    // A cast of the reference, or what was moulded from it: it shares the reference's accidents.
    const once = moulded(reference.kind === 'matrix' ? impression() : reference.made, 'mould');
    const again = reference.kind === 'matrix' ? once : moulded(once, 'cast');
    return { made: hurtToday(again, true), kind: recipe.question === 'twoPositives' ? 'cast' : 'mould', drawing };
  }
  if (recipe.question !== 'twoNegatives') return { made: hurtToday(impression(), false), kind: 'impression', drawing };
  if (recipe.relation === 'same')
    return { made: hurtToday(moulded(impression(), 'mould'), true), kind: 'mould', drawing };
  return { made: cut.made, kind: 'matrix', drawing };
}
