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
