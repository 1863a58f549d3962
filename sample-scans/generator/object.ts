import type { Random } from '../../src/core/geometry/index.ts';
import { roughField, smoothField } from './chance.ts';
import { heightAt, nearestCell } from './field.ts';
import { type HandleKind, makeHandle } from './handle.ts';
import type { Remains } from './loss.ts';
import { edgeDistance, type Ring } from './outline.ts';
import { clearance, type ScatterStyle, type Star, starOf } from './scatter.ts';
import { starArea, triangulate } from './sheet.ts';
import { dropUnused, type Shell, ShellBuilder } from './shell.ts';
import { bit, type Sense } from './types.ts';
import type { Relief } from './wax.ts';

/** A second design on the back: a counterseal on wax. In its own impression's sense, upright after a turn about y. */
export interface Reverse {
  readonly relief: Relief;
  readonly outline: Ring;
}

/** What is to be given a body. */
export interface ObjectPlan {
  readonly relief: Relief;
  readonly sense: Sense;
  readonly outline: Ring;
  readonly sizeMm: number;
  readonly remains: Remains;
  /** Back and wall too; else the engraved side alone. */
  readonly whole: boolean;
  /** Wax beyond the impression, or metal beyond the engraving, mm. */
  readonly marginMm: number;
  readonly vertices: number;
  readonly style: ScatterStyle;
  /** Whole matrices: what stands on the back. */
  readonly handle: HandleKind;
  readonly reverse?: Reverse;
  /** Remains of the table that the object lay on. */
  readonly table: boolean;
}

/**
 * The surface of the object in the design frame. It is built with z out of the face and, for a negative, turned at the
 * end, so that the winding always looks outward.
 */
export function buildObject(plan: ObjectPlan, random: Random): Shell {
  const sign = plan.sense === 'relief' ? 1 : -1;
  const top = topHeight(plan, random);
  const insideAt = edgeDistance(plan.outline);
  const star = objectEdge(plan, insideAt, random);
  const area = starArea(star);
  const coarser = random.between(1, 2);
  const others = plan.whole ? (area + Math.PI * 2 * Math.sqrt(area / Math.PI) * thickness(plan)) / coarser ** 2 : 0;
  const spacing = Math.sqrt((area + others) / plan.vertices);
  const sharp = plan.whole || random.next() < 0.5;
  const sheet = triangulate({ star, spacing, style: plan.style, sharpEdge: sharp }, random);
  const builder = new ShellBuilder();
  const { field, flags } = plan.relief;
  for (let i = 0; i < sheet.points.length; i += 2) {
    const x = sheet.points[i];
    const y = sheet.points[i + 1];
    const inside = insideAt(x, y);
    const toEdge = clearance(star, x, y);
    // Where the edge of a break is rounded off, the face is no longer the die's.
    const rounded = toEdge < top.roundedMm ? bit.chip : 0;
    const bits = inside >= 0 ? bit.face | rounded | flags[nearestCell(field, x, y)] : bit.lip;
    builder.vertex(x, y, top.height(x, y, inside, toEdge), bits);
  }
  for (let i = 0; i < sheet.triangles.length; i += 3)
    builder.triangle(sheet.triangles[i], sheet.triangles[i + 1], sheet.triangles[i + 2]);
  if (plan.whole) addBody(builder, plan, star, sheet.ringCount, spacing * coarser, random);
  const shell = dropUnused(builder.finish());
  return sign === 1 ? shell : turned(shell);
}

function turned(shell: Shell): Shell {
  for (let i = 2; i < shell.points.length; i += 3) shell.points[i] = -shell.points[i];
  for (let i = 0; i < shell.triangles.length; i += 3) {
    const b = shell.triangles[i + 1];
    shell.triangles[i + 1] = shell.triangles[i + 2];
    shell.triangles[i + 2] = b;
  }
  return shell;
}

/** Thickness of the body below the face plane, mm. */
const thickness = (plan: ObjectPlan): number =>
  plan.sense === 'relief' ? Math.max(3.5, 0.16 * plan.sizeMm) : Math.max(2.2, 0.06 * plan.sizeMm) + 2;

/** Height of the top above the face plane, outward, at (x, y), given its distances to the die's and object's edge. */
type TopHeight = (x: number, y: number, inside: number, toEdge: number) => number;

/** The top, and how far in from the object's edge it is rounded off, mm. */
interface Top {
  readonly height: TopHeight;
  readonly roundedMm: number;
}

function topHeight(plan: ObjectPlan, random: Random): Top {
  const { field } = plan.relief;
  if (plan.sense === 'intaglio') {
    const bevel = random.between(0.3, 1.2);
    const height: TopHeight = (x, y, inside) => {
      const face = -heightAt(field, x, y);
      return inside >= 0 ? face : face + bevel * inside;
    };
    return { height, roundedMm: 0 };
  }
  const lip = random.between(0.15, 1) * Math.min(2, 0.04 * plan.sizeMm);
  const around = smoothField(random, 0.5 * plan.sizeMm);
  const lumps = roughField(random, 0.16 * plan.sizeMm, 3, 0.5);
  const rise = random.between(0.5, 1.6);
  const fall = random.between(2, 6);
  const edge = plan.whole ? random.between(0.8, 2) : 0;
  // Some impressions lie in a bowl of wax that stands up around them.
  const bowl = plan.whole && random.next() < 0.25 ? random.between(0.3, 0.7) : 0;
  const height: TopHeight = (x, y, inside, toEdge) => {
    let z = heightAt(field, x, y);
    if (inside < 0) {
      const d = -inside;
      const up = Math.min(1, d / rise);
      const raised = lip * (1 + 0.6 * around(x, y)) * up * up * (3 - 2 * up) * Math.exp(-Math.max(0, d - rise) / fall);
      z += raised + 0.35 * Math.min(1, d) * lumps(x, y) + bowl * d;
    }
    // The object's edge is rounded off: a quarter circle of radius `edge`.
    if (toEdge < edge) z -= edge - Math.sqrt(Math.max(0, edge * edge - (edge - Math.max(0, toEdge)) ** 2));
    return z;
  };
  return { height, roundedMm: edge };
}

/** Edge of the object: the die's outline, moved outward by an uneven margin, less what has broken off. */
function objectEdge(plan: ObjectPlan, insideAt: (x: number, y: number) => number, random: Random): Star {
  const uneven = smoothField(random, 0.7 * plan.sizeMm + plan.marginMm);
  const spread = plan.sense === 'relief' ? 0.6 : 0.05;
  const [cx, cy] = plan.remains.centre;
  return starOf(cx, cy, plan.sizeMm * 1.3, (x, y) => {
    const margin = plan.marginMm * (1 + spread * uneven(x, y));
    return insideAt(x, y) > -margin && plan.remains.kept(x, y);
  });
}

/** Wall, back, handle and table. */
function addBody(
  builder: ShellBuilder,
  plan: ObjectPlan,
  star: Star,
  ringCount: number,
  spacing: number,
  random: Random,
): void {
  const deep = thickness(plan) * random.between(0.85, 1.3);
  const narrow = plan.sense === 'relief' ? random.between(0.9, 1.02) : random.between(0.93, 1);
  const back: Star = { ...star, radius: star.radius.map((r) => r * narrow) };
  const plain = backHeight(plan, deep, random);
  const floor = plan.reverse ? sealedBack(plan.reverse, plain) : plain;
  const wide =
    2 *
    Math.min(
      ...plan.outline
        .filter((_, i) => i % 2 === 0)
        .map(Math.abs)
        .filter((x) => x > 0.2 * plan.sizeMm),
    );
  const handle = makeHandle(plan.handle, plan.sizeMm, wide, deep, random);
  const sheet = triangulate({ star: back, spacing, style: 'even', sharpEdge: true }, random);
  const first = builder.count;
  for (let i = 0; i < sheet.points.length; i += 2) {
    const x = sheet.points[i];
    const y = sheet.points[i + 1];
    builder.vertex(x, y, floor(x, y, clearance(back, x, y)), bit.back);
  }
  const hidden = (k: number): boolean => handle.covers(sheet.points[2 * k], sheet.points[2 * k + 1]);
  for (let i = 0; i < sheet.triangles.length; i += 3) {
    const [a, b, c] = [sheet.triangles[i], sheet.triangles[i + 1], sheet.triangles[i + 2]];
    if (!hidden(a) && !hidden(b) && !hidden(c)) builder.triangle(first + a, first + c, first + b);
  }
  addWall(builder, star, ringCount, first, sheet.ringCount, spacing, plan, random);
  handle.add(builder, spacing);
  if (plan.table) addTable(builder, star, spacing * 1.5, random);
}

/** The back with a second impression in it, sunk a little below a lip; elsewhere as `plain`. */
function sealedBack({ relief, outline }: Reverse, plain: BackHeight): BackHeight {
  const inside = edgeDistance(outline);
  const level = plain(0, 0, 9);
  return (x, y, toEdge) => {
    const d = inside(-x, y);
    const sealed = level + 0.4 - heightAt(relief.field, -x, y);
    if (d >= 0) return sealed;
    const share = Math.min(1, -d / 2.5);
    const eased = share * share * (3 - 2 * share);
    const lip = -0.9 * Math.sin(Math.PI * Math.min(1, -d / 2.5)) ** 2;
    return sealed * (1 - eased) + plain(x, y, toEdge) * eased + lip;
  };
}

type BackHeight = (x: number, y: number, toEdge: number) => number;

/** Flat remains under and beside the object, just below its lowest point. */
function addTable(builder: ShellBuilder, star: Star, spacing: number, random: Random): void {
  let lowest = 0;
  for (let i = 0; i < builder.count; i++) lowest = Math.min(lowest, builder.at(i)[2]);
  const turn = random.between(0, 2 * Math.PI);
  const reach = Math.max(...star.radius) * random.between(0.5, 0.9);
  const away = Math.max(...star.radius) * random.between(0.7, 1.2);
  const ragged = smoothField(random, reach * 0.6);
  const cx = star.cx + away * Math.cos(turn);
  const cy = star.cy + away * Math.sin(turn);
  const patch = starOf(cx, cy, reach * 1.5, (x, y) => Math.hypot(x - cx, y - cy) < reach * (1 + 0.3 * ragged(x, y)));
  const sheet = triangulate({ star: patch, spacing, style: 'even', sharpEdge: false }, random);
  const first = builder.count;
  for (let i = 0; i < sheet.points.length; i += 2)
    builder.vertex(sheet.points[i], sheet.points[i + 1], lowest - 0.05 + 0.01 * random.normal(), bit.debris);
  for (let i = 0; i < sheet.triangles.length; i += 3)
    builder.triangle(first + sheet.triangles[i], first + sheet.triangles[i + 1], first + sheet.triangles[i + 2]);
}

/** Back: for wax a hand-made cake with finger hollows and folds, for metal a plain plate with file marks. */
function backHeight(plan: ObjectPlan, deep: number, random: Random): BackHeight {
  const lumps = roughField(random, 0.3 * plan.sizeMm, 4, 0.5);
  const rounding = Math.min(plan.sense === 'relief' ? random.between(1.5, 4) : random.between(0.3, 1), 0.4 * deep);
  const fingers = plan.sense === 'relief' && !plan.reverse ? random.below(5) : 0;
  const hollows = Array.from({ length: fingers }, () => ({
    x: random.between(-0.3, 0.3) * plan.sizeMm,
    y: random.between(-0.3, 0.3) * plan.sizeMm,
    turn: random.between(0, Math.PI),
    long: random.between(5, 9),
    wide: random.between(3.5, 6),
    deep: Math.min(random.between(0.4, 1.6), 0.35 * deep),
  }));
  const rough = plan.sense === 'relief' ? 0.5 : 0.06;
  return (x, y, toEdge) => {
    let z = -deep + rough * lumps(x, y);
    for (const h of hollows) {
      const u = ((x - h.x) * Math.cos(h.turn) + (y - h.y) * Math.sin(h.turn)) / h.long;
      const v = ((y - h.y) * Math.cos(h.turn) - (x - h.x) * Math.sin(h.turn)) / h.wide;
      z += h.deep * Math.exp(-2 * (u * u + v * v));
    }
    if (toEdge < rounding)
      z += rounding - Math.sqrt(Math.max(0, rounding ** 2 - (rounding - Math.max(0, toEdge)) ** 2));
    return z;
  };
}

/** Joins the top's ring to the back's ring by rows of irregular quads and a last row that matches the counts. */
function addWall(
  builder: ShellBuilder,
  star: Star,
  topCount: number,
  backFirst: number,
  backCount: number,
  spacing: number,
  plan: ObjectPlan,
  random: Random,
): void {
  const angle = (index: number): number => {
    const [x, y] = builder.at(index);
    const t = Math.atan2(y - star.cy, x - star.cx);
    return t < 0 ? t + 2 * Math.PI : t;
  };
  const top = Array.from({ length: topCount }, (_, i) => i).sort((a, b) => angle(a) - angle(b));
  const back = Array.from({ length: backCount }, (_, i) => backFirst + i).sort((a, b) => angle(a) - angle(b));
  const lumps = roughField(random, 0.2 * plan.sizeMm, 3, 0.5);
  const rows = Math.max(1, Math.round(thickness(plan) / spacing));
  let upper = top;
  for (let row = 1; row < rows; row++) {
    const lower = top.map((index) => {
      const [x, y, z] = builder.at(index);
      const t = angle(index);
      const [bx, by, bz] = builder.at(nearestByAngle(back, t, angle));
      const share = (row + 0.25 * (random.next() - 0.5)) / rows;
      const out = (plan.sense === 'relief' ? 0.5 : 0.05) * lumps(x + 3 * share, y) * Math.sin(Math.PI * share);
      return builder.vertex(
        x + (bx - x) * share + out * Math.cos(t),
        y + (by - y) * share + out * Math.sin(t),
        z + (bz - z) * share,
        bit.wall,
      );
    });
    for (let i = 0; i < lower.length; i++) {
      const k = (i + 1) % lower.length;
      builder.quad(upper[i], lower[i], lower[k], upper[k], random);
    }
    upper = lower;
  }
  zip(builder, upper, back, angle);
}

function nearestByAngle(ring: readonly number[], t: number, angle: (index: number) => number): number {
  let low = 0;
  let high = ring.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (angle(ring[middle]) < t) low = middle + 1;
    else high = middle;
  }
  return ring[low];
}

/** Triangles between two rings of different counts, both in order of angle: always advances on the one that lags. */
function zip(
  builder: ShellBuilder,
  upper: readonly number[],
  lower: readonly number[],
  angle: (i: number) => number,
): void {
  const ofUpper = upper.map(angle);
  const ofLower = lower.map(angle);
  let i = 0;
  let k = 0;
  while (i < upper.length || k < lower.length) {
    const a = upper[i % upper.length];
    const b = lower[k % lower.length];
    const nextUpper = i + 1 < upper.length ? ofUpper[i + 1] : i + 1 === upper.length ? ofUpper[0] + 2 * Math.PI : 99;
    const nextLower = k + 1 < lower.length ? ofLower[k + 1] : k + 1 === lower.length ? ofLower[0] + 2 * Math.PI : 99;
    if (i < upper.length && (nextUpper <= nextLower || k >= lower.length)) {
      builder.triangle(a, b, upper[(i + 1) % upper.length]);
      i++;
    } else {
      builder.triangle(a, b, lower[(k + 1) % lower.length]);
      k++;
    }
  }
}
