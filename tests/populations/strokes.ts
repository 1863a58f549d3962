import type { Chance } from './chance.ts';
import type { Lattice } from './lattice.ts';

/** Cross sections of a tool's track over q = distance / half width: pointed, rounded, hollow with steep flanks, flat. */
export type Section = 'v' | 'round' | 'full' | 'flat';

/**
 * One pass of a tool along a polyline, or one blow of a punch (a single point). Half width and depth, mm, at each point.
 */
export interface Stroke {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly half: readonly number[];
  readonly depth: readonly number[];
  readonly section: Section;
  /** Cut into the floor of what is there already; otherwise the deeper of the two stands. */
  readonly detail: boolean;
  /** What a copyist places as one: a letter, or a stroke of the motif. −1: a border line that follows its course. */
  readonly group: number;
}

/**
 * The same stroke as a hand cuts it: corners every `step` mm or less, an unsteady course of `unsteadyMm`, and a depth
 * that chatters by the share `chatter`.
 */
export function byHand(stroke: Stroke, chance: Chance, step: number, unsteadyMm: number, chatter: number): Stroke {
  const x: number[] = [];
  const y: number[] = [];
  const half: number[] = [];
  const depth: number[] = [];
  let drift = 0;
  let driftY = 0;
  let press = 0;
  const put = (px: number, py: number, h: number, d: number): void => {
    drift = 0.7 * drift + 0.7 * unsteadyMm * chance.gauss();
    driftY = 0.7 * driftY + 0.7 * unsteadyMm * chance.gauss();
    press = 0.6 * press + 0.8 * chatter * chance.gauss();
    x.push(px + drift);
    y.push(py + driftY);
    half.push(h * (1 + press / 2));
    depth.push(d * (1 + press));
  };
  put(stroke.x[0], stroke.y[0], stroke.half[0], stroke.depth[0]);
  for (let i = 1; i < stroke.x.length; i++) {
    const dx = stroke.x[i] - stroke.x[i - 1];
    const dy = stroke.y[i] - stroke.y[i - 1];
    const parts = Math.max(1, Math.ceil(Math.hypot(dx, dy) / Math.max(step, stroke.half[i] / 2)));
    for (let k = 1; k <= parts; k++) {
      const t = k / parts;
      put(
        stroke.x[i - 1] + t * dx,
        stroke.y[i - 1] + t * dy,
        stroke.half[i - 1] + t * (stroke.half[i] - stroke.half[i - 1]),
        stroke.depth[i - 1] + t * (stroke.depth[i] - stroke.depth[i - 1]),
      );
    }
  }
  return { ...stroke, x, y, half, depth };
}

/** Sweeps the tool: every cell within a half width of the course takes the depth of its section where that is deeper. */
export function sweep(lattice: Lattice, layer: Float32Array, stroke: Stroke): void {
  const { x, y, half, depth, section } = stroke;
  for (let i = x.length > 1 ? 1 : 0; i < x.length; i++) {
    const j = Math.max(0, i - 1);
    segment(lattice, layer, section, x[j], y[j], half[j], depth[j], x[i], y[i], half[i], depth[i]);
  }
}

function segment(
  { width, height, pitch, left, bottom }: Lattice,
  layer: Float32Array,
  section: Section,
  ax: number,
  ay: number,
  ah: number,
  ad: number,
  bx: number,
  by: number,
  bh: number,
  bd: number,
): void {
  const reach = Math.max(ah, bh);
  const from = Math.max(0, Math.ceil((Math.min(ax, bx) - reach - left) / pitch));
  const to = Math.min(width - 1, Math.floor((Math.max(ax, bx) + reach - left) / pitch));
  const low = Math.max(0, Math.ceil((Math.min(ay, by) - reach - bottom) / pitch));
  const high = Math.min(height - 1, Math.floor((Math.max(ay, by) + reach - bottom) / pitch));
  const dx = bx - ax;
  const dy = by - ay;
  const square = dx * dx + dy * dy || 1;
  for (let row = low; row <= high; row++) {
    const py = bottom + row * pitch - ay;
    for (let column = from; column <= to; column++) {
      const px = left + column * pitch - ax;
      let t = (px * dx + py * dy) / square;
      t = t < 0 ? 0 : Math.min(t, 1);
      const ex = px - t * dx;
      const ey = py - t * dy;
      const h = ah + t * (bh - ah);
      const q2 = (ex * ex + ey * ey) / (h * h);
      if (q2 >= 1) continue;
      const value = (ad + t * (bd - ad)) * profile(section, q2);
      const cell = row * width + column;
      if (value > layer[cell]) layer[cell] = value;
    }
  }
}

function profile(section: Section, q2: number): number {
  if (section === 'round') return 1 - q2;
  if (section === 'full') return 1 - q2 * q2;
  const q = Math.sqrt(q2);
  if (section === 'v') return 1 - q;
  return Math.min(1, (1 - q) / 0.35);
}
