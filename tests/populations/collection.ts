import type { Face } from '../../src/core/face/index.ts';
import { breakOff } from './breakOff.ts';
import { type Chance, chanceOf } from './chance.ts';
import { copyByHand } from './copying.ts';
import { cutMatrix } from './cutMatrix.ts';
import { type Drawing, draw, letterHand } from './drawing.ts';
import { faceOf } from './faceOf.ts';
import { latticeOver, smooth } from './lattice.ts';
import type { Made } from './made.ts';
import { newLayout } from './story.ts';
import { conditionCode, type ObjectKind } from './types.ts';
import { mould, press, pressing } from './wax.ts';
import { type Counter, hurt } from './wounds.ts';

/** How many of what a collection holds. */
export interface CollectionPlan {
  readonly matrices: number;
  readonly objectsEach: number;
  /** Matrices that have a sister copied by hand, with `sisterObjects` objects of their own. */
  readonly sisters: number;
  readonly sisterObjects: number;
  /** How far a sister is out of place, µm: log-uniform between these. */
  readonly sisterUm: readonly [least: number, most: number];
  readonly casts: number;
  readonly singletons: number;
  readonly mirrored: number;
  /** Cells across a face's long side, about. */
  readonly across: number;
}

export const plainPlan: CollectionPlan = {
  matrices: 10,
  objectsEach: 8,
  sisters: 5,
  sisterObjects: 2,
  sisterUm: [60, 300],
  casts: 10,
  singletons: 20,
  mirrored: 5,
  across: 170,
};

/** An object as its maker knows it; its face is made when asked for. */
export interface CollectedObject {
  readonly id: string;
  /** Objects of one matrix, or of faithful copies of it, share it. */
  readonly matrix: string;
  readonly kind: ObjectKind;
  /** Object that this is a cast of. */
  readonly castOf: string | null;
  /** Of a sister: the matrix that it copies, and by how much it is out of place, µm. */
  readonly sisterOf: string | null;
  readonly displacementUm: number | null;
  readonly decoy: 'mirrored' | null;
  /** Share of the image that breaks left. */
  readonly imageLeft: number;
  readonly wear: number;
  readonly sizeMm: number;
  readonly made: () => Made;
  readonly face: () => Face;
}

/**
 * A collection of known truth, the same for the same seed: `matrices` with objects of graded wear and loss (the first whole, the
 * last with a third left), the matrix itself among them in half of the cases; sisters copied by hand, by `sisterUm` out of place; casts of objects;
 * singletons; faces of mirrored files.
 */
export function makeCollection(seed: number, plan: CollectionPlan = plainPlan): CollectedObject[] {
  const chance = chanceOf(`collection ${seed}`);
  const out: CollectedObject[] = [];
  for (let m = 0; m < plan.matrices; m++) {
    const own = chance.branch(`matrix ${m}`);
    const cut = newMatrix(own, plan.across);
    const name = `${seed}-M${m}`;
    out.push(...objectsOf(cut, name, plan.objectsEach, own, plan));
    if (m < plan.sisters) out.push(...sister(cut, name, own.branch('sister'), plan));
  }
  for (let k = 0; k < plan.singletons; k++) {
    const own = chance.branch(`singleton ${k}`);
    out.push(...objectsOf(newMatrix(own, plan.across), `${seed}-S${k}`, 1, own, plan));
  }
  const originals = out.filter((o) => o.kind === 'impression' && o.matrix.includes('-M'));
  for (let k = 0; k < plan.casts; k++) out.push(castOf(originals[(k * 7) % originals.length], k, chance, plan));
  for (let k = 0; k < plan.mirrored; k++) {
    const of = originals[(k * 11 + 3) % originals.length];
    const face = () => faceOf(of.made(), { ...scanning(chance.branch(`mirror ${k}`), plan), mirrored: true });
    out.push({ ...of, id: `${of.id}-mirrored`, matrix: `${of.matrix}-mirrored`, decoy: 'mirrored', face });
  }
  return out;
}

interface Cut {
  readonly made: Made;
  readonly drawing: Drawing;
}

function newMatrix(chance: Chance, across: number): Cut {
  const layout = newLayout({ sizeMm: chance.logRange(16, 72) }, chance.branch('layout'));
  const drawing = draw(layout, letterHand(chance.branch('hand')), chance.branch('drawing'));
  const { halfWidth, halfHeight } = layout.outline;
  const pad = 0.13 * halfWidth + 3.5;
  const lattice = latticeOver(halfWidth + pad, halfHeight + pad, (2 * halfHeight) / (1.3 * across));
  return { drawing, made: cutMatrix(drawing, lattice, chance.branch('cutting')) };
}

function sister({ drawing, made }: Cut, name: string, chance: Chance, plan: CollectionPlan): CollectedObject[] {
  const displacementUm = chance.logRange(...plan.sisterUm);
  const copy = copyByHand(drawing, displacementUm / 1000, chance.branch('copy'));
  const anew = cutMatrix(copy, made.lattice, chance.branch('cutting'), made.outside);
  const list = objectsOf({ drawing: copy, made: anew }, `${name}-sister`, plan.sisterObjects, chance, plan);
  return list.map((object) => ({ ...object, sisterOf: name, displacementUm }));
}

/** Loss and wear by rank: whole and sharp first, a third left and rubbed last. */
const leftAt = [1, 0.95, 0.85, 0.75, 0.65, 0.55, 0.42, 0.33];

function objectsOf(cut: Cut, matrix: string, count: number, chance: Chance, plan: CollectionPlan): CollectedObject[] {
  const withMatrix = chance.yes(0.5);
  return Array.from({ length: count }, (_, k) => {
    const own = chance.branch(`object ${k}`);
    const isMatrix = k === 0 && withMatrix;
    const rank = count === 1 ? own.whole(leftAt.length) : k % leftAt.length;
    const imageLeft = isMatrix ? 1 : leftAt[rank];
    const wear = isMatrix ? 0 : Math.min(1, Math.max(0, own.range(0, 0.3) + 0.1 * ((k * 5) % 8)));
    const made = once(() => (isMatrix ? cut.made : impressionOf(cut, imageLeft, wear, own)));
    return {
      id: `${matrix}-${k}`,
      matrix,
      kind: isMatrix ? 'matrix' : 'impression',
      castOf: null,
      sisterOf: null,
      displacementUm: null,
      decoy: null,
      imageLeft,
      wear,
      sizeMm: 2 * cut.drawing.outline.halfHeight,
      made,
      face: () => faceOf(made(), scanning(own.branch('scan'), plan)),
    };
  });
}

function impressionOf({ made }: Cut, imageLeft: number, wear: number, chance: Chance): Made {
  const counter: Counter = { next: 0 };
  const lip = chance.choose(['none', 'some', 'many'] as const);
  const pressed = press(made, pressing(chance, lip, chance.yes(0.3)), chance.branch('press'));
  const amount = chance.choose(['none', 'some', 'many'] as const);
  const hurtToday = hurt(rub(pressed, wear), false, amount, chance.branch('hurt'), counter);
  return breakOff(hurtToday, imageLeft, chance.branch('break'), counter);
}

/** Handling: what stands above the lower third is taken down by up to 60 %, and all is rounded by up to 0.12 mm. */
function rub(object: Made, wear: number): Made {
  const { lattice, outside, z } = object;
  const inside = z.filter((_, i) => outside[i] <= 0).sort();
  const level = inside[Math.floor(inside.length * 0.6)];
  const worn = z.map((h, i) => (outside[i] <= 0 && h > level ? level + (1 - 0.6 * wear) * (h - level) : h));
  const condition = object.condition.map((code, i) =>
    code === conditionCode.sound && z[i] - worn[i] > 0.05 ? conditionCode.worn : code,
  );
  return { ...object, condition, z: wear > 0.05 ? smooth(lattice, worn, 0.12 * wear) : worn };
}

function castOf(of: CollectedObject, k: number, chance: Chance, plan: CollectionPlan): CollectedObject {
  const own = chance.branch(`cast ${k}`);
  const made = once(() => {
    const moulded = mould(of.made(), own.range(-0.003, 0.012), own.branch('mould'));
    const cast = mould(moulded, own.range(-0.003, 0.012), own.branch('cast'));
    return hurt(cast, true, 'some', own.branch('hurt'), { next: 100 });
  });
  const face = () => faceOf(made(), scanning(own.branch('scan'), plan));
  return { ...of, id: `${of.id}-cast${k}`, kind: 'cast', castOf: of.id, made, face };
}

/** A sixth of the files are wound the wrong way round and state no kind. */
function scanning(chance: Chance, plan: CollectionPlan) {
  const reversed = chance.yes(1 / 6);
  return {
    chance,
    across: plan.across * chance.range(0.8, 1.2),
    noiseUm: chance.logRange(2, 20),
    turnDeg: chance.range(0, 360),
    reversed,
    stated: !reversed && chance.yes(0.6),
    mirrored: false,
  };
}

function once<T>(make: () => T): () => T {
  let kept: { value: T } | null = null;
  return () => {
    kept ??= { value: make() };
    return kept.value;
  };
}
