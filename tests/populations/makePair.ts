import { apply, type Similarity, toMatrix4 } from '../../src/core/geometry/index.ts';
import { bestSimilarity } from './bestSimilarity.ts';
import { chanceOf } from './chance.ts';
import { cellAt, latticeOver, valueAt } from './lattice.ts';
import { conditionAt, type Made, type Mark, placeOf } from './made.ts';
import { coveredCells, type Scanned, type Scanning, scanOf } from './scanning.ts';
import { type Story, tell } from './story.ts';
import {
  conditionCode,
  type MadePair,
  type OnFace,
  type PairRecipe,
  type Relation,
  type Support,
  type TrueMark,
} from './types.ts';

const sameMatrix: readonly Relation[] = ['same', 'state', 'cast', 'recast', 'legendRecut'];

/**
 * One pair of known answer, the same for the same seed and recipe. `subjectLaying`: the subject scanned a second time, the same object by the same
 * scanner at the same spacing from the same views, its points elsewhere on the surface and in another pose.
 */
export function makePair(seed: number, recipe: PairRecipe, subjectLaying = 0): MadePair {
  const chance = chanceOf(`pair ${seed}`);
  const story = storyOf(seed, recipe);
  const noiseUm = recipe.noiseUm ?? chance.logRange(2, 20);
  const howOf = (support: Support | undefined, name: string): Scanning => {
    const own = chance.branch(name);
    return {
      support: support ?? own.choose(['trimmed', 'trimmed', 'table', 'closed'] as const),
      spacingMm: recipe.spacingMm * own.range(0.9, 1.1),
      noiseUm,
      unit: recipe.unit ?? 'mm',
      maxVertices: recipe.maxVertices ?? 40_000,
    };
  };
  const reference = scanOf(
    story.reference.made,
    howOf(recipe.referenceSupport, 'how reference'),
    chance.branch('scan reference'),
  );
  const subject = scanOf(
    story.subject.made,
    { ...howOf(recipe.subjectSupport, 'how subject'), laying: subjectLaying },
    chance.branch('scan subject'),
  );
  return {
    reference: reference.scan,
    subject: subject.scan,
    truth: truthOf(recipe, story, reference, subject, noiseUm),
  };
}

/** Both objects of a pair before they are scanned. */
export const storyOf = (seed: number, recipe: PairRecipe): Story =>
  tell(recipe, chanceOf(`pair ${seed}`).branch('story'));

function truthOf(
  recipe: PairRecipe,
  story: Story,
  reference: Scanned,
  subject: Scanned,
  noiseUm: number,
): MadePair['truth'] {
  const { drawing } = story.reference;
  const same = sameMatrix.includes(recipe.relation);
  const fit = same || recipe.relation === 'handCopy' ? trueFit(story, reference, subject) : null;
  return {
    same,
    relation: recipe.relation,
    question: recipe.question,
    subjectToReference: fit && toMatrix4(fit.similarity),
    scale: fit?.similarity.scale ?? null,
    residualRmsMm: fit?.rms ?? null,
    kinds: { reference: story.reference.kind, subject: story.subject.kind },
    imageLeft: imageLeft(story, reference, subject, fit !== null),
    lostShare: lostShare(story.subject.made),
    damage: damageOf(story, reference.fileFromObject, fit !== null),
    state: story.state,
    displacementUm: story.displacementUm,
    referenceLetters: drawing.letters,
    subjectLetters: story.subject.drawing.letters,
    shape: drawing.outline.shape,
    sizeMm: 2 * drawing.outline.halfHeight,
    edgeMm: { reference: story.reference.made.edgeMm, subject: story.subject.made.edgeMm },
    motif: drawing.motif,
    border: drawing.border,
    noiseUm,
    spacingMm: { reference: reference.spacingMm, subject: subject.spacingMm },
    unit: recipe.unit ?? 'mm',
  };
}

/** Where a material point of an object lies in its file, mm. */
function inFile(made: Made, fileFromObject: Similarity, x: number, y: number): readonly number[] {
  const out = new Float64Array(3);
  placeOf(made, x, y, valueAt(made.lattice, made.z, x, y), out, 0);
  return apply(fileFromObject, [out[0], out[1], out[2]]);
}

/** Least squares between the same material points, sound on both objects, without noise. */
function trueFit(story: Story, reference: Scanned, subject: Scanned): { similarity: Similarity; rms: number } {
  const { made } = story.reference;
  const { conditionPerVertex, designPlace, truePositions } = subject.scan;
  const from: number[] = [];
  const to: number[] = [];
  for (let i = 0; i < conditionPerVertex.length; i++) {
    if (conditionPerVertex[i] !== conditionCode.sound) continue;
    const [x, y] = [designPlace[2 * i], designPlace[2 * i + 1]];
    if (conditionAt(made, x, y) !== conditionCode.sound) continue;
    from.push(truePositions[3 * i], truePositions[3 * i + 1], truePositions[3 * i + 2]);
    to.push(...inFile(made, reference.fileFromObject, x, y));
  }
  return bestSimilarity(Float64Array.from(from), Float64Array.from(to));
}

/** Over cells of 0.25 mm; where nothing corresponds, the share of the subject's own image. */
function imageLeft(story: Story, reference: Scanned, subject: Scanned, corresponds: boolean): number {
  const a = story.reference.made;
  const b = story.subject.made;
  const { halfWidth, halfHeight } = b.outline;
  const coarse = latticeOver(halfWidth + 0.5, halfHeight + 0.5, 0.25);
  const seenA = coveredCells(reference.scan, coarse);
  const seenB = coveredCells(subject.scan, coarse);
  let whole = 0;
  let left = 0;
  for (let row = 0, i = 0; row < coarse.height; row++)
    for (let column = 0; column < coarse.width; column++, i++) {
      const x = coarse.left + column * coarse.pitch;
      const y = coarse.bottom + row * coarse.pitch;
      const cell = cellAt(b.lattice, x, y);
      if (b.outside[cell] > 0) continue;
      if (corresponds && (!seenA[i] || a.condition[cellAt(a.lattice, x, y)] === conditionCode.lost)) continue;
      whole++;
      const now = b.condition[cell];
      if (seenB[i] && now !== conditionCode.lost && now !== conditionCode.unfilled) left++;
    }
  return whole ? left / whole : 0;
}

function lostShare({ outside, condition }: Made): number {
  let whole = 0;
  let lost = 0;
  for (let i = 0; i < outside.length; i++) {
    if (outside[i] > 0) continue;
    whole++;
    if (condition[i] === conditionCode.lost) lost++;
  }
  return lost / whole;
}

function damageOf(story: Story, fileFromReference: Similarity, corresponds: boolean): TrueMark[] {
  const a = story.reference.made;
  const b = story.subject.made;
  const has = (made: Made, mark: Mark): boolean => made.marks.some(({ id }) => id === mark.id);
  const on = (made: Made, mark: Mark): OnFace =>
    has(made, mark) ? (mark.up > 0 !== made.negative ? 'raised' : 'sunk') : 'absent';
  const all = new Map([...a.marks, ...b.marks].map((mark) => [mark.id, mark]));
  return [...all.values()].map((mark) => {
    const middle = 2 * Math.floor(mark.path.length / 4);
    const [x, y] = [mark.path[middle], mark.path[middle + 1]];
    const known = corresponds || has(a, mark);
    const path: number[] = [];
    for (let i = 0; i < mark.path.length; i += 2)
      path.push(...inFile(a, fileFromReference, mark.path[i], mark.path[i + 1]));
    return {
      kind: mark.kind,
      carrier: has(a, mark) ? (has(b, mark) ? 'both' : 'reference') : 'subject',
      shape: mark.shape,
      onReference: on(a, mark),
      onSubject: on(b, mark),
      path: known ? path : null,
      atDeg: ((Math.atan2(x, y) * 180) / Math.PI + 360) % 360,
      radiusMm: Math.hypot(x, y),
      widthMm: mark.widthMm,
      depthMm: mark.depthMm,
    };
  });
}
