import Delaunator from 'delaunator';
import type { Random } from '../../src/core/geometry/index.ts';
import { type Ring, ringArea } from './outline.ts';
import { clearance, type ScatterStyle, type Star, scatter, starRing } from './scatter.ts';

/** A triangulated sheet over the plane: x, y pairs; the first `ringCount` points run around the edge in order. */
export interface Sheet {
  readonly points: Float64Array;
  readonly triangles: Uint32Array;
  readonly ringCount: number;
  /** Points of the hole's rim, right after the edge's. */
  readonly rimCount: number;
}

export interface SheetPlan {
  readonly star: Star;
  readonly spacing: number;
  readonly style: ScatterStyle;
  /** The edge itself carries points; else the sheet ends raggedly as scan data do. */
  readonly sharpEdge: boolean;
  /** A round hole, whose rim carries points right after the edge's: centre and radius. */
  readonly hole?: readonly [number, number, number];
}

/** Irregular Delaunay triangulation of a star-shaped region. Triangles wind counter-clockwise. */
export function triangulate(plan: SheetPlan, random: Random): Sheet {
  const { star, spacing, hole } = plan;
  const ring: Ring = plan.sharpEdge ? starRing(star, spacing, random) : new Float64Array(0);
  const rim = hole ? circle(hole, spacing) : new Float64Array(0);
  const loose = scatter(starBounds(star), spacing, plan.style, random);
  const edge = plan.sharpEdge ? 0.5 * spacing : 0;
  const room = new Float64Array(ring.length + rim.length + loose.length);
  room.set(ring);
  room.set(rim, ring.length);
  let n = ring.length + rim.length;
  for (let i = 0; i < loose.length; i += 2) {
    const x = loose[i];
    const y = loose[i + 1];
    if (hole && Math.hypot(x - hole[0], y - hole[1]) < hole[2] + 0.5 * spacing) continue;
    if (clearance(star, x, y) <= edge) continue;
    room[n++] = x;
    room[n++] = y;
  }
  const points = room.slice(0, n);
  const all = new Delaunator(points).triangles;
  return {
    points,
    triangles: trim(points, all, plan),
    ringCount: ring.length / 2,
    rimCount: rim.length / 2,
  };
}

function circle([x, y, r]: readonly [number, number, number], spacing: number): Float64Array {
  const n = Math.max(10, Math.round((2 * Math.PI * r) / spacing));
  const out = new Float64Array(2 * n);
  for (let i = 0; i < n; i++) {
    out[2 * i] = x + r * Math.cos((2 * Math.PI * i) / n);
    out[2 * i + 1] = y + r * Math.sin((2 * Math.PI * i) / n);
  }
  return out;
}

function starBounds(star: Star): [number, number, number, number] {
  let [x0, x1, y0, y1] = [star.cx, star.cx, star.cy, star.cy];
  const n = star.radius.length;
  for (let k = 0; k < n; k++) {
    const x = star.cx + star.radius[k] * Math.cos((2 * Math.PI * k) / n);
    const y = star.cy + star.radius[k] * Math.sin((2 * Math.PI * k) / n);
    x0 = Math.min(x0, x);
    x1 = Math.max(x1, x);
    y0 = Math.min(y0, y);
    y1 = Math.max(y1, y);
  }
  return [x0, x1, y0, y1];
}

/** Drops triangles outside the region or with a side over four spacings; turns the rest counter-clockwise. */
function trim(p: Float64Array, all: Uint32Array, { star, spacing, hole }: SheetPlan): Uint32Array {
  const out = new Uint32Array(all.length);
  const longest = (4 * spacing) ** 2;
  let n = 0;
  for (let i = 0; i < all.length; i += 3) {
    const a = 2 * all[i];
    const b = 2 * all[i + 1];
    const c = 2 * all[i + 2];
    const side = (s: number, t: number): number => (p[s] - p[t]) ** 2 + (p[s + 1] - p[t + 1]) ** 2;
    if (side(a, b) > longest || side(b, c) > longest || side(c, a) > longest) continue;
    const cx = (p[a] + p[b] + p[c]) / 3;
    const cy = (p[a + 1] + p[b + 1] + p[c + 1]) / 3;
    if (clearance(star, cx, cy) < -1e-3) continue;
    if (hole && Math.hypot(cx - hole[0], cy - hole[1]) < hole[2] * 0.98) continue;
    const twice = (p[b] - p[a]) * (p[c + 1] - p[a + 1]) - (p[b + 1] - p[a + 1]) * (p[c] - p[a]);
    out[n] = all[i];
    out[n + 1] = twice > 0 ? all[i + 1] : all[i + 2];
    out[n + 2] = twice > 0 ? all[i + 2] : all[i + 1];
    n += 3;
  }
  return out.slice(0, n);
}

/** Area of the star, mm². */
export function starArea(star: Star): number {
  const n = star.radius.length;
  const ring = new Float64Array(2 * n);
  for (let k = 0; k < n; k++) {
    ring[2 * k] = star.radius[k] * Math.cos((2 * Math.PI * k) / n);
    ring[2 * k + 1] = star.radius[k] * Math.sin((2 * Math.PI * k) / n);
  }
  return ringArea(ring);
}
