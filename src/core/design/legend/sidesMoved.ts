import type { CurvePlace } from './baseCurve.ts';

/** How far a side is moved, as a share of the shorter half axis, and in how many steps either way. */
const reach = 0.3;
const steps = 20;

/** An outline's place with one of its four sides moved out or in, in its own axes: the opposite side stays. */
export function sidesMoved(place: CurvePlace): CurvePlace[] {
  const stepMm = (reach * Math.min(place.a, place.b)) / steps;
  const list: CurvePlace[] = [];
  for (let k = -steps; k <= steps; k++)
    if (k !== 0)
      for (const way of [1, -1]) list.push(moved(place, k * stepMm, way, 'a'), moved(place, k * stepMm, way, 'b'));
  return list;
}

/** The half axis grows by half of what the side is moved outward, and the middle moves with it. */
function moved(place: CurvePlace, outwardMm: number, way: number, axis: 'a' | 'b'): CurvePlace {
  const t = (place.turnDeg * Math.PI) / 180;
  const half = (way * outwardMm) / 2;
  // x along a, y along b, both turned clockwise.
  const [ux, uy] = axis === 'a' ? [Math.cos(t), -Math.sin(t)] : [Math.sin(t), Math.cos(t)];
  return {
    ...place,
    cx: place.cx + half * ux,
    cy: place.cy + half * uy,
    [axis]: place[axis] + outwardMm / 2,
  };
}
