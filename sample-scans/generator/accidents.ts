import type { Random } from '../../src/core/geometry/index.ts';
import { chanceFor, roughField } from './chance.ts';
import type { Stroke } from './cuts.ts';
import { engraver } from './engraver.ts';
import { copyField, eachCellIn, type Field } from './field.ts';
import type { Ring } from './outline.ts';
import type { TrueDamage } from './types.ts';
import { bit } from './types.ts';
import type { Relief } from './wax.ts';

/** A mark in the design frame; `pair.ts` turns it into the reference's face frame. */
export type Accident = Omit<TrueDamage, 'carriedBy' | 'inSubject'>;

/** Round hollow (depth > 0) or bump (depth < 0) with a soft rim. */
function dent(relief: Relief, x: number, y: number, radius: number, depth: number, flag: number): void {
  const { field, flags } = relief;
  eachCellIn(field, x - radius, x + radius, y - radius, y + radius, (index, cx, cy) => {
    const t = Math.hypot(cx - x, cy - y) / radius;
    if (t >= 1) return;
    const change = depth * (1 - t * t) ** 1.5;
    field.z[index] -= change;
    if (Math.abs(change) > 0.01) flags[index] |= flag;
  });
}

/** Pits, as burst bubbles leave in plaster and falls of grit in wax. */
export function pits(relief: Relief, count: number, sizeMm: number, random: Random): Accident[] {
  return spots(relief.field, count, random).map(([x, y]) => {
    const radius = sizeMm * random.between(0.4, 1.2);
    const depth = radius * random.between(0.4, 1);
    dent(relief, x, y, radius, depth, bit.pit);
    return mark('pit', [x, y], depth, 2 * radius, 2 * radius);
  });
}

/** Beads that stand up: air that the mould had trapped. */
export function bubbles(relief: Relief, count: number, sizeMm: number, random: Random): Accident[] {
  return spots(relief.field, count, random).map(([x, y]) => {
    const radius = sizeMm * random.between(0.4, 1);
    dent(relief, x, y, radius, -0.8 * radius, bit.bump);
    return mark('bubble', [x, y], -0.8 * radius, 2 * radius, 2 * radius);
  });
}

/** Crumbs and dirt that stick to the surface, rough on top. */
export function debris(relief: Relief, count: number, sizeMm: number, random: Random): void {
  const { field, flags } = relief;
  for (const [x, y] of spots(field, count, random)) {
    const radius = sizeMm * random.between(0.4, 1.3);
    const height = radius * random.between(0.3, 0.7);
    const rough = roughField(random, radius * 0.8, 3, 0.6);
    eachCellIn(field, x - radius, x + radius, y - radius, y + radius, (index, cx, cy) => {
      const t = Math.hypot(cx - x, cy - y) / radius + 0.3 * rough(cx, cy);
      if (t >= 1) return;
      field.z[index] += height * Math.sqrt(1 - Math.max(0, t)) * (0.8 + 0.4 * rough(cy, cx));
      flags[index] |= bit.debris;
    });
  }
}

/** Pieces split off at the rim or off high relief: shell-shaped hollows with a rough floor. */
export function chips(relief: Relief, outline: Ring, count: number, sizeMm: number, random: Random): Accident[] {
  const { field, flags } = relief;
  const marks: Accident[] = [];
  for (let k = 0; k < count; k++) {
    const at = random.below(outline.length / 2);
    const onRim = random.next() < 0.75;
    const share = onRim ? random.between(0.9, 1) : random.between(0.2, 0.8);
    const x = outline[2 * at] * share;
    const y = outline[2 * at + 1] * share;
    const radius = sizeMm * random.between(0.5, 1.3);
    const depth = radius * random.between(0.2, 0.4);
    const rough = roughField(random, radius * 0.6, 4, 0.6);
    const stretch = random.between(0.6, 1.6);
    const angle = random.between(0, Math.PI);
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    eachCellIn(field, x - 1.7 * radius, x + 1.7 * radius, y - 1.7 * radius, y + 1.7 * radius, (index, cx, cy) => {
      const u = (c * (cx - x) + s * (cy - y)) / stretch;
      const v = c * (cy - y) - s * (cx - x);
      const t = Math.hypot(u, v) / radius + 0.25 * rough(cx, cy);
      if (t >= 1) return;
      const bottom = 0.08 - depth * (1 - t ** 3) + 0.12 * depth * rough(cy * 2, cx * 2);
      if (bottom >= field.z[index]) return;
      field.z[index] = bottom;
      flags[index] |= bit.chip;
    });
    marks.push(mark('chip', [x, y], depth, 2 * radius, 2 * radius));
  }
  return marks;
}

/** A fine crack that wanders and now and then forks; it crosses hollows and heights alike. */
export function crack(relief: Relief, line: Float64Array, widthMm: number, depthMm: number, flag: number): Accident {
  cutInto(relief, [wanderer(line, widthMm / 2, depthMm)], flag);
  return mark('crack', line, depthMm, widthMm, lineLength(line));
}

/** Scratches: long, shallow, nearly straight, sunk into whatever stands highest along their way. */
export function scratches(relief: Relief, count: number, sizeMm: number, random: Random): Accident[] {
  const marks: Accident[] = [];
  const strokes: Stroke[] = [];
  for (let k = 0; k < count; k++) {
    const line = wanderingLine(sizeMm * random.between(0.15, 0.6), sizeMm, 0.02, random);
    const width = random.between(0.08, 0.3);
    const depth = width * random.between(0.25, 0.5);
    strokes.push(wanderer(line, width / 2, depth));
    marks.push(mark('scratch', line, depth, width, lineLength(line)));
  }
  cutInto(relief, strokes, bit.chip);
  return marks;
}

/** x, y pairs of a line that strays by about `waver` of its length, through a random point within the face. */
export function wanderingLine(lengthMm: number, sizeMm: number, waver: number, random: Random): Float64Array {
  const angle = random.between(0, 2 * Math.PI);
  const x0 = sizeMm * random.between(-0.3, 0.3);
  const y0 = sizeMm * random.between(-0.3, 0.3);
  return wanderFrom(x0, y0, angle, lengthMm, waver, random);
}

/** The same from a given middle and direction. */
export function wanderFrom(
  x0: number,
  y0: number,
  angle: number,
  lengthMm: number,
  waver: number,
  random: Random,
): Float64Array {
  const n = 24;
  const stray = roughField(random, lengthMm * 0.35, 4, 0.6);
  const line = new Float64Array(2 * (n + 1));
  for (let i = 0; i <= n; i++) {
    const t = (i / n - 0.5) * lengthMm;
    const off = waver * lengthMm * stray(t, 0);
    line[2 * i] = x0 + Math.cos(angle) * t - Math.sin(angle) * off;
    line[2 * i + 1] = y0 + Math.sin(angle) * t + Math.cos(angle) * off;
  }
  return line;
}

export function wanderer(line: Float64Array, radiusMm: number, depthMm: number): Stroke {
  const n = line.length / 2;
  const points = new Float64Array(3 * n);
  for (let i = 0; i < n; i++) {
    points[3 * i] = line[2 * i];
    points[3 * i + 1] = line[2 * i + 1];
    points[3 * i + 2] = radiusMm * Math.min(1, 0.25 + (6 * Math.min(i, n - 1 - i)) / n);
  }
  return {
    kind: 'stroke',
    part: 'ornament',
    section: 'vee',
    mode: 'deepen',
    depthMm,
    flankMm: 0,
    chatterMm: 0,
    points,
  };
}

/** Lowers the relief by what the strokes would cut into a plane. */
function cutInto(relief: Relief, strokes: readonly Stroke[], flag: number): void {
  const depth = copyField(relief.field, new Float32Array(relief.field.z.length));
  const tool = engraver(depth);
  for (const stroke of strokes) tool.cut(stroke, 1);
  for (let i = 0; i < depth.z.length; i++)
    if (depth.z[i] > 0) {
      relief.field.z[i] -= depth.z[i];
      if (depth.z[i] > 0.01) relief.flags[i] |= flag;
    }
}

export function lineLength(line: Float64Array): number {
  let sum = 0;
  for (let i = 2; i < line.length; i += 2) sum += Math.hypot(line[i] - line[i - 2], line[i + 1] - line[i - 1]);
  return sum;
}

export const mark = (
  kind: Accident['kind'],
  polyline: ArrayLike<number>,
  depthMm: number,
  widthMm: number,
  lengthMm: number,
): Accident => ({ kind, polyline: Float64Array.from(polyline), depthMm, widthMm, lengthMm, raised: depthMm < 0 });

function spots(field: Field, count: number, random: Random): Array<[number, number]> {
  const halfWidth = 0.5 * field.width * field.pitch;
  const halfHeight = 0.5 * field.height * field.pitch;
  return Array.from({ length: count }, () => {
    const r = Math.sqrt(random.next()) * 0.92;
    const t = random.between(0, 2 * Math.PI);
    return [halfWidth * r * Math.cos(t), halfHeight * r * Math.sin(t)];
  });
}

/** Everything that befalls one object's surface, by `clutter` from 0 (none) to 1 (a great deal). */
export function everydayAccidents(
  relief: Relief,
  outline: Ring,
  sizeMm: number,
  clutter: number,
  material: 'metal' | 'wax' | 'plaster',
  seed: number,
): Accident[] {
  const random = chanceFor(seed, 'accidents');
  const some = (most: number): number => Math.round(clutter * most * random.next());
  const marks: Accident[] = [];
  const scale = Math.sqrt(sizeMm / 35);
  if (material === 'metal') {
    marks.push(...scratches(relief, some(5), sizeMm, random), ...pits(relief, some(4), 0.25 * scale, random));
    debris(relief, some(2), 0.4 * scale, random);
    return marks;
  }
  marks.push(
    ...scratches(relief, some(4), sizeMm, random),
    ...pits(relief, some(material === 'wax' ? 10 : 18), 0.35 * scale, random),
  );
  marks.push(...bubbles(relief, some(material === 'wax' ? 3 : 10), 0.35 * scale, random));
  marks.push(...chips(relief, outline, some(material === 'wax' ? 5 : 3), 1.7 * scale, random));
  debris(relief, some(4), 0.6 * scale, random);
  if (material === 'wax' && random.next() < 0.4 * clutter) {
    const line = wanderingLine(sizeMm * random.between(0.3, 0.9), sizeMm, 0.05, random);
    marks.push(crack(relief, line, random.between(0.1, 0.35), random.between(0.1, 0.6), bit.chip));
  }
  return marks;
}
