import type { DieShape } from './types.ts';

/** A closed convex polygon, counter-clockwise: x, y pairs, mm. */
export type Ring = Float64Array;

/**
 * Outline of a die, about `count` points. `sizeMm` is the longest side; `slim` is width ÷ height (round and square: 1).
 * A pointed oval is two circular arcs that meet in points; a shield has a straight top and two arcs to a lower point.
 */
export function dieOutline(shape: DieShape, sizeMm: number, slim: number, count = 240): Ring {
  const h = sizeMm / 2;
  if (shape === 'round') return ellipse(h, h, count);
  if (shape === 'oval') return ellipse(h * slim, h, count);
  if (shape === 'square') return roundedSquare(h, count);
  return shape === 'pointedOval' ? pointedOval(h * slim, h, count) : shield(h * slim, h, count);
}

function ellipse(a: number, b: number, count: number): Ring {
  const ring = new Float64Array(2 * count);
  for (let i = 0; i < count; i++) {
    const t = (2 * Math.PI * i) / count;
    ring[2 * i] = a * Math.cos(t);
    ring[2 * i + 1] = b * Math.sin(t);
  }
  return ring;
}

function pointedOval(a: number, b: number, count: number): Ring {
  // Arc through (a, 0) and (0, ±b): centre (−c, 0), radius r = a + c, with r² = c² + b².
  const c = (b * b - a * a) / (2 * a);
  const r = a + c;
  const half = Math.atan2(b, c);
  const n = count >> 1;
  const points: number[] = [];
  for (let i = 0; i < n; i++) {
    const t = -half + (2 * half * i) / n;
    points.push(-c + r * Math.cos(t), r * Math.sin(t));
  }
  for (let i = 0; i < n; i++) {
    const t = -half + (2 * half * i) / n;
    points.push(c - r * Math.cos(t), -r * Math.sin(t));
  }
  return Float64Array.from(points);
}

function shield(a: number, b: number, count: number): Ring {
  const shoulder = b * 0.15;
  const points: number[] = [];
  const n = count >> 2;
  const line = (x0: number, y0: number, x1: number, y1: number, steps: number): void => {
    for (let i = 0; i < steps; i++) points.push(x0 + ((x1 - x0) * i) / steps, y0 + ((y1 - y0) * i) / steps);
  };
  // The side arc leaves (a, shoulder) vertically and ends at (0, −b).
  const drop = b + shoulder;
  const r = (a * a + drop * drop) / (2 * a);
  const end = Math.asin(drop / r);
  for (let i = 0; i < n; i++) {
    const t = end - (end * i) / n;
    points.push(a - r + r * Math.cos(t), shoulder - r * Math.sin(t));
  }
  line(a, shoulder, a, b, n >> 1);
  line(a, b, -a, b, n);
  line(-a, b, -a, shoulder, n >> 1);
  for (let i = 0; i < n; i++) {
    const t = (end * i) / n;
    points.push(-a + r - r * Math.cos(t), shoulder - r * Math.sin(t));
  }
  return Float64Array.from(points);
}

function roundedSquare(h: number, count: number): Ring {
  const r = 0.12 * h;
  const n = count >> 2;
  const points: number[] = [];
  for (let side = 0; side < 4; side++) {
    const c = Math.round(Math.cos((side * Math.PI) / 2));
    const s = Math.round(Math.sin((side * Math.PI) / 2));
    const put = (x: number, y: number): number => points.push(c * x - s * y, s * x + c * y);
    for (let i = 0; i < n - 6; i++) put(h, -h + r + (2 * (h - r) * i) / (n - 6));
    for (let i = 0; i < 6; i++) {
      const t = (i * Math.PI) / 12;
      put(h - r + r * Math.cos(t), h - r + r * Math.sin(t));
    }
  }
  return Float64Array.from(points);
}

/**
 * The ring moved inward by `insetMm` everywhere (outward where negative, with sharp corners): every edge's half-plane
 * is shifted and the ring is clipped by all of them, which is exact for convex rings and drops edges that vanish.
 */
export function inset(ring: Ring, insetMm: number): Ring {
  if (insetMm < 0) return outset(ring, -insetMm);
  let points = Array.from(ring);
  const n = ring.length / 2;
  for (let i = 0; i < n; i++) {
    const k = (i + 1) % n;
    const dx = ring[2 * k] - ring[2 * i];
    const dy = ring[2 * k + 1] - ring[2 * i + 1];
    const length = Math.hypot(dx, dy);
    if (length < 1e-9) continue;
    // Inward normal of a counter-clockwise edge.
    const nx = -dy / length;
    const ny = dx / length;
    points = clip(points, nx, ny, nx * ring[2 * i] + ny * ring[2 * i + 1] + insetMm);
  }
  return Float64Array.from(points);
}

/** Keeps the part where nx · x + ny · y ≥ level (Sutherland and Hodgman's rule for one plane). */
function clip(points: number[], nx: number, ny: number, level: number): number[] {
  const out: number[] = [];
  for (let i = 0; i < points.length; i += 2) {
    const k = (i + 2) % points.length;
    const a = nx * points[i] + ny * points[i + 1] - level;
    const b = nx * points[k] + ny * points[k + 1] - level;
    if (a >= 0) out.push(points[i], points[i + 1]);
    if (a >= 0 !== b >= 0) {
      const t = a / (a - b);
      out.push(points[i] + t * (points[k] - points[i]), points[i + 1] + t * (points[k + 1] - points[i + 1]));
    }
  }
  return out;
}

function outset(ring: Ring, by: number): Ring {
  const n = ring.length / 2;
  const out = new Float64Array(ring.length);
  for (let i = 0; i < n; i++) {
    const before = (i + n - 1) % n;
    const after = (i + 1) % n;
    const tx = ring[2 * after] - ring[2 * before];
    const ty = ring[2 * after + 1] - ring[2 * before + 1];
    const length = Math.hypot(tx, ty);
    out[2 * i] = ring[2 * i] + (by * ty) / length;
    out[2 * i + 1] = ring[2 * i + 1] - (by * tx) / length;
  }
  return out;
}

/** Signed distance to the ring, mm, positive inside. */
export function depthInside(ring: Ring, x: number, y: number): number {
  let best = Number.POSITIVE_INFINITY;
  let inside = false;
  for (let i = 0, k = ring.length - 2; i < ring.length; k = i, i += 2) {
    const ax = ring[k];
    const ay = ring[k + 1];
    const bx = ring[i] - ax;
    const by = ring[i + 1] - ay;
    const px = x - ax;
    const py = y - ay;
    const t = Math.max(0, Math.min(1, (px * bx + py * by) / (bx * bx + by * by || 1)));
    best = Math.min(best, (px - t * bx) ** 2 + (py - t * by) ** 2);
    if (ay > y !== ay + by > y && px < ((y - ay) * bx) / by) inside = !inside;
  }
  return inside ? Math.sqrt(best) : -Math.sqrt(best);
}

/**
 * Signed distance to the ring, mm, positive inside: exact outside and near the edge, an upper bound deep inside. From
 * the edge at the point's own bearing the search walks along the ring while the distance falls, since outside a convex
 * ring it has a single minimum.
 */
export function edgeDistance(ring: Ring): (x: number, y: number) => number {
  const n = ring.length / 2;
  const start = bearingTable(ring);
  const squaredTo = (edge: number, x: number, y: number): number => {
    const k = edge + 1 === n ? 0 : edge + 1;
    const ax = ring[2 * edge];
    const ay = ring[2 * edge + 1];
    const bx = ring[2 * k] - ax;
    const by = ring[2 * k + 1] - ay;
    const t = Math.max(0, Math.min(1, ((x - ax) * bx + (y - ay) * by) / (bx * bx + by * by || 1)));
    return (x - ax - t * bx) ** 2 + (y - ay - t * by) ** 2;
  };
  return (x, y) => {
    const turn = Math.atan2(y, x) / (2 * Math.PI);
    let edge = start[Math.floor((turn < 0 ? turn + 1 : turn) * start.length) % start.length];
    // The table is coarse: step to the edge whose wedge holds the point.
    while (crossAt(ring, edge, x, y, 0) < 0) edge = edge === 0 ? n - 1 : edge - 1;
    while (crossAt(ring, edge, x, y, 1) > 0) edge = edge + 1 === n ? 0 : edge + 1;
    const k = edge + 1 === n ? 0 : edge + 1;
    const side =
      (ring[2 * k] - ring[2 * edge]) * (y - ring[2 * edge + 1]) -
      (ring[2 * k + 1] - ring[2 * edge + 1]) * (x - ring[2 * edge]);
    let best = squaredTo(edge, x, y);
    for (const way of [1, n - 1])
      for (let at = (edge + way) % n, tries = 0; tries < n; tries++, at = (at + way) % n) {
        const squared = squaredTo(at, x, y);
        if (squared > best) break;
        best = squared;
      }
    return side >= 0 ? Math.sqrt(best) : -Math.sqrt(best);
  };
}

/** Cross product of an edge's first (0) or last (1) corner with the point: whether the point lies left of its ray. */
function crossAt(ring: Ring, edge: number, x: number, y: number, end: 0 | 1): number {
  const k = 2 * ((edge + end) % (ring.length / 2));
  return ring[k] * y - ring[k + 1] * x;
}

/** For 360 bearings, the edge of the ring (which goes round the origin) in that direction. */
function bearingTable(ring: Ring): Int32Array {
  const n = ring.length / 2;
  const table = new Int32Array(360);
  for (let i = 0; i < n; i++) {
    const from = Math.atan2(ring[2 * i + 1], ring[2 * i]) / (2 * Math.PI);
    const k = (i + 1) % n;
    const to = Math.atan2(ring[2 * k + 1], ring[2 * k]) / (2 * Math.PI);
    const first = Math.floor((from < 0 ? from + 1 : from) * 360);
    const span = Math.ceil((to - from - Math.floor(to - from)) * 360) + 1;
    for (let s = 0; s < span; s++) table[(first + s) % 360] = i;
  }
  return table;
}

/** A point on a path with its unit tangent. */
export interface PathPoint {
  readonly x: number;
  readonly y: number;
  readonly tangentX: number;
  readonly tangentY: number;
}

/** A ring as a path, clockwise, that starts straight above the centre. */
export interface ClockwisePath {
  readonly length: number;
  /** Point at arc length s mm (taken modulo the length). */
  at(s: number): PathPoint;
}

export function clockwiseFromTop(ring: Ring): ClockwisePath {
  const n = ring.length / 2;
  const xs: number[] = [];
  const ys: number[] = [];
  const top = topCrossing(ring);
  xs.push(0);
  ys.push(top.y);
  for (let i = 0; i < n; i++) {
    const k = (top.edge - i + n) % n;
    xs.push(ring[2 * k]);
    ys.push(ring[2 * k + 1]);
  }
  xs.push(0);
  ys.push(top.y);
  const reach = new Float64Array(xs.length);
  for (let i = 1; i < xs.length; i++) reach[i] = reach[i - 1] + Math.hypot(xs[i] - xs[i - 1], ys[i] - ys[i - 1]);
  const length = reach[reach.length - 1];
  return {
    length,
    at(s) {
      const wanted = ((s % length) + length) % length;
      let low = 0;
      let high = reach.length - 1;
      while (high - low > 1) {
        const mid = (low + high) >> 1;
        if (reach[mid] <= wanted) low = mid;
        else high = mid;
      }
      const span = reach[high] - reach[low] || 1;
      const t = (wanted - reach[low]) / span;
      const dx = xs[high] - xs[low];
      const dy = ys[high] - ys[low];
      return { x: xs[low] + t * dx, y: ys[low] + t * dy, tangentX: dx / span, tangentY: dy / span };
    },
  };
}

/** Where the ring crosses the positive y axis, and the first vertex of that edge. */
function topCrossing(ring: Ring): { y: number; edge: number } {
  const n = ring.length / 2;
  let best = { y: Number.NEGATIVE_INFINITY, edge: 0 };
  for (let i = 0; i < n; i++) {
    const k = (i + 1) % n;
    const x0 = ring[2 * i];
    const x1 = ring[2 * k];
    if (x0 > 0 && x1 <= 0) {
      const y = ring[2 * i + 1] + (x0 / (x0 - x1)) * (ring[2 * k + 1] - ring[2 * i + 1]);
      if (y > best.y) best = { y, edge: i };
    }
  }
  return best;
}

/** Area enclosed by a ring, mm². */
export function ringArea(ring: Ring): number {
  let twice = 0;
  for (let i = 0, k = ring.length - 2; i < ring.length; k = i, i += 2)
    twice += ring[k] * ring[i + 1] - ring[i] * ring[k + 1];
  return twice / 2;
}
