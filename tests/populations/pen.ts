import type { Chance } from './chance.ts';
import type { Section, Stroke } from './strokes.ts';

/**
 * Motifs as a person would draw them with gravers and punches, in a disc of radius 1. Depth 1 is the deepest of the
 * motif. Numbers of limbs, turns and proportions come from chance, so two trees are two trees.
 */
export type Motif = (pen: Pen, chance: Chance) => void;

/** Collects strokes; each call is one stroke, one group. */
export interface Pen {
  /** A track through points; widths run from the first through the middle to the last. */
  track(
    points: readonly (readonly [number, number])[],
    widths: readonly number[],
    depth: number,
    section?: Section,
  ): void;
  /** A fine line cut into what is there already. */
  fine(points: readonly (readonly [number, number])[], width: number, depth: number): void;
  dot(x: number, y: number, radius: number, depth: number, detail?: boolean): void;
}

export function penInto(strokes: Stroke[], firstGroup: number, radius: number, deepest: number): Pen {
  let group = firstGroup;
  const put = (
    points: readonly (readonly [number, number])[],
    widths: readonly number[],
    depth: number,
    section: Section,
    detail: boolean,
  ): void => {
    const last = points.length - 1;
    const half = points.map((_, i) => radius * alongList(widths, last ? i / last : 0));
    // A thinner end is a shallower end, as with a pointed graver.
    const widest = Math.max(...half);
    // No tool cuts a groove much deeper than wide.
    const full = Math.min(deepest * depth, 1.4 * Math.max(widest, 0.06));
    strokes.push({
      x: points.map(([px]) => px * radius),
      y: points.map(([, py]) => py * radius),
      half: half.map((h) => Math.max(0.06, h)),
      depth: half.map((h) => full * Math.sqrt(Math.max(0.05, h) / Math.max(widest, 0.05))),
      section,
      detail,
      group: group++,
    });
  };
  return {
    track: (points, widths, depth, section = 'round') => put(points, widths, depth, section, false),
    fine: (points, width, depth) => put(points, [width * 0.6, width, width * 0.4], depth, 'v', true),
    dot: (x, y, r, depth, detail = false) => put([[x, y]], [r], depth, 'round', detail),
  };
}

function alongList(list: readonly number[], t: number): number {
  const at = t * (list.length - 1);
  const i = Math.min(list.length - 1, Math.floor(at));
  const j = Math.min(list.length - 1, i + 1);
  return list[i] + (at - i) * (list[j] - list[i]);
}

export type P = [number, number];
export const sway = (chance: Chance, value: number, by = 0.12): number => value * (1 + by * chance.gauss());

/** A smooth course through a few points (Catmull and Rom). */
export function curve(points: readonly P[], parts = 5): P[] {
  const out: P[] = [];
  const at = (i: number): P => points[Math.min(points.length - 1, Math.max(0, i))];
  for (let i = 0; i < points.length - 1; i++)
    for (let k = 0; k < parts; k++) {
      const t = k / parts;
      const mix = (axis: 0 | 1): number => {
        const [a, b, c, d] = [at(i - 1)[axis], at(i)[axis], at(i + 1)[axis], at(i + 2)[axis]];
        return b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
      };
      out.push([mix(0), mix(1)]);
    }
  out.push(points[points.length - 1]);
  return out;
}

export const around = (cx: number, cy: number, r: number, from: number, to: number, parts = 16): P[] =>
  Array.from({ length: parts + 1 }, (_, i) => {
    const angle = from + ((to - from) * i) / parts;
    return [cx + r * Math.sin(angle), cy + r * Math.cos(angle)];
  });
