import { type Band, parallelAt, resample } from '../../design/index.ts';

/** The middle of a band as a path, clockwise in the impression's sense, from straight above the band's centre. */
export interface Midline {
  readonly lengthMm: number;
  /** Mean distance between points, mm. */
  readonly stepMm: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Outward unit normals. */
  readonly outX: Float64Array;
  readonly outY: Float64Array;
}

/** Depth of the letters' middle, mm inward from the base curve. */
export const middleDepth = (band: Band): number => (band.lettersOuterMm + band.lettersInnerMm) / 2;

/**
 * Points at even spacing of about `stepMm` along the middle of the letters. At a corner (of a shield, a square, a pointed
 * oval) the normals turn over a sixteenth of the band's width on either side: letters stay
 * straight up to the corner, and the wedge outside it, which belongs to no letter, is passed over quickly.
 */
export function midlineOf(band: Band, stepMm: number): Midline {
  const ring = parallelAt(band, middleDepth(band));
  if (ring.length < 12) throw new RangeError('The band leaves no room for a middle line.');
  const path = fromTop(ring, band.cx, band.cy);
  const lengthMm = lengthOf(path);
  const count = Math.max(12, Math.round(lengthMm / stepMm));
  const points = resample(path, count);
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    x[i] = points[2 * i];
    y[i] = points[2 * i + 1];
  }
  const reach = Math.max(1, Math.round((0.06 * (band.innerMm - band.outerMm) * count) / lengthMm));
  return { lengthMm, stepMm: lengthMm / count, x, y, ...normals(x, y, reach) };
}

/** The chord over `reach` points on both sides, turned outward. */
function normals(x: Float64Array, y: Float64Array, reach: number): Pick<Midline, 'outX' | 'outY'> {
  const n = x.length;
  const outX = new Float64Array(n);
  const outY = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const a = (i - reach + n) % n;
    const b = (i + reach) % n;
    const size = Math.hypot(x[b] - x[a], y[b] - y[a]) || 1;
    outX[i] = -(y[b] - y[a]) / size;
    outY[i] = (x[b] - x[a]) / size;
  }
  return { outX, outY };
}

/** Opens a clockwise ring where it passes straight above (cx, cy), and closes the path there again. */
function fromTop(ring: Float64Array, cx: number, cy: number): Float64Array {
  const n = ring.length / 2;
  let first = 0;
  let top = { x: cx, y: Number.NEGATIVE_INFINITY };
  for (let i = 0; i < n; i++) {
    const k = (i + 1) % n;
    const x0 = ring[2 * i] - cx;
    const x1 = ring[2 * k] - cx;
    if (!(x0 < 0 && x1 >= 0)) continue;
    const y = ring[2 * i + 1] + (x0 / (x0 - x1)) * (ring[2 * k + 1] - ring[2 * i + 1]);
    if (y > Math.max(top.y, cy)) {
      top = { x: cx, y };
      first = k;
    }
  }
  const path: number[] = [];
  if (top.y > Number.NEGATIVE_INFINITY) path.push(top.x, top.y);
  for (let i = 0; i < n; i++) path.push(ring[2 * ((first + i) % n)], ring[2 * ((first + i) % n) + 1]);
  path.push(path[0], path[1]);
  return Float64Array.from(path);
}

function lengthOf(path: Float64Array): number {
  let sum = 0;
  for (let i = 2; i < path.length; i += 2) sum += Math.hypot(path[i] - path[i - 2], path[i + 1] - path[i - 1]);
  return sum;
}
