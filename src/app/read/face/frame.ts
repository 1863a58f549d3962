import { type Band, parallelAt, readingX } from '../../../core/design/index.ts';
import type { Sense } from '../../../core/face/index.ts';
import type { Similarity, Vec2 } from '../../../core/geometry/index.ts';
import { type View, viewX } from '../../../core/read/index.ts';

/** x of the impression's sense ↔ x of the picture, both ways the same. */
export const pictureX = (x: number, sense: Sense, view: View): number => viewX(readingX(sense, x), view);

/** Picture ← face frame, for drawing only: a mirrored view is a reflection, which no object is laid in. */
export function pictureFromFace(view: View): Similarity {
  const x = view === 'asItIs' ? 1 : -1;
  return { scale: 1, rotation: [x, 0, 0, 0, 1, 0, 0, 0, view === 'turnedOver' ? -1 : 1], translation: [0, 0, 0] };
}

/** Points of a band's parallel in the picture, mm. */
export function parallelIn(band: Band, depthMm: number, view: View): Vec2[] {
  const points = parallelAt(band, depthMm);
  const out: Vec2[] = [];
  for (let i = 0; i < points.length; i += 2) out.push([pictureX(points[i], band.sense, view), points[i + 1]]);
  return out;
}

/** How far inward of the band's base curve a place (impression's sense, mm) lies; negative outside. */
export function depthOf(band: Pick<Band, 'base' | 'cx' | 'cy'>, x: number, y: number): number {
  const { base } = band;
  let least = Number.POSITIVE_INFINITY;
  let inside = false;
  for (let i = 0, k = base.length - 2; i < base.length; k = i, i += 2) {
    least = Math.min(least, Math.hypot(base[i] - x, base[i + 1] - y));
    const crosses = base[i + 1] > y !== base[k + 1] > y;
    if (crosses && x < ((base[k] - base[i]) * (y - base[i + 1])) / (base[k + 1] - base[i + 1]) + base[i])
      inside = !inside;
  }
  return inside ? least : -least;
}

/** The point of a closed line that lies in this direction from a middle, degrees clockwise from 12 o'clock. */
export function pointToward(points: readonly Vec2[], cx: number, cy: number, deg: number): Vec2 {
  let best: Vec2 = [cx, cy];
  let least = Number.POSITIVE_INFINITY;
  for (const [x, y] of points) {
    const at = (Math.atan2(x - cx, y - cy) * 180) / Math.PI;
    const off = Math.abs(((((at - deg + 180) % 360) + 360) % 360) - 180);
    if (off < least) {
      least = off;
      best = [x, y];
    }
  }
  return best;
}
