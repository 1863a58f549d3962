import type { Chance } from './chance.ts';
import type { Drawing } from './drawing.ts';
import { nearCells, ramp, randomSurface, smooth, valueAt } from './lattice.ts';
import type { Made, Mark } from './made.ts';
import { type Stroke, sweep } from './strokes.ts';
import { type Amount, conditionCode } from './types.ts';

/** Numbers that marks get, one counter a pair. */
export interface Counter {
  next: number;
}

type Wound = (object: Made, chance: Chance, counter: Counter) => Made;

export const marked = (object: Made, counter: Counter, mark: Omit<Mark, 'id'>): Made => ({
  ...object,
  marks: [...object.marks, { ...mark, id: counter.next++ }],
});

/** A place inside the image, not too near its edge. */
function placeInside({ outline, lattice, outside }: Made, chance: Chance, share = 0.85): [number, number] {
  for (let tries = 0; tries < 40; tries++) {
    const x = share * outline.halfWidth * chance.range(-1, 1);
    const y = share * outline.halfHeight * chance.range(-1, 1);
    if (valueAt(lattice, outside, x, y) < -0.4) return [x, y];
  }
  return [0, 0];
}

const markCells = (object: Made, layer: Float32Array, least: number, code: number): void => {
  for (let i = 0; i < layer.length; i++) if (layer[i] > least && object.condition[i] === 0) object.condition[i] = code;
};

/** Straight blow of a chisel across the face at one level below it: deeper engraving passes under it untouched. */
export const cutThrough: Wound = (object, chance, counter) => {
  const angle = chance.range(0, Math.PI);
  const [cx, cy] = placeInside(object, chance, 0.35);
  const reach = object.outline.halfHeight * chance.range(0.7, 2.2);
  const t = [-reach / 2, reach / 2];
  const half = chance.range(0.15, 0.4);
  const depth = Math.min(half * 1.3, chance.range(0.12, 0.4));
  const stroke: Stroke = {
    x: t.map((s) => cx + s * Math.cos(angle)),
    y: t.map((s) => cy + s * Math.sin(angle)),
    half: [half, half],
    depth: [depth, depth * chance.range(0.7, 1)],
    section: 'v',
    detail: false,
    group: -1,
  };
  const layer = new Float32Array(object.z.length);
  sweep(object.lattice, layer, stroke);
  for (let i = 0; i < layer.length; i++) {
    if (layer[i] === 0) continue;
    if (layer[i] <= object.z[i]) layer[i] = 0;
    else if (object.outside[i] <= 0) object.z[i] = layer[i];
  }
  markCells(object, layer, 0, conditionCode.accident);
  const path = stroke.x.flatMap((x, i) => [x, stroke.y[i]]);
  return marked(object, counter, { kind: 'cut', shape: 'line', path, widthMm: 2 * half, depthMm: depth, up: 1 });
};

/** A crack from the edge inward that wanders, and sometimes forks. `up`: open in a negative; else in a positive. */
function crack(object: Made, chance: Chance, counter: Counter, up: 1 | -1): Made {
  const start = chance.range(0, 2 * Math.PI);
  const { halfWidth: a, halfHeight: b } = object.outline;
  let heading = Math.atan2(-b * Math.cos(start), -a * Math.sin(start)) + 0.4 * chance.gauss();
  const x = [0.98 * a * Math.sin(start)];
  const y = [0.98 * b * Math.cos(start)];
  const steps = Math.round((a * chance.range(0.6, 1.7)) / 0.5);
  for (let i = 0; i < steps; i++) {
    heading += 0.22 * chance.gauss();
    x.push(x[i] + 0.5 * Math.cos(heading));
    y.push(y[i] + 0.5 * Math.sin(heading));
  }
  const half = chance.range(0.1, 0.22);
  const depth = chance.range(0.06, 0.25);
  const layer = new Float32Array(object.z.length);
  const lay = (xs: number[], ys: number[]): void =>
    sweep(object.lattice, layer, {
      x: xs,
      y: ys,
      half: xs.map(() => half),
      depth: xs.map((_, i) => depth * (1 - (0.6 * i) / xs.length)),
      section: 'v',
      detail: false,
      group: -1,
    });
  lay(x, y);
  if (chance.yes(0.4) && x.length > 6) {
    const at = x.length >> 1;
    const turn = heading + chance.choose([-0.8, 0.8]);
    lay([x[at], x[at] + 2.5 * Math.cos(turn)], [y[at], y[at] + 2.5 * Math.sin(turn)]);
  }
  for (let i = 0; i < layer.length; i++) if (object.outside[i] <= 0) object.z[i] += up * layer[i];
  markCells(object, layer, 0, conditionCode.accident);
  const path = x.flatMap((value, i) => [value, y[i]]);
  const kind = up > 0 ? 'matrixCrack' : 'waxCrack';
  return marked(object, counter, { kind, shape: 'line', path, widthMm: 2 * half, depthMm: depth, up });
}

export const matrixCrack: Wound = (object, chance, counter) => crack(object, chance, counter, 1);
const waxCrack: Wound = (object, chance, counter) => crack(object, chance, counter, -1);

/** Dirt or wax stuck in the engraving over a region, levelling it near the field. */
export const clogging: Wound = (object, chance, counter) => {
  const [cx, cy] = placeInside(object, chance);
  const radius = object.outline.halfWidth * chance.range(0.12, 0.3);
  const level = chance.range(0.05, 0.2);
  let deepest = 0;
  nearCells(object.lattice, cx, cy, radius, (i, x, y) => {
    const weight = 1 - ramp(Math.hypot(x - cx, y - cy), 0.6 * radius, radius);
    const lost = weight * Math.max(0, object.z[i] - level) * 0.9;
    if (lost < 0.005 || object.outside[i] > 0) return;
    object.z[i] -= lost;
    deepest = Math.max(deepest, lost);
    if (lost > 0.02) object.condition[i] = conditionCode.accident;
  });
  const mark = {
    kind: 'clogged',
    shape: 'area',
    path: [cx, cy],
    widthMm: 2 * radius,
    depthMm: deepest,
    up: -1,
  } as const;
  return marked(object, counter, mark);
};

/** A few broad shells out of the wax. */
const chip: Wound = (object, chance, counter) => {
  const [cx, cy] = placeInside(object, chance, 0.98);
  const radius = object.outline.halfWidth * chance.range(0.07, 0.18);
  const depth = chance.range(0.3, 1.2);
  const shell = randomSurface(chance, radius / 2, object.outline.halfHeight * 1.6 + 8);
  const level = valueAt(object.lattice, object.z, cx, cy);
  nearCells(object.lattice, cx, cy, radius * 1.5, (i, x, y) => {
    const d = Math.hypot(x - cx, y - cy) / (radius * (1 + 0.2 * shell(x, y)));
    if (d >= 1 || object.outside[i] > 0) return;
    const floor = level - depth * (1 - d * d) + 0.15 * shell(x + 3, y);
    if (floor >= object.z[i]) return;
    object.z[i] = floor;
    object.condition[i] = conditionCode.accident;
  });
  return marked(object, counter, {
    kind: 'chip',
    shape: 'area',
    path: [cx, cy],
    widthMm: 2 * radius,
    depthMm: depth,
    up: -1,
  });
};

/** Round hollows (`up` −1: air in the wax) or beads (`up` 1: air in the mould), or lumps of dirt. */
const roundSpots =
  (kind: 'bubble' | 'pit' | 'dirt', up: 1 | -1, low: number, high: number, most: number): Wound =>
  (object, chance, counter) => {
    let out = object;
    for (let k = 1 + chance.whole(most); k > 0; k--) {
      const [cx, cy] = placeInside(object, chance);
      const radius = chance.range(low, high);
      const tall = radius * (kind === 'dirt' ? 0.5 : kind === 'bubble' ? 0.8 : 0.6);
      const form = randomSurface(chance, radius * 1.2, object.outline.halfHeight * 1.6 + 8);
      const uneven = kind === 'bubble' ? 0 : 0.25;
      nearCells(object.lattice, cx, cy, radius * 1.6, (i, x, y) => {
        const d = Math.hypot(x - cx, y - cy) / (radius * (1 + uneven * form(x, y)));
        if (d >= 1 || object.outside[i] > 0) return;
        object.z[i] += up * tall * Math.sqrt(1 - d * d);
        object.condition[i] = conditionCode.accident;
      });
      out = marked(out, counter, { kind, shape: 'spot', path: [cx, cy], widthMm: 2 * radius, depthMm: tall, up });
    }
    return out;
  };

/** Rubbing: tops lose height and round off over a region or all over. */
const rubbed: Wound = (object, chance, counter) => {
  const [cx, cy] = placeInside(object, chance, 0.6);
  const radius = object.outline.halfWidth * chance.range(0.35, 1.2);
  const amount = chance.range(0.15, 0.6);
  const round = smooth(object.lattice, object.z, chance.range(0.1, 0.25));
  const tops: number[] = [];
  nearCells(object.lattice, cx, cy, radius, (i) => {
    if (object.outside[i] < 0 && object.z[i] > 0.08 && i % 7 === 0) tops.push(object.z[i]);
  });
  tops.sort((a, b) => a - b);
  const level = tops[tops.length >> 1] ?? 0.3;
  let deepest = 0;
  nearCells(object.lattice, cx, cy, radius, (i, x, y) => {
    if (object.outside[i] > 0 || object.z[i] < 0.05) return;
    const weight = 1 - ramp(Math.hypot(x - cx, y - cy), 0.5 * radius, radius);
    const worn = Math.min(object.z[i], object.z[i] + weight * (round[i] - object.z[i]));
    const left = worn - weight * amount * Math.max(0, worn - 0.6 * level);
    const lost = object.z[i] - left;
    object.z[i] = left;
    deepest = Math.max(deepest, lost);
    if (lost > 0.015 && object.condition[i] === 0) object.condition[i] = conditionCode.worn;
  });
  return marked(object, counter, {
    kind: 'rubbed',
    shape: 'area',
    path: [cx, cy],
    widthMm: 2 * radius,
    depthMm: deepest,
    up: -1,
  });
};

/** Wax dragged by a warm thumb: heights averaged along a short way. */
const smear: Wound = (object, chance, counter) => {
  const [cx, cy] = placeInside(object, chance);
  const radius = object.outline.halfWidth * chance.range(0.15, 0.35);
  const way = chance.range(0.3, 0.9);
  const angle = chance.range(0, 2 * Math.PI);
  const before = object.z.slice();
  let deepest = 0;
  nearCells(object.lattice, cx, cy, radius, (i, x, y) => {
    const weight = 1 - ramp(Math.hypot(x - cx, y - cy), 0.6 * radius, radius);
    if (weight <= 0 || object.outside[i] > -0.2) return;
    let sum = 0;
    for (let k = 0; k < 6; k++)
      sum += valueAt(object.lattice, before, x - (way * k * Math.cos(angle)) / 5, y - (way * k * Math.sin(angle)) / 5);
    const change = weight * (sum / 6 - before[i]);
    object.z[i] += change;
    deepest = Math.max(deepest, Math.abs(change));
    if (Math.abs(change) > 0.015) object.condition[i] = conditionCode.accident;
  });
  return marked(object, counter, {
    kind: 'smear',
    shape: 'area',
    path: [cx, cy],
    widthMm: 2 * radius,
    depthMm: deepest,
    up: -1,
  });
};

const common: readonly Wound[] = [
  chip,
  waxCrack,
  roundSpots('pit', -1, 0.1, 0.35, 8),
  rubbed,
  roundSpots('dirt', 1, 0.2, 0.8, 3),
];
const waxWounds = [...common, smear, roundSpots('bubble', -1, 0.15, 0.5, 4)];
const castWounds = [...common, roundSpots('bubble', 1, 0.15, 0.5, 6)];

/** One to three, or four to eight, accidents of wax, or of a cast or mould. Works on copies of the layers. */
export function hurt(object: Made, moulded: boolean, amount: Amount, chance: Chance, counter: Counter): Made {
  const wounds = moulded ? castWounds : waxWounds;
  let out: Made = { ...object, z: object.z.slice(), condition: object.condition.slice() };
  const count = amount === 'none' ? 0 : amount === 'some' ? 1 + chance.whole(3) : 4 + chance.whole(5);
  for (let k = 0; k < count; k++) out = chance.choose(wounds)(out, chance.branch(`wound ${k}`), counter);
  return out;
}

/** One letter of the legend cut over again, deeper and a little aside. */
export const recutLetter =
  (drawing: Drawing): Wound =>
  (object, chance, counter) => {
    const group = chance.whole(drawing.letters.length);
    const [dx, dy] = [0.12 * chance.gauss(), 0.12 * chance.gauss()];
    const layer = new Float32Array(object.z.length);
    const deeper = chance.range(1.15, 1.5);
    const strokes = drawing.legend.filter((stroke) => stroke.group === group);
    for (const stroke of strokes)
      sweep(object.lattice, layer, {
        ...stroke,
        x: stroke.x.map((x) => x + dx),
        y: stroke.y.map((y) => y + dy),
        depth: stroke.depth.map((depth) => depth * deeper),
      });
    for (let i = 0; i < layer.length; i++) {
      layer[i] = layer[i] > 0 ? Math.max(0, layer[i] - object.z[i]) : 0;
      object.z[i] += layer[i];
    }
    markCells(object, layer, 0, conditionCode.accident);
    const { x, y } = drawing.letters[group];
    const depthMm = layer.reduce((most, value) => Math.max(most, value), 0);
    const widthMm = drawing.rings[0].letterMm;
    return marked(object, counter, { kind: 'letterRecut', shape: 'area', path: [x, y], widthMm, depthMm, up: 1 });
  };

/** The object with one more wound of the matrix, on copies of the layers. */
export const hurtMatrix = (object: Made, wound: Wound, chance: Chance, counter: Counter): Made =>
  wound({ ...object, z: object.z.slice(), condition: object.condition.slice() }, chance, counter);
