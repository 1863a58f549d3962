import type { Random } from '../../src/core/geometry/index.ts';
import { smoothField } from './chance.ts';
import type { Ring } from './outline.ts';

export const scatterStyles = ['even', 'thinned', 'swaths'] as const;
/**
 * How a scanner and its software leave points: `even` a jittered triangular lattice of smoothly changing density;
 * `thinned` a finer one thinned at random, as decimation by chance does; `swaths` two or three overlapping range
 * lattices at different angles.
 */
export type ScatterStyle = (typeof scatterStyles)[number];

/** Irregular points within ±halfWidth × ±halfHeight about (cx, cy): x, y pairs, about `spacing` mm apart. */
export function scatter(
  bounds: readonly [number, number, number, number],
  spacing: number,
  style: ScatterStyle,
  random: Random,
): number[] {
  if (style === 'even') return lattice(bounds, spacing, random.between(0, Math.PI), 0.3, random);
  if (style === 'thinned') return thinned(bounds, spacing, random);
  return swaths(bounds, spacing, random);
}

function lattice(
  [x0, x1, y0, y1]: readonly [number, number, number, number],
  spacing: number,
  angle: number,
  jitter: number,
  random: Random,
): number[] {
  const cx = (x0 + x1) / 2;
  const cy = (y0 + y1) / 2;
  const reach = Math.hypot(x1 - x0, y1 - y0) / 2 + 2 * spacing;
  const stretch = smoothField(random, reach * 0.6);
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  // A triangular lattice of side a has one point per a² √3 / 2; spacing² is the area wanted per point.
  const a = spacing * Math.sqrt(2 / Math.sqrt(3));
  const rowStep = (a * Math.sqrt(3)) / 2;
  const n = Math.ceil(reach / rowStep);
  const m = Math.ceil(reach / a);
  const points: number[] = [];
  for (let j = -n; j <= n; j++)
    for (let i = -m; i <= m; i++) {
      const u = (i + (j & 1 ? 0.5 : 0) + jitter * (random.next() * 2 - 1)) * a;
      const v = j * rowStep + jitter * (random.next() * 2 - 1) * a;
      // A smooth shift of up to a tenth of the reach makes the density vary by about a third.
      const d = 0.1 * reach * stretch(u, v);
      const x = cx + c * u - s * v + d;
      const y = cy + s * u + c * v - 0.6 * d;
      if (x > x0 && x < x1 && y > y0 && y < y1) points.push(x, y);
    }
  return points;
}

function thinned(bounds: readonly [number, number, number, number], spacing: number, random: Random): number[] {
  const fine = lattice(bounds, spacing * 0.72, random.between(0, Math.PI), 0.22, random);
  const dense = smoothField(random, 0.3 * (bounds[1] - bounds[0]));
  const points: number[] = [];
  for (let i = 0; i < fine.length; i += 2)
    if (random.next() < 0.52 * (1 + 0.45 * dense(fine[i], fine[i + 1]))) points.push(fine[i], fine[i + 1]);
  return points;
}

function swaths(bounds: readonly [number, number, number, number], spacing: number, random: Random): number[] {
  const [x0, x1, y0, y1] = bounds;
  const count = 2 + random.below(2);
  const angle = random.between(0, Math.PI);
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const reach = Math.hypot(x1 - x0, y1 - y0);
  const points: number[] = [];
  const waver = smoothField(random, reach * 0.2);
  for (let k = 0; k < count; k++) {
    const part = lattice(bounds, spacing * random.between(0.85, 1.15), random.between(0, Math.PI), 0.12, random);
    for (let i = 0; i < part.length; i += 2) {
      const across =
        c * (part[i] - (x0 + x1) / 2) + s * (part[i + 1] - (y0 + y1) / 2) + 0.06 * reach * waver(part[i], part[i + 1]);
      const strip = Math.floor((across / reach + 0.5) * count);
      if (Math.max(0, Math.min(count - 1, strip)) === k) points.push(part[i], part[i + 1]);
    }
  }
  return points;
}

/** Star-shaped region about a centre: the distance to its edge by direction, for fast inside tests. */
export interface Star {
  readonly cx: number;
  readonly cy: number;
  /** Edge distance, mm, at equal steps of angle. */
  readonly radius: Float64Array;
}

/** `ring` seen from (cx, cy), in steps of a degree; the edge lies where `inside` turns false. */
export function starOf(
  cx: number,
  cy: number,
  reach: number,
  inside: (x: number, y: number) => boolean,
  steps = 720,
): Star {
  const radius = new Float64Array(steps);
  for (let k = 0; k < steps; k++) {
    const t = (2 * Math.PI * k) / steps;
    const c = Math.cos(t);
    const s = Math.sin(t);
    let low = 0;
    let high = reach;
    for (let step = 0; step < 18; step++) {
      const middle = (low + high) / 2;
      if (inside(cx + c * middle, cy + s * middle)) low = middle;
      else high = middle;
    }
    radius[k] = low;
  }
  return { cx, cy, radius };
}

/** Radial clearance to the star's edge, mm, positive inside. */
export function clearance(star: Star, x: number, y: number): number {
  const dx = x - star.cx;
  const dy = y - star.cy;
  const n = star.radius.length;
  const k = ((Math.atan2(dy, dx) / (2 * Math.PI)) * n + n) % n;
  const k0 = Math.floor(k) % n;
  const t = k - Math.floor(k);
  return star.radius[k0] * (1 - t) + star.radius[(k0 + 1) % n] * t - Math.hypot(dx, dy);
}

/** The star's edge as a ring of points about `spacing` apart, jittered along the edge. */
export function starRing(star: Star, spacing: number, random: Random): Ring {
  const n = star.radius.length;
  const points: number[] = [];
  let carried = spacing;
  let px = Number.NaN;
  let py = Number.NaN;
  for (let k = 0; k < n; k++) {
    const t = (2 * Math.PI * k) / n;
    const x = star.cx + star.radius[k] * Math.cos(t);
    const y = star.cy + star.radius[k] * Math.sin(t);
    if (Number.isNaN(px)) {
      px = x;
      py = y;
      points.push(x, y);
      carried = 0;
      continue;
    }
    const length = Math.hypot(x - px, y - py);
    let along = spacing * (1 + 0.25 * (random.next() * 2 - 1)) - carried;
    while (along < length) {
      points.push(px + ((x - px) * along) / length, py + ((y - py) * along) / length);
      carried = -along;
      along += spacing * (1 + 0.25 * (random.next() * 2 - 1));
    }
    carried += length;
    px = x;
    py = y;
  }
  return Float64Array.from(points);
}
