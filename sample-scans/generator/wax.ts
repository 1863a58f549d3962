import type { Random } from '../../src/core/geometry/index.ts';
import { smoothField } from './chance.ts';
import { blurred, eachCell, eachCellIn, type Field } from './field.ts';
import { bit } from './types.ts';

/** A surface on its way from the die: heights in the impression's sense and what happened at each cell. */
export interface Relief {
  readonly field: Field;
  /** `bit` flags per cell. */
  readonly flags: Uint16Array;
}

/** Height loss from which a cell counts as touched, mm. */
const touchedMm = 0.02;

const softPlus = (x: number, knee: number): number => {
  if (x <= -knee) return 0;
  return x >= knee ? x : (x + knee) ** 2 / (4 * knee);
};

/**
 * Wax that did not reach the bottom of deep, narrow hollows: by region, the surface stays below a smooth bridge
 * (a blur of the die over 0.4 mm and more). `share` of the face is affected.
 */
export function underfill(relief: Relief, share: number, random: Random): void {
  if (share <= 0) return;
  const { field, flags } = relief;
  const where = smoothField(random, 0.22 * field.width * field.pitch);
  const bridge = blurred(field, random.between(0.35, 0.7));
  const slack = random.between(0.03, 0.12);
  eachCell(field, (index, x, y) => {
    const m = Math.max(0, Math.min(1, 2.5 * (where(x, y) + 2 * share - 0.9)));
    if (m === 0) return;
    const lost = m * softPlus(field.z[index] - bridge[index] - slack, 0.05);
    field.z[index] -= lost;
    if (lost > touchedMm) flags[index] |= bit.notFilled;
  });
}

/**
 * Rubbing by hands: what stands above its surroundings is lowered and rounded, more where it stands higher and where
 * the hand comes most. Removed height ≤ `amount` of the exposure; edges lose their sharpness. Returns the greatest
 * height removed, mm.
 */
export function rub(relief: Relief, amount: number, random: Random): number {
  if (amount <= 0) return 0;
  const { field, flags } = relief;
  const surroundings = blurred(field, random.between(1.2, 2.2));
  const handled = smoothField(random, 0.35 * field.width * field.pitch);
  const typical = exposureQuantile(field, surroundings, 0.95);
  const leave = typical * (0.95 - 0.75 * amount);
  const before = field.z.slice();
  const hand = new Float32Array(before.length);
  eachCell(field, (index, x, y) => {
    hand[index] = handled(x, y);
    const m = 0.7 + 0.3 * hand[index];
    const over = softPlus(field.z[index] - surroundings[index] - leave / (0.4 + 0.6 * m), 0.08);
    field.z[index] -= over * m * (0.45 + 0.5 * amount);
  });
  const round = blurred(field, 0.05 + 0.16 * amount);
  let deepest = 0;
  for (let index = 0; index < before.length; index++) {
    const m = Math.min(1, amount * (0.9 + 0.5 * hand[index]));
    field.z[index] -= m * Math.max(0, field.z[index] - round[index]);
    const lost = before[index] - field.z[index];
    deepest = Math.max(deepest, lost);
    if (lost > touchedMm) flags[index] |= bit.worn;
  }
  return deepest;
}

function exposureQuantile(field: Field, surroundings: Float32Array, q: number): number {
  const sample: number[] = [];
  for (let i = 0; i < field.z.length; i += 37) sample.push(field.z[i] - surroundings[i]);
  sample.sort((a, b) => a - b);
  return Math.max(0.05, sample[Math.floor(q * (sample.length - 1))]);
}

/** Storage under weight: the highest parts are pressed to a slightly tilted plane and the wax swells beside them. */
export function flatten(relief: Relief, amount: number, random: Random): void {
  if (amount <= 0) return;
  const { field, flags } = relief;
  const sorted = field.z.filter((_, i) => i % 29 === 0).sort();
  const top = sorted[Math.floor(0.995 * sorted.length)];
  const usual = sorted[Math.floor(0.5 * sorted.length)];
  const level = top - amount * (top - usual) * 0.6;
  const half = 0.5 * field.width * field.pitch;
  const tiltX = (0.15 * amount * random.normal()) / half;
  const tiltY = (0.15 * amount * random.normal()) / half;
  const pressed = new Float32Array(field.z.length);
  eachCell(field, (index, x, y) => {
    const over = softPlus(field.z[index] - level - tiltX * x - tiltY * y, 0.03);
    pressed[index] = over;
    if (over > touchedMm) flags[index] |= bit.worn;
  });
  const swell = blurred({ ...field, z: pressed }, 0.5);
  for (let i = 0; i < pressed.length; i++) field.z[i] += 0.35 * Math.max(0, swell[i] - 0.3 * pressed[i]) - pressed[i];
}

/** Light entering translucent wax: the scan sees a blurred surface that lies a little deep. */
export function translucent(relief: Relief, sigmaMm: number, sinkMm: number): void {
  if (sigmaMm <= 0) return;
  const soft = blurred(relief.field, sigmaMm);
  for (let i = 0; i < soft.length; i++) relief.field.z[i] = soft[i] - sinkMm;
}

/** A second, weaker strike beside the first: by region the higher of the two surfaces shows. */
export function slip(relief: Relief, shiftMm: number, random: Random): void {
  if (shiftMm <= 0) return;
  const { field, flags } = relief;
  const { width, height, pitch } = field;
  const angle = random.between(0, 2 * Math.PI);
  const di = Math.round((shiftMm * Math.cos(angle)) / pitch);
  const dj = Math.round((shiftMm * Math.sin(angle)) / pitch);
  const where = smoothField(random, 0.4 * width * pitch);
  const before = field.z.slice();
  const weaker = random.between(0.5, 0.8);
  eachCell(field, (index, x, y) => {
    const m = Math.max(0, Math.min(1, 3 * where(x, y)));
    const i = (index % width) - di;
    const j = Math.floor(index / width) - dj;
    if (m === 0 || i < 0 || j < 0 || i >= width || j >= height) return;
    const raised = softPlus(m * weaker * before[j * width + i] - field.z[index], 0.03);
    field.z[index] += raised;
    if (raised > touchedMm) flags[index] |= bit.bump;
  });
}

/**
 * Dirt or old wax that fills parts of the die, one letter or ornament here and there: a share of the depth is gone and
 * what shows is rough. Works on the relief as on the die itself.
 */
export function clog(
  relief: Relief,
  places: ReadonlyArray<{ x: number; y: number; sizeMm: number }>,
  flag: number,
  random: Random,
): void {
  const { field, flags } = relief;
  for (const { x, y, sizeMm } of places) {
    const radius = 0.62 * sizeMm;
    const left = random.between(0.1, 0.6);
    const rough = smoothField(random, 0.4);
    const edge = smoothField(random, 0.6 * sizeMm);
    eachCellIn(field, x - radius, x + radius, y - radius, y + radius, (index, cx, cy) => {
      const t = Math.hypot(cx - x, cy - y) / radius + 0.3 * edge(cx, cy);
      const depth = field.z[index];
      if (t >= 1 || depth < 0.05) return;
      const filled = (1 - left) * Math.min(1, 3 * (1 - t)) * (0.85 + 0.15 * rough(cx, cy));
      field.z[index] = depth * (1 - filled);
      if (depth * filled > touchedMm) flags[index] |= flag;
    });
  }
}
