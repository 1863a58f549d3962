import type { Vec2 } from './vector.ts';

/** Area of a closed outline, mm² (the shoelace formula). */
export function outlineArea(outline: readonly Vec2[]): number {
  let twice = 0;
  for (let i = 0; i < outline.length; i++) {
    const [x0, y0] = outline[i];
    const [x1, y1] = outline[(i + 1) % outline.length];
    twice += x0 * y1 - x1 * y0;
  }
  return Math.abs(twice) / 2;
}

/** Convex hull, counter-clockwise (Andrew's monotone chain, 1979). Pairs x, y. */
export function convexHull(points: Float64Array): Float64Array {
  const pairs: [number, number][] = [];
  for (let i = 0; i < points.length; i += 2) pairs.push([points[i], points[i + 1]]);
  pairs.sort((p, q) => p[0] - q[0] || p[1] - q[1]);
  const half = (list: [number, number][]): [number, number][] => {
    const chain: [number, number][] = [];
    for (const p of list) {
      while (chain.length > 1 && turnOf(chain[chain.length - 2], chain[chain.length - 1], p) <= 0) chain.pop();
      chain.push(p);
    }
    return chain.slice(0, -1);
  };
  return Float64Array.from([...half(pairs), ...half(pairs.reverse())].flat());
}

const turnOf = (o: [number, number], a: [number, number], b: [number, number]): number =>
  (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);
