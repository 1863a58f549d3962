import type { CurvePlace } from './baseCurve.ts';

/** How far a side is moved, as a share of the shorter half axis, and in how many steps either way. */
const reach = 0.3;
const steps = 20;

/**
 * An outline's place with one of its four sides moved out or in, in its own axes, the opposite side left where it is: the half axis
 * grows by half of the way, and the middle moves by as much.
 */
export function sidesMoved(place: CurvePlace): CurvePlace[] {
  const halfStepMm = (reach * Math.min(place.a, place.b)) / steps / 2;
  const list: CurvePlace[] = [];
  for (let side = 0; side < 4; side++) {
    const t = ((place.turnDeg + 90 * side) * Math.PI) / 180;
    const axis = side % 2 ? 'b' : 'a';
    for (let k = -steps; k <= steps; k++) {
      if (k === 0) continue;
      const half = k * halfStepMm;
      const [cx, cy] = [place.cx + half * Math.cos(t), place.cy - half * Math.sin(t)];
      list.push({ ...place, cx, cy, [axis]: place[axis] + half });
    }
  }
  return list;
}
