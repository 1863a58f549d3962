import { type Random, seededRandom } from '../../src/core/geometry/index.ts';
import type { Cut, CutStyle, Region, Stroke } from './cuts.ts';
import type { Field } from './field.ts';

/** Cuts into a field one cut after another; holds the scratch memory for it. */
export interface Engraver {
  cut(cut: Cut, chatterSeed: number): void;
}

/** Box of cells, ends included. */
interface Box {
  i0: number;
  i1: number;
  j0: number;
  j1: number;
}

/**
 * A cut's depth is its section's height at the distance inside its edge: v(d) = depth · f(d / flank), f from 0 to 1.
 * Distances are exact to the polygon or to the tapered capsules of a stroke; only cells near an edge are measured.
 */
export function engraver(field: Field): Engraver {
  const distance = new Float32Array(field.z.length);
  const depth = new Float32Array(field.z.length);
  return {
    cut(cut, chatterSeed) {
      const box = cut.kind === 'stroke' ? strokeDepth(field, cut, depth) : regionDepth(field, cut, distance, depth);
      if (box) merge(field, box, depth, cut, chatter(cut, seededRandom(chatterSeed)));
    },
  };
}

/** Height of the section, 0 to 1, at the share t of the way from edge to floor. */
function sectionHeight(section: CutStyle['section'], t: number): number {
  if (t <= 0) return 0;
  if (t >= 1) return 1;
  if (section === 'round') return Math.sqrt(t * (2 - t));
  if (section === 'vee') return t * (1.25 - 0.25 * t);
  if (section === 'flat') return t * t * (3 - 2 * t);
  return Math.sin((t * Math.PI) / 2);
}

function boxOf(field: Field, xMin: number, xMax: number, yMin: number, yMax: number): Box | null {
  const { pitch, left, bottom, width, height } = field;
  const i0 = Math.max(0, Math.ceil((xMin - left) / pitch));
  const i1 = Math.min(width - 1, Math.floor((xMax - left) / pitch));
  const j0 = Math.max(0, Math.ceil((yMin - bottom) / pitch));
  const j1 = Math.min(height - 1, Math.floor((yMax - bottom) / pitch));
  return i0 <= i1 && j0 <= j1 ? { i0, i1, j0, j1 } : null;
}

function grow(all: Box | null, box: Box): Box {
  if (!all) return { ...box };
  all.i0 = Math.min(all.i0, box.i0);
  all.i1 = Math.max(all.i1, box.i1);
  all.j0 = Math.min(all.j0, box.j0);
  all.j1 = Math.max(all.j1, box.j1);
  return all;
}

function fillBox(field: Field, box: Box, target: Float32Array, value: number): void {
  for (let j = box.j0; j <= box.j1; j++) target.fill(value, j * field.width + box.i0, j * field.width + box.i1 + 1);
}

/** Depth of a stroke in `depth`, within the box returned. A narrower stretch is cut less deep, as a tool does. */
function strokeDepth(field: Field, cut: Stroke, depth: Float32Array): Box | null {
  const p = cut.points;
  const n = p.length / 3;
  let all: Box | null = null;
  let widest = 0;
  for (let i = 0; i < n; i++) {
    const r = p[3 * i + 2];
    widest = Math.max(widest, r);
    const box = boxOf(field, p[3 * i] - r, p[3 * i] + r, p[3 * i + 1] - r, p[3 * i + 1] + r);
    if (box) all = grow(all, box);
  }
  if (!all || widest === 0) return null;
  fillBox(field, all, depth, 0);
  for (let i = 0; i < Math.max(1, n - 1); i++)
    capsuleDepth(field, cut, 3 * i, 3 * Math.min(i + 1, n - 1), widest, depth);
  return all;
}

function capsuleDepth(field: Field, cut: Stroke, a: number, b: number, widest: number, depth: Float32Array): void {
  const p = cut.points;
  const ax = p[a];
  const ay = p[a + 1];
  const ra = p[a + 2];
  const dx = p[b] - ax;
  const dy = p[b + 1] - ay;
  const dr = p[b + 2] - ra;
  const big = Math.max(ra, p[b + 2]);
  const box = boxOf(
    field,
    Math.min(ax, p[b]) - big,
    Math.max(ax, p[b]) + big,
    Math.min(ay, p[b + 1]) - big,
    Math.max(ay, p[b + 1]) + big,
  );
  if (!box) return;
  const lengthSquared = dx * dx + dy * dy || 1e-12;
  const { pitch, left, bottom, width } = field;
  for (let j = box.j0; j <= box.j1; j++) {
    const py = bottom + j * pitch - ay;
    for (let i = box.i0; i <= box.i1; i++) {
      const px = left + i * pitch - ax;
      let t = (px * dx + py * dy) / lengthSquared;
      t = Math.max(0, Math.min(1, t));
      const ex = px - t * dx;
      const ey = py - t * dy;
      const r = ra + t * dr;
      const squared = ex * ex + ey * ey;
      if (squared >= r * r) continue;
      const taper = r / widest;
      const value = cut.depthMm * Math.sqrt(taper) * sectionHeight(cut.section, 1 - Math.sqrt(squared) / r);
      const index = j * width + i;
      if (value > depth[index]) depth[index] = value;
    }
  }
}

/** Depth of a region in `depth`, within the box returned. */
function regionDepth(field: Field, cut: Region, distance: Float32Array, depth: Float32Array): Box | null {
  const reach = cut.flankMm + Math.abs(cut.boldMm) + field.pitch;
  const box = regionBox(field, cut, reach);
  if (!box) return null;
  fillBox(field, box, distance, reach * reach);
  for (const contour of cut.contours) contourDistance(field, contour, reach, distance);
  const crossings: Array<{ x: number; turn: number }> = [];
  const { pitch, left, bottom, width } = field;
  for (let j = box.j0; j <= box.j1; j++) {
    rowCrossings(cut, bottom + j * pitch, crossings);
    let next = 0;
    let winding = 0;
    for (let i = box.i0; i <= box.i1; i++) {
      const x = left + i * pitch;
      while (next < crossings.length && crossings[next].x <= x) winding += crossings[next++].turn;
      const index = j * width + i;
      const away = Math.sqrt(distance[index]);
      const inside = (winding !== 0 ? away : -away) + cut.boldMm;
      depth[index] = inside > 0 ? cut.depthMm * sectionHeight(cut.section, inside / cut.flankMm) : 0;
    }
  }
  return box;
}

function regionBox(field: Field, cut: Region, reach: number): Box | null {
  let all: Box | null = null;
  for (const c of cut.contours)
    for (let i = 0; i < c.length; i += 2) {
      const box = boxOf(field, c[i] - reach, c[i] + reach, c[i + 1] - reach, c[i + 1] + reach);
      if (box) all = grow(all, box);
    }
  return all;
}

/** Squared distance to the contour, where it is within reach. */
function contourDistance(field: Field, c: Float64Array, reach: number, distance: Float32Array): void {
  const { pitch, left, bottom, width } = field;
  for (let k = c.length - 2, m = 0; m < c.length; k = m, m += 2) {
    const ax = c[k];
    const ay = c[k + 1];
    const dx = c[m] - ax;
    const dy = c[m + 1] - ay;
    const box = boxOf(
      field,
      Math.min(ax, c[m]) - reach,
      Math.max(ax, c[m]) + reach,
      Math.min(ay, c[m + 1]) - reach,
      Math.max(ay, c[m + 1]) + reach,
    );
    if (!box) continue;
    const lengthSquared = dx * dx + dy * dy || 1e-12;
    for (let j = box.j0; j <= box.j1; j++) {
      const py = bottom + j * pitch - ay;
      for (let i = box.i0; i <= box.i1; i++) {
        const px = left + i * pitch - ax;
        let t = (px * dx + py * dy) / lengthSquared;
        t = Math.max(0, Math.min(1, t));
        const ex = px - t * dx;
        const ey = py - t * dy;
        const squared = ex * ex + ey * ey;
        const index = j * width + i;
        if (squared < distance[index]) distance[index] = squared;
      }
    }
  }
}

function rowCrossings(cut: Region, y: number, out: Array<{ x: number; turn: number }>): void {
  out.length = 0;
  for (const c of cut.contours)
    for (let k = c.length - 2, m = 0; m < c.length; k = m, m += 2) {
      const up = c[k + 1] <= y && c[m + 1] > y;
      if (!up && !(c[m + 1] <= y && c[k + 1] > y)) continue;
      const t = (y - c[k + 1]) / (c[m + 1] - c[k + 1]);
      out.push({ x: c[k] + t * (c[m] - c[k]), turn: up ? 1 : -1 });
    }
  out.sort((a, b) => a.x - b.x);
}

/** Ripples across the tool's way: 512 smoothed random heights read along one direction, slightly uneven. */
function chatter(cut: Cut, random: Random): (x: number, y: number) => number {
  if (cut.chatterMm === 0) return () => 0;
  const ripples = new Float32Array(512);
  for (let i = 0; i < 512; i++) ripples[i] = random.normal();
  const angle = strokeAngle(cut) ?? random.between(0, Math.PI);
  const perMm = 1 / random.between(0.12, 0.3);
  const along = Math.cos(angle) * perMm;
  const across = Math.sin(angle) * perMm;
  return (x, y) => {
    const u = x * along + y * across + 0.35 * Math.sin(1.7 * y * along - 1.7 * x * across) + 4096;
    const i = Math.floor(u);
    const t = u - i;
    const s = t * t * (3 - 2 * t);
    return cut.chatterMm * (ripples[i & 511] * (1 - s) + ripples[(i + 1) & 511] * s);
  };
}

const strokeAngle = (cut: Cut): number | null => {
  if (cut.kind !== 'stroke' || cut.points.length < 6) return null;
  const p = cut.points;
  return Math.atan2(p[p.length - 2] - p[1], p[p.length - 3] - p[0]);
};

/** Joins the cut to what is there. `deepen` blends over 60 µm, since metal keeps no knife edge between two cuts. */
function merge(field: Field, box: Box, depth: Float32Array, cut: Cut, ripple: (x: number, y: number) => number): void {
  const { pitch, left, bottom, width, z } = field;
  for (let j = box.j0; j <= box.j1; j++)
    for (let i = box.i0; i <= box.i1; i++) {
      const index = j * width + i;
      let value = depth[index];
      if (value <= 0) continue;
      value += ripple(left + i * pitch, bottom + j * pitch) * Math.min(1, value * 8);
      const old = z[index];
      if (cut.mode === 'add') z[index] = old + value;
      else if (cut.mode === 'stand') z[index] = Math.max(0, old - value);
      else z[index] = smoothMax(old, value, Math.min(0.06, 0.5 * Math.max(0, old), 0.5 * Math.max(0, value)));
    }
}

/** max(a, b) with the corner rounded over ±k. */
function smoothMax(a: number, b: number, k: number): number {
  const h = k - Math.abs(a - b);
  return Math.max(a, b) + (h > 0 ? (h * h) / (4 * k) : 0);
}
