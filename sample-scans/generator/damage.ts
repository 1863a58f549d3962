import type { Random } from '../../src/core/geometry/index.ts';
import { type Accident, lineLength, mark, wanderer, wanderFrom } from './accidents.ts';
import { roughField, smoothField } from './chance.ts';
import type { Cut, Stroke } from './cuts.ts';
import type { Die } from './die.ts';
import { engraver } from './engraver.ts';
import { copyField, eachCell } from './field.ts';

export type DieDamageKind = 'cut' | 'crack' | 'recut' | 'corrosion';

/** A later state of the die, and where it changed. */
export interface DamagedDie {
  readonly die: Die;
  readonly marks: readonly Accident[];
  /** 1 where the depth changed by more than 20 µm. */
  readonly changed: Uint8Array;
}

/** Applies the kinds in time order. */
export function damageDie(die: Die, kinds: readonly DieDamageKind[], random: Random): DamagedDie {
  const depth = copyField(die.depth);
  let design = die.design;
  const marks: Accident[] = [];
  for (const kind of kinds) {
    const now = { design, depth };
    if (kind === 'cut') marks.push(strikeThrough(now, random));
    if (kind === 'crack') marks.push(crackThrough(now, random));
    if (kind === 'corrosion') marks.push(corrode(now, random));
    if (kind === 'recut') {
      const done = recutLetter(now, random);
      design = done.design;
      marks.push(done.mark);
    }
  }
  // What is cut into the die stands up on everything made from it.
  const raised = marks.map((mark) => ({ ...mark, raised: true }));
  const changed = new Uint8Array(depth.z.length);
  for (let i = 0; i < changed.length; i++) changed[i] = Math.abs(depth.z[i] - die.depth.z[i]) > 0.02 ? 1 : 0;
  return { die: { design, depth }, marks: raised, changed };
}

/**
 * A chisel or file cut across the face, as cancelled seals carry. It goes to a depth below the face plane, so it
 * scores the face and passes over deeper hollows; metal is thrown up along both sides.
 */
export function strikeThrough(die: Die, random: Random, across?: { angle: number; offset: number }): Accident {
  const { sizeMm } = die.design;
  const angle = across?.angle ?? random.between(0, Math.PI);
  const offset = across?.offset ?? random.between(-0.15, 0.15) * sizeMm;
  const length = sizeMm * random.between(0.75, 1.15);
  const line = wanderFrom(-Math.sin(angle) * offset, Math.cos(angle) * offset, angle, length, 0.008, random);
  const radius = random.between(0.3, 0.65) * Math.sqrt(sizeMm / 40);
  const depthMm = radius * random.between(0.9, 1.5);
  const groove: Stroke = {
    ...wanderer(line, radius, depthMm),
    section: random.pick(['vee', 'round'] as const),
    chatterMm: 0.015,
  };
  const before = die.depth.z.slice();
  engraver(die.depth).cut(groove, random.below(1e9));
  raiseBurr(die, line, radius, before, random);
  return mark('cut', line, depthMm, 2 * radius, lineLength(line));
}

/** Burr: up to 0.15 mm high beside the groove, uneven, where the face was not cut. */
function raiseBurr(die: Die, line: Float64Array, radius: number, before: Float32Array, random: Random): void {
  const { depth } = die;
  const heap = copyField(depth, new Float32Array(depth.z.length));
  const tool = engraver(heap);
  tool.cut({ ...wanderer(line, radius * 1.7, random.between(0.05, 0.15)), section: 'round' }, 1);
  const uneven = smoothField(random, 1.5);
  eachCell(depth, (index, x, y) => {
    if (heap.z[index] <= 0 || depth.z[index] > before[index] + 0.01 || before[index] > 0.15) return;
    depth.z[index] -= heap.z[index] * Math.max(0, 0.4 + 0.6 * uneven(x, y));
  });
}

/** A crack through the metal: narrow, wandering, crossing hollows and face alike; it may fork. */
function crackThrough(die: Die, random: Random): Accident {
  const { sizeMm } = die.design;
  const t = random.between(0, 2 * Math.PI);
  const r = 0.32 * sizeMm;
  const long = sizeMm * random.between(0.25, 0.5);
  const line = wanderFrom(r * Math.cos(t), r * Math.sin(t), t + random.between(-0.6, 0.6), long, 0.06, random);
  const width = random.between(0.1, 0.3);
  const depthMm = random.between(0.15, 0.5);
  if (random.next() < 0.5) {
    const k = 2 * (8 + random.below(9));
    const fork = wanderFrom(line[k], line[k + 1], t + random.between(0.6, 1.2), sizeMm * 0.15, 0.06, random);
    crackAlong(die, fork, 0.7 * width, 0.7 * depthMm);
  }
  return crackAlong(die, line, width, depthMm);
}

/** Opens a crack along the line: `depthMm` deep wherever it runs, `widthMm` wide, closing toward its ends. */
export function crackAlong(die: Die, line: Float64Array, widthMm: number, depthMm: number): Accident {
  engraver(die.depth).cut({ ...wanderer(line, widthMm / 2, depthMm), mode: 'add' }, 1);
  return mark('crack', line, depthMm, widthMm, lineLength(line));
}

/** A worn letter gone over again: bolder, deeper, not quite in its old place. */
function recutLetter(die: Die, random: Random): { design: Die['design']; mark: Accident } {
  const { design } = die;
  const letter = design.letters[random.below(design.letters.length)];
  const old = design.cuts[letter.cut];
  const angle = random.between(0, 2 * Math.PI);
  const shift = random.between(0.05, 0.12);
  const moved: Cut =
    old.kind === 'region'
      ? {
          ...old,
          boldMm: old.boldMm + 0.07,
          depthMm: old.depthMm * 1.45,
          contours: old.contours.map((c) =>
            c.map((value, i) => value + shift * (i % 2 === 0 ? Math.cos(angle) : Math.sin(angle))),
          ),
        }
      : { ...old, depthMm: old.depthMm * 1.45 };
  engraver(die.depth).cut(moved, random.below(1e9));
  const h = letter.heightMm / 2;
  const square = [
    letter.x - h,
    letter.y - h,
    letter.x + h,
    letter.y - h,
    letter.x + h,
    letter.y + h,
    letter.x - h,
    letter.y + h,
  ];
  return { design, mark: mark('recut', square, old.depthMm * 0.45, letter.heightMm, letter.heightMm) };
}

/** Corrosion eats pits of 0.1 to 0.6 mm into a patch of the face. */
function corrode(die: Die, random: Random): Accident {
  const { sizeMm } = die.design;
  const t = random.between(0, 2 * Math.PI);
  const r = random.between(0.1, 0.38) * sizeMm;
  const x0 = r * Math.cos(t);
  const y0 = r * Math.sin(t);
  const radius = sizeMm * random.between(0.1, 0.18);
  const rough = roughField(random, 0.7, 3, 0.6);
  const edge = smoothField(random, radius * 0.8);
  const depthMm = random.between(0.06, 0.18);
  eachCell(die.depth, (index, x, y) => {
    const away = Math.hypot(x - x0, y - y0) / radius + 0.35 * edge(x, y);
    if (away >= 1) return;
    die.depth.z[index] += depthMm * Math.min(1, 3 * (1 - away)) * Math.max(0, rough(x, y) * 1.6 + 0.2);
  });
  const ring: number[] = [];
  for (let k = 0; k < 24; k++)
    ring.push(x0 + radius * Math.cos((k * Math.PI) / 12), y0 + radius * Math.sin((k * Math.PI) / 12));
  return mark('corrosion', ring, depthMm, 2 * radius, 2 * radius);
}
