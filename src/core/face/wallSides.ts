import { convexHull, type HeightGrid, outlineArea, type Vec2 } from '../geometry/index.ts';

/** A side of a wall: a place on it, its direction outward and its length, in cells. */
export interface WallSide {
  readonly place: Vec2;
  readonly outward: Vec2;
  readonly length: number;
}

/** The hull of a wall's places: those of its sides that are wall, all of its length, and its area, in cells. */
export interface WallHull {
  readonly sides: readonly WallSide[];
  readonly length: number;
  readonly area: number;
}

/**
 * The sides of the hull of these places that are wall: along them places lie within `onHull`, and none are farther apart than `gap` (cells). The other
 * sides stretch over what is broken off, and places inside the hull are strokes. Null where there is no hull.
 */
export function wallHull(places: readonly Vec2[], onHull: number, gap: number): WallHull | null {
  const flat = convexHull(Float64Array.from(places.flat()));
  const corners = Array.from({ length: flat.length / 2 }, (_, k): Vec2 => [flat[2 * k], flat[2 * k + 1]]);
  if (corners.length < 3) return null;
  let length = 0;
  const sides: WallSide[] = [];
  for (const [k, place] of corners.entries()) {
    const next = corners[(k + 1) % corners.length];
    const [dx, dy] = [next[0] - place[0], next[1] - place[1]];
    const long = Math.hypot(dx, dy);
    // The hull runs counter-clockwise: outward is to the right of its way.
    const outward: Vec2 = [dy / long, -dx / long];
    length += long;
    if (widestGap(places, place, [dx / long, dy / long], long, onHull) > gap) continue;
    sides.push({ place, outward, length: long });
  }
  return { sides, length, area: outlineArea(corners) };
}

/** The widest gap between places along a side, its own ends among them. */
function widestGap(places: readonly Vec2[], [x, y]: Vec2, [ux, uy]: Vec2, long: number, onHull: number): number {
  const along = [0, long];
  for (const [px, py] of places) {
    const t = (px - x) * ux + (py - y) * uy;
    const off = Math.abs((px - x) * uy - (py - y) * ux);
    if (off < onHull && t > 0 && t < long) along.push(t);
  }
  along.sort((a, b) => a - b);
  return along.reduce((widest, t, k) => Math.max(widest, t - (along[k - 1] ?? t)), 0);
}

/** How far a cell lies beyond a side's line, in cells; negative on the inner side. */
export const beyondSide = ({ place, outward }: WallSide, x: number, y: number): number =>
  (x - place[0]) * outward[0] + (y - place[1]) * outward[1];

/** 1 on the grid's cells that lie within half a cell of the inner side of every one of them; `cell`: cells of the wall's grid to one of this. */
export function withinSides({ width, mask }: HeightGrid, sides: readonly WallSide[], cell = 1): Uint8Array {
  return mask.map((there, i) => {
    const [x, y] = [(i % width) * cell, Math.floor(i / width) * cell];
    return there && sides.every((side) => beyondSide(side, x, y) <= 0.5) ? 1 : 0;
  });
}
