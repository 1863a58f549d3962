import type { Random } from '../../src/core/geometry/index.ts';
import { type Accident, everydayAccidents } from './accidents.ts';
import { chanceFor } from './chance.ts';
import type { DamagedDie } from './damage.ts';
import type { Die } from './die.ts';
import { blurred, copyField } from './field.ts';
import { bit, type GeneratedScan, type Sense } from './types.ts';
import { clog, flatten, type Relief, rub, slip, translucent, underfill } from './wax.ts';

/** An object as it came to be, before a scanner sees it: its relief, its size against the die, its own marks. */
export interface Made {
  readonly kind: GeneratedScan['kind'];
  readonly sense: Sense;
  readonly relief: Relief;
  /** Size ÷ the size of the die that the design was cut in. */
  readonly size: number;
  readonly marks: readonly Accident[];
  readonly wornMm: number;
}

export interface ImpressionChoice {
  /** 0 to 1. */
  readonly wear: number;
  readonly shrink: number;
  readonly clutter: number;
  readonly underfilled: number;
  readonly flattened: number;
  readonly slipMm: number;
  readonly blurMm: number;
  /** Letters that dirt in the die kept from printing. */
  readonly clogged: number;
}

/** Wax pressed into the die, let cool, and what happened to it since. */
export function impressionFrom(die: Die, choice: ImpressionChoice, seed: number, state?: DamagedDie): Made {
  const relief: Relief = { field: copyField(die.depth), flags: new Uint16Array(die.depth.z.length) };
  if (state) for (let i = 0; i < state.changed.length; i++) if (state.changed[i]) relief.flags[i] |= bit.damage;
  clog(relief, someLetters(die, choice.clogged, chanceFor(seed, 'clogged')), bit.notFilled, chanceFor(seed, 'dirt'));
  underfill(relief, choice.underfilled, chanceFor(seed, 'underfill'));
  slip(relief, choice.slipMm, chanceFor(seed, 'slip'));
  const wornMm = rub(relief, choice.wear, chanceFor(seed, 'rub'));
  flatten(relief, choice.flattened, chanceFor(seed, 'flatten'));
  const { outline, sizeMm } = die.design;
  const marks = everydayAccidents(relief, outline, sizeMm, choice.clutter, 'wax', seed);
  translucent(relief, choice.blurMm, 0.2 * choice.blurMm);
  return { kind: 'impression', sense: 'relief', relief, size: 1 - choice.shrink, marks, wornMm };
}

function someLetters(die: Die, count: number, random: Random): Array<{ x: number; y: number; sizeMm: number }> {
  const { letters } = die.design;
  return Array.from({ length: count }, () => {
    const { x, y, heightMm } = random.pick(letters);
    return { x, y, sizeMm: heightMm };
  });
}

/** The die itself, with the scratches and pits of its later life. */
export function matrixFrom(die: Die, clutter: number, seed: number, state?: DamagedDie): Made {
  const relief: Relief = { field: copyField(die.depth), flags: new Uint16Array(die.depth.z.length) };
  if (state) for (let i = 0; i < state.changed.length; i++) if (state.changed[i]) relief.flags[i] |= bit.damage;
  const dirt = chanceFor(seed, 'clogged');
  if (dirt.next() < 0.5 * clutter) clog(relief, someLetters(die, 1 + dirt.below(3), dirt), bit.debris, dirt);
  // On the metal, down is into the die: accidents work on the face as seen, which is the relief upside down.
  const marks = onNegative(relief, () =>
    everydayAccidents(relief, die.design.outline, die.design.sizeMm, clutter, 'metal', seed),
  ).map(turnedRound);
  return { kind: 'matrix', sense: 'intaglio', relief, size: 1, marks, wornMm: 0 };
}

/** Plaster in a mould of a positive: same sense, a little softer, grown by the plaster, with bubbles and pits. */
export function castOf(made: Made, outline: Float64Array, sizeMm: number, clutter: number, seed: number): Made {
  const random = chanceFor(seed, 'cast');
  const relief: Relief = {
    field: copyField(made.relief.field, blurred(made.relief.field, random.between(0.04, 0.09))),
    flags: made.relief.flags.slice(),
  };
  const marks = everydayAccidents(relief, outline, sizeMm, clutter, 'plaster', seed);
  const mould = random.pick([0.001, 0.01, 0.002]);
  const size = made.size * (1 - mould) * (1 + random.between(0.0005, 0.003));
  return { kind: 'cast', sense: made.sense, relief, size, marks: [...made.marks, ...marks], wornMm: made.wornMm };
}

/** Metal cast from a mould of an impression: a copy of the matrix, smaller by the wax's and the metal's shrinkage. */
export function recastFrom(
  impression: Made,
  outline: Float64Array,
  sizeMm: number,
  clutter: number,
  seed: number,
): Made {
  const random = chanceFor(seed, 'recast');
  const relief: Relief = {
    field: copyField(impression.relief.field, blurred(impression.relief.field, random.between(0.06, 0.14))),
    flags: impression.relief.flags.slice(),
  };
  castingSkin(relief, random);
  const marks = onNegative(relief, () => everydayAccidents(relief, outline, sizeMm, clutter, 'metal', seed)).map(
    turnedRound,
  );
  const waxModel = random.next() < 0.4 ? random.between(0.01, 0.02) : 0;
  const size = impression.size * (1 - random.between(0.012, 0.018)) * (1 - waxModel);
  return {
    kind: 'matrix',
    sense: 'intaglio',
    relief,
    size,
    marks: [...impression.marks, ...marks],
    wornMm: impression.wornMm,
  };
}

const turnedRound = (mark: Accident): Accident => ({ ...mark, raised: !mark.raised });

/** Cast metal keeps the grain of its mould: shallow roughness and a few beads, which fill hollows of the copy. */
function castingSkin(relief: Relief, random: Random): void {
  const grain = copyField(relief.field, new Float32Array(relief.field.z.length));
  for (let i = 0; i < grain.z.length; i++) grain.z[i] = random.next() - 0.5;
  const soft = blurred(grain, 0.12);
  const strength = 0.012 / Math.max(1e-6, spread(soft));
  for (let i = 0; i < soft.length; i++) relief.field.z[i] += strength * soft[i];
}

function spread(values: Float32Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i += 7) sum += values[i] ** 2;
  return Math.sqrt(sum / (values.length / 7));
}

function onNegative<T>(relief: Relief, work: () => T): T {
  const { z } = relief.field;
  for (let i = 0; i < z.length; i++) z[i] = -z[i];
  const result = work();
  for (let i = 0; i < z.length; i++) z[i] = -z[i];
  return result;
}
