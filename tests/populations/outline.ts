import { type Lattice, spread } from './lattice.ts';
import type { Shape } from './types.ts';

/** Half sizes of a seal face, mm. */
export interface Outline {
  readonly shape: Shape;
  readonly halfWidth: number;
  readonly halfHeight: number;
}

const steps = 240;

/**
 * The curve `inset` mm inside the outline, x, y pairs clockwise from the top in the impression's sense. Round and
 * pointed outlines are exact; ovals and shields keep their kind with smaller axes.
 */
export function insetCurve({ shape, halfWidth: a, halfHeight: b }: Outline, inset: number): Float64Array {
  if (shape === 'pointed') return vesica(a, b, inset);
  if (shape === 'shield') return shield(a - inset, b - inset, inset);
  const curve = new Float64Array(2 * steps);
  for (let i = 0; i < steps; i++) {
    const angle = (2 * Math.PI * i) / steps;
    curve[2 * i] = (a - inset) * Math.sin(angle);
    curve[2 * i + 1] = (b - inset) * Math.cos(angle);
  }
  return curve;
}

/** Two arcs of radius r = (a² + b²) / 2a that meet at top and bottom. */
function vesica(a: number, b: number, inset: number): Float64Array {
  const r = (a * a + b * b) / (2 * a);
  const away = r - a;
  const reach = Math.acos(Math.min(1, away / (r - inset)));
  const curve = new Float64Array(2 * steps);
  for (let i = 0; i < steps; i++) {
    const right = i < steps / 2;
    const t = (i % (steps / 2)) / (steps / 2);
    const angle = reach * (1 - 2 * t);
    const side = right ? 1 : -1;
    curve[2 * i] = side * ((r - inset) * Math.cos(angle) - away);
    curve[2 * i + 1] = side * (r - inset) * Math.sin(angle);
  }
  return curve;
}

/** Flat top, straight flanks for a third of the height, then two arcs to a point. */
function shield(a: number, b: number, inset: number): Float64Array {
  const bottom = -b + 0.25 * inset;
  const shoulder = b / 3;
  const corners: [number, number][] = [];
  const add = (x: number, y: number): void => void corners.push([x, y]);
  add(0, b);
  add(a, b);
  for (let i = 0; i <= 24; i++) {
    const t = i / 24;
    add(a * Math.cos((t * Math.PI) / 2) ** 0.8, shoulder + (bottom - shoulder) * Math.sin((t * Math.PI) / 2) ** 1.25);
  }
  for (let i = corners.length - 2; i > 0; i--) add(-corners[i][0], corners[i][1]);
  return resample(corners);
}

function resample(corners: readonly [number, number][]): Float64Array {
  const closed = [...corners, corners[0]];
  const reach = [0];
  for (let i = 1; i < closed.length; i++)
    reach.push(reach[i - 1] + Math.hypot(closed[i][0] - closed[i - 1][0], closed[i][1] - closed[i - 1][1]));
  const curve = new Float64Array(2 * steps);
  let k = 1;
  for (let i = 0; i < steps; i++) {
    const s = (reach[reach.length - 1] * i) / steps;
    while (reach[k] < s) k++;
    const t = (s - reach[k - 1]) / (reach[k] - reach[k - 1]);
    curve[2 * i] = closed[k - 1][0] + t * (closed[k][0] - closed[k - 1][0]);
    curve[2 * i + 1] = closed[k - 1][1] + t * (closed[k][1] - closed[k - 1][1]);
  }
  return curve;
}

/** A closed curve by its length: place and direction at s mm from the top, clockwise. */
export interface Course {
  readonly length: number;
  at(s: number): { x: number; y: number; tx: number; ty: number };
}

export function courseOf(curve: Float64Array): Course {
  const n = curve.length / 2;
  const reach = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    reach[i + 1] = reach[i] + Math.hypot(curve[2 * j] - curve[2 * i], curve[2 * j + 1] - curve[2 * i + 1]);
  }
  const length = reach[n];
  const place = (s: number): [number, number] => {
    const wrapped = ((s % length) + length) % length;
    let low = 0;
    let high = n;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (reach[middle] <= wrapped) low = middle;
      else high = middle;
    }
    const j = (low + 1) % n;
    const t = (wrapped - reach[low]) / (reach[low + 1] - reach[low] || 1);
    return [
      curve[2 * low] + t * (curve[2 * j] - curve[2 * low]),
      curve[2 * low + 1] + t * (curve[2 * j + 1] - curve[2 * low + 1]),
    ];
  };
  const span = length / 120;
  return {
    length,
    at: (s) => {
      const [x, y] = place(s);
      const [ax, ay] = place(s - span);
      const [bx, by] = place(s + span);
      const run = Math.hypot(bx - ax, by - ay) || 1;
      return { x, y, tx: (bx - ax) / run, ty: (by - ay) / run };
    },
  };
}

/** Signed distance from the outline, mm, positive outside, for every cell: exact every half millimetre. */
export function distanceOutside(outline: Outline, lattice: Lattice): Float32Array {
  const curve = insetCurve(outline, 0);
  return spread(lattice, 0.5, (x, y) => distanceTo(curve, x, y));
}

function distanceTo(curve: Float64Array, x: number, y: number): number {
  let best = Number.POSITIVE_INFINITY;
  let inside = false;
  const n = curve.length / 2;
  for (let i = 0, j = n - 1; i < n; j = i++) {
    const ax = curve[2 * j];
    const ay = curve[2 * j + 1];
    const bx = curve[2 * i] - ax;
    const by = curve[2 * i + 1] - ay;
    const t = Math.min(1, Math.max(0, ((x - ax) * bx + (y - ay) * by) / (bx * bx + by * by)));
    const dx = x - ax - t * bx;
    const dy = y - ay - t * by;
    best = Math.min(best, dx * dx + dy * dy);
    if (ay > y !== ay + by > y && x < ax + ((y - ay) * bx) / by) inside = !inside;
  }
  return inside ? -Math.sqrt(best) : Math.sqrt(best);
}
