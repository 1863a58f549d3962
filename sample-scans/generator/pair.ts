import { invert, type Random, type Similarity } from '../../src/core/geometry/index.ts';
import type { Accident } from './accidents.ts';
import { chanceFor, subSeed } from './chance.ts';
import { type DamagedDie, type DieDamageKind, damageDie } from './damage.ts';
import { type Design, type DesignChoice, designSeal, recut } from './design.ts';
import { engrave } from './die.ts';
import { differencesFrom } from './difference.ts';
import { heightAt, nearestCell } from './field.ts';
import type { Hand, HandName } from './hands.ts';
import { breakOff, type Remains } from './loss.ts';
import { castOf, type ImpressionChoice, impressionFrom, type Made, matrixFrom, recastFrom } from './made.ts';
import { type MotifName, motifNames } from './motifs/index.ts';
import { buildObject } from './object.ts';
import { type Placement, place, randomPose } from './placement.ts';
import { type ScanFaults, type ScannedShell, scan } from './scanning.ts';
import { scatterStyles } from './scatter.ts';
import {
  bit,
  type GeneratedPair,
  type GeneratedScan,
  mmPerUnit,
  type PairTruth,
  type Recipe,
  type ScanUnit,
  type TrueDamage,
} from './types.ts';
import { leastSquaresSimilarity } from './umeyama.ts';
import { noWarp, randomWarp } from './warp.ts';

export type HandOf = (name: HandName) => Hand;

/** One object scanned: where its design lies in the file and what was recorded. */
interface Scanned {
  readonly made: Made;
  readonly design: Design;
  readonly placement: Placement;
  readonly shell: ScannedShell;
  readonly whiteMm: number;
}

/** A reference, a subject, and all that is true of them. Deterministic in the recipe. */
export function makePair(recipe: Recipe, handOf: HandOf): GeneratedPair {
  const pitchMm = pitchFor(recipe);
  const { reference, subject, referenceDesign, subjectDesign, dieMarks } = objectsOf(recipe, handOf, pitchMm);
  const a = scanObject(recipe, 'reference', reference, referenceDesign);
  const b = scanObject(recipe, 'subject', subject, subjectDesign);
  const sameFace = !['handCopy', 'stockMotif', 'unrelated'].includes(recipe.relation);
  const similarity = sameFace ? trueSimilarity(a, b) : null;
  const differences = similarity ? trueDifferences(a, b, similarity) : undefined;
  return {
    recipe,
    reference: finish(a, recipe.referenceUnit, recipe.reversedWinding && recipe.seed % 2 === 0),
    subject: { ...finish(b, recipe.subjectUnit, recipe.reversedWinding), trueDifference: differences },
    truth: truthOf(recipe, a, b, similarity, dieMarks),
  };
}

/** Cell of the height field: finer than the scan's points, within what the smallest strokes need. */
function pitchFor(recipe: Recipe): number {
  const spacing = Math.sqrt((0.7 * recipe.sizeMm ** 2) / recipe.vertices);
  return Math.max(recipe.sizeMm / 1400, Math.min(recipe.sizeMm / 420, 0.075, 0.6 * spacing));
}

interface Objects {
  readonly reference: Made;
  readonly subject: Made;
  readonly referenceDesign: Design;
  readonly subjectDesign: Design;
  readonly dieMarks: ReadonlyArray<{ mark: Accident; inReference: boolean; inSubject: boolean }>;
}

function objectsOf(recipe: Recipe, handOf: HandOf, pitchMm: number): Objects {
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
function dieState(recipe: Recipe, die: ReturnType<typeof engrave>, random: Random): DamagedDie | undefined {
  const changes = recipe.relation === 'laterState' || recipe.relation === 'earlierState';
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
    slipMm: some(0.06 * recipe.clutter, 0.2, 0.8),
    blurMm: some(0.3 * recipe.clutter, 0.04, 0.14),
  };
}

function scanObject(recipe: Recipe, role: 'reference' | 'subject', made: Made, design: Design): Scanned {
  const random = chanceFor(recipe.seed, `${role} scan`);
  const isSubject = role === 'subject';
  const soft = made.kind !== 'matrix';
  const whole = (isSubject ? recipe.wholeSubject : recipe.wholeReference) ?? recipe.whole;
  const remains: Remains = breakOff(
    design.outline,
    design.sizeMm,
    isSubject ? recipe.coverage : 1,
    chanceFor(recipe.seed, `${role} loss`),
  );
  const handle = random.pick(['cone', 'fin', 'fin', 'none'] as const);
  const shell = buildObject(
    {
      relief: made.relief,
      sense: made.sense,
      outline: design.outline,
      sizeMm: design.sizeMm,
      remains,
      whole,
      marginMm: soft
        ? whole
          ? recipe.lipMm + random.between(1, 5)
          : recipe.lipMm * random.next()
        : random.between(0, 0.6),
      vertices: recipe.vertices,
      style: random.pick(scatterStyles),
      handle: soft ? 'none' : handle,
      table: whole && random.next() < 0.25 * recipe.clutter,
    },
    random,
  );
  const faults = faultsFor(recipe, chanceFor(recipe.seed, `${role} faults`));
  const warpMm = soft ? (isSubject ? recipe.warpMm : 0.5 * recipe.warpMm) : 0;
  const placement: Placement = {
    sense: made.sense,
    size: made.size,
    warp: warpMm > 0 ? randomWarp(design.sizeMm / 2, warpMm, chanceFor(recipe.seed, `${role} warp`)) : noWarp,
    scanFromFace: randomPose(chanceFor(recipe.seed, `${role} pose`), recipe.offsetMm, isSubject && recipe.mirrored),
  };
  return {
    made,
    design,
    placement,
    shell: scan(shell, faults, design.sizeMm, chanceFor(recipe.seed, `${role} noise`)),
    whiteMm: faults.whiteMm,
  };
}

function faultsFor(recipe: Recipe, random: Random): ScanFaults {
  const { clutter, noiseMm, sizeMm } = recipe;
  return {
    correlatedMm: noiseMm * random.between(0.7, 1),
    whiteMm: noiseMm * random.between(0.3, 0.7),
    correlationMm: random.between(0.3, 1),
    holes: Math.round(clutter * 5 * random.next()),
    holeMm: 0.06 * sizeMm,
    spikesPerThousand: clutter * random.between(0, 0.6),
    strayPieces: random.next() < 0.3 * clutter ? 1 + random.below(3) : 0,
    doubledShare: random.next() < 0.15 * clutter ? random.between(0.1, 0.4) : 0,
    shuffled: random.next() < 0.3,
  };
}

/** Flags that do not move a surface point off the die's own shape. */
const soundBits = bit.face;

/** Subject's and reference's places of the same design points, sound on both, in the files, mm. */
function trueSimilarity(reference: Scanned, subject: Scanned): Similarity {
  const sound = matchingPoints(reference, subject, soundBits);
  const both =
    sound.length >= 900
      ? sound
      : matchingPoints(reference, subject, 0xffff & ~(bit.spike | bit.lip | bit.wall | bit.back));
  const onReference = both.slice();
  for (let i = 0; i < both.length; i += 3)
    onReference[i + 2] = heightAt(reference.made.relief.field, both[i], both[i + 1]);
  return leastSquaresSimilarity(place(subject.placement, both), place(reference.placement, onReference));
}

function matchingPoints(reference: Scanned, subject: Scanned, allowed: number): Float64Array {
  const { bits, clean } = subject.shell;
  const { field, flags } = reference.made.relief;
  const points: number[] = [];
  // Twenty thousand points settle the similarity to well under a micrometre.
  const step = Math.max(1, Math.floor(bits.length / 20_000));
  for (let i = 0; i < bits.length; i += step) {
    if (!(bits[i] & bit.face) || bits[i] & ~allowed) continue;
    if (flags[nearestCell(field, clean[3 * i], clean[3 * i + 1])] & ~allowed) continue;
    points.push(clean[3 * i], clean[3 * i + 1], clean[3 * i + 2]);
  }
  return Float64Array.from(points);
}

function trueDifferences(reference: Scanned, subject: Scanned, similarity: Similarity): Float32Array {
  const { bits, clean } = subject.shell;
  const wanted = new Uint8Array(bits.length);
  for (let i = 0; i < bits.length; i++) wanted[i] = bits[i] & bit.face && !(bits[i] & bit.spike) ? 1 : 0;
  return differencesFrom(
    place(subject.placement, clean),
    wanted,
    similarity,
    reference.placement,
    reference.made.relief.field,
    subject.made.sense === 'relief' ? 1 : -1,
  );
}

function finish(scanned: Scanned, unit: ScanUnit, reversed: boolean): GeneratedScan {
  const positions = place(scanned.placement, scanned.shell.points);
  for (let i = 0; i < positions.length; i++) positions[i] /= mmPerUnit[unit];
  const triangles = scanned.shell.triangles;
  if (reversed)
    for (let i = 0; i < triangles.length; i += 3) {
      const b = triangles[i + 1];
      triangles[i + 1] = triangles[i + 2];
      triangles[i + 2] = b;
    }
  return {
    positions,
    triangles,
    bits: scanned.shell.bits,
    unit,
    sense: scanned.made.sense,
    kind: scanned.made.kind,
    faceFromScan: invert(scanned.placement.scanFromFace),
  };
}

function truthOf(
  recipe: Recipe,
  a: Scanned,
  b: Scanned,
  similarity: Similarity | null,
  dieMarks: Objects['dieMarks'],
): PairTruth {
  const toFace = faceOf(a);
  const line = (points: ArrayLike<number>): Float64Array => {
    const out = new Float64Array(points.length);
    for (let i = 0; i < out.length; i += 2) {
      const [x, y] = toFace(points[i], points[i + 1]);
      out[i] = x;
      out[i + 1] = y;
    }
    return out;
  };
  const damage = (mark: Accident, carriedBy: TrueDamage['carriedBy'], inSubject: boolean): TrueDamage => ({
    ...mark,
    polyline: line(mark.polyline),
    carriedBy,
    inSubject,
  });
  let face = 0;
  let worn = 0;
  for (const bits of b.shell.bits) {
    if (bits & bit.face) face++;
    if (bits & bit.worn) worn++;
  }
  const otherDie = similarity === null;
  return {
    sameMatrix: !otherDie && recipe.relation !== 'recastMatrix',
    relation: recipe.relation,
    referenceFromSubject: similarity,
    scale: similarity?.scale ?? null,
    sizeRatio: b.made.size / a.made.size,
    turnedOver: a.made.sense !== b.made.sense,
    mirrored: recipe.mirrored,
    referenceLegend: a.design.legend,
    subjectLegend: b.design.legend,
    letters: a.design.letters.map(({ char, x, y, heightMm }) => {
      const [fx, fy] = toFace(x, y);
      const angleDeg = ((Math.atan2(x, y) * 180) / Math.PI + 360) % 360;
      return { char, angleDeg, x: fx, y: fy, heightMm: heightMm * a.made.size };
    }),
    shape: a.design.shape,
    outline: line(a.design.outline),
    bandInnerOuterMm: [a.design.bandInnerOuterMm[1] * a.made.size, a.design.bandInnerOuterMm[0] * a.made.size],
    damage: [
      ...dieMarks.map(({ mark, inReference, inSubject }) =>
        damage(mark, inReference && inSubject ? 'both' : inReference ? 'reference' : 'subject', inSubject),
      ),
      ...a.made.marks.map((mark) => damage(mark, 'reference', false)),
      ...(otherDie ? [] : b.made.marks.map((mark) => damage(mark, 'subject', true))),
    ],
    wear: { amount: recipe.wear, deepestMm: b.made.wornMm, wornFraction: face ? worn / face : 0 },
    whiteNoiseMm: b.whiteMm,
  };
}

/** Design plane → reference's face frame, warp included. */
function faceOf({ placement }: Scanned): (x: number, y: number) => readonly [number, number] {
  const shift = new Float64Array(3);
  const flip = placement.sense === 'intaglio' ? -1 : 1;
  return (x, y) => {
    placement.warp.shift(x, y, shift);
    return [flip * placement.size * (x + shift[0]), placement.size * (y + shift[1])];
  };
}
