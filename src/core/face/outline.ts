import { convexHull, type HeightGrid, median, xOf, yOf } from '../geometry/index.ts';
import type { Outline, OutlineShape } from './types.ts';

const directions = 180;

/** An oval whose axes differ by less than this share is round. */
export const roundWithin = 0.06;

/** An outline in the frame it was found in, and the turn that brings it upright. */
export interface FoundOutline extends Outline {
  /** Centre of the fitted shape in the grid's frame, mm. */
  readonly centre: readonly [number, number];
  /** Turn of the shape in that frame, degrees counter-clockwise from upright; 0 for a round face. */
  readonly turnDeg: number;
}

/**
 * The rim of a region and the plain shape it follows best: each shape is an outline r(φ) scaled to the rim's
 * extents in x and y at every turn in steps of 3°, and the median radial misfit decides, so that chips and a
 * broken edge of less than half the rim do not matter. A round face is an oval of equal axes within 6 %.
 */
export function findOutline(grid: HeightGrid, region: Uint8Array): FoundOutline {
  const rim = hullOf(grid, region);
  const seen = rimFromTurns(rim);
  const fits = shapes.map((shape) => bestTurn(shape, seen));
  const [best, next] = plainestFirst(fits);
  const round = best.shape === 'oval' && Math.abs(best.width / best.height - 1) < roundWithin;
  const rough = best.misfit > 0.06;
  const shape: OutlineShape = rough ? 'irregular' : round ? 'round' : best.shape;
  const turnDeg = rough || round ? 0 : best.turnDeg;
  const polygon = turned(resample(rim, best.centre), best.centre, -turnDeg);
  return {
    shape,
    centre: best.centre,
    turnDeg,
    ...extents(polygon),
    polygon,
    confidence: rough ? 0 : Math.max(0, 1 - best.misfit / (next.misfit + 1e-9)),
  };
}

export type PlainShape = Exclude<OutlineShape, 'round' | 'irregular'>;
const shapes: readonly PlainShape[] = ['oval', 'pointedOval', 'shield', 'square'];

/** Distance from the centre to the rim in direction (c, s), a unit vector in true proportions; half height 1, half width `aspect`. */
export type Radius = (c: number, s: number, aspect: number) => number;

export const radii: Readonly<Record<PlainShape, Radius>> = {
  oval: (c, s, aspect) => 1 / Math.hypot(c / aspect, s),
  square: (c, s, aspect) => Math.min(aspect / Math.max(1e-9, Math.abs(c)), 1 / Math.max(1e-9, Math.abs(s))),
  pointedOval: (c, s, aspect) => pointedOvalRadius(Math.abs(c), s, aspect),
  shield: (c, s, aspect) => shieldRadius(Math.abs(c), s, aspect),
};

/** Two arcs of one radius that meet in the points (0, ±1) and bulge to ±aspect. */
function pointedOvalRadius(c: number, s: number, aspect: number): number {
  const arc = (aspect * aspect + 1) / (2 * aspect);
  const offset = arc - aspect;
  return Math.sqrt(Math.max(0, arc * arc - offset * offset * s * s)) - offset * c;
}

/** Flat top at +1, straight sides down to the middle, two arcs to the point at −1. */
function shieldRadius(c: number, s: number, aspect: number): number {
  const top = s > 0 ? 1 / s : Number.POSITIVE_INFINITY;
  const side = c > 0 ? aspect / c : Number.POSITIVE_INFINITY;
  return s >= 0 ? Math.min(top, side) : Math.min(side, pointedOvalRadius(c, s, aspect));
}

/** Best first; the oval, which has the fewest parts, stays first unless another shape fits clearly better. */
function plainestFirst(fits: ShapeFit[]): ShapeFit[] {
  const handicap = (fit: ShapeFit): number => fit.misfit * (fit.shape === 'oval' ? 0.7 : 1);
  return fits.sort((a, b) => handicap(a) - handicap(b));
}

interface ShapeFit {
  readonly shape: PlainShape;
  readonly turnDeg: number;
  readonly misfit: number;
  readonly centre: readonly [number, number];
  readonly width: number;
  readonly height: number;
}

/** A rim turned back by some degrees: its box, and where even directions from the box's middle cross it. */
interface TurnedRim {
  readonly turnDeg: number;
  readonly box: ReturnType<typeof boxOf>;
  /** From the middle to each crossing: its length, mm, and the unit direction, x, y pairs. */
  readonly lengths: Float64Array;
  readonly units: Float64Array;
}

/** All shapes are tried at the same turns: each turn is looked at once. */
function rimFromTurns(rim: Float64Array): (turnDeg: number) => TurnedRim {
  const known = new Map<number, TurnedRim>();
  return (turnDeg) => {
    const before = known.get(turnDeg);
    if (before) return before;
    const seen = rimAt(rim, turnDeg);
    known.set(turnDeg, seen);
    return seen;
  };
}

function rimAt(rim: Float64Array, turnDeg: number): TurnedRim {
  const local = turned(rim, [0, 0], -turnDeg);
  const box = boxOf(local);
  const centre = [(box.left + box.right) / 2, (box.bottom + box.top) / 2] as const;
  return { turnDeg, box, ...unitsFrom(resample(local, centre), centre) };
}

/** Lengths and unit directions of points seen from the centre. */
function unitsFrom(points: Float64Array, [cx, cy]: readonly [number, number]) {
  const units = new Float64Array(points.length);
  const lengths = new Float64Array(points.length / 2);
  for (let k = 0; k < lengths.length; k++) {
    const x = points[2 * k] - cx;
    const y = points[2 * k + 1] - cy;
    lengths[k] = Math.hypot(x, y);
    units[2 * k] = x / lengths[k];
    units[2 * k + 1] = y / lengths[k];
  }
  return { lengths, units };
}

function bestTurn(shape: PlainShape, rimAt: (turnDeg: number) => TurnedRim): ShapeFit {
  let best: ShapeFit | null = null;
  const range = shape === 'shield' ? 360 : shape === 'square' ? 90 : 180;
  for (let turnDeg = 0; turnDeg < range; turnDeg += 3) {
    const fit = fitAtTurn(shape, rimAt(turnDeg));
    // An upright pointed shape is taller than wide; squares lie as they come.
    if (shape !== 'square' && fit.width > fit.height * 1.001) continue;
    if (!best || fit.misfit < best.misfit) best = fit;
  }
  const found = best ?? fitAtTurn(shape, rimAt(0));
  // Of the equal turns take the one nearest to the file's own up.
  const period = range;
  const turnDeg = found.turnDeg > period / 2 ? found.turnDeg - period : found.turnDeg;
  return { ...found, turnDeg };
}

function fitAtTurn(shape: PlainShape, { turnDeg, box, lengths, units }: TurnedRim): ShapeFit {
  const cx = (box.left + box.right) / 2;
  const cy = (box.bottom + box.top) / 2;
  const halfWidth = (box.right - box.left) / 2;
  const halfHeight = (box.top - box.bottom) / 2;
  const misfits = misfitsOf(radii[shape], lengths, units, halfWidth / halfHeight, halfHeight);
  const a = (turnDeg * Math.PI) / 180;
  const centre = [cx * Math.cos(a) - cy * Math.sin(a), cx * Math.sin(a) + cy * Math.cos(a)] as const;
  return { shape, turnDeg, misfit: median(misfits), centre, width: 2 * halfWidth, height: 2 * halfHeight };
}

/** |ρ − r| in every direction, in half heights; a function of its own, so that the engine compiles it once. */
function misfitsOf(
  radius: Radius,
  lengths: Float64Array,
  units: Float64Array,
  aspect: number,
  halfHeight: number,
): Float64Array {
  const misfits = new Float64Array(directions);
  for (let k = 0; k < directions; k++)
    misfits[k] = Math.abs(lengths[k] / halfHeight - radius(units[2 * k], units[2 * k + 1], aspect));
  return misfits;
}

/** First and last cell of the region in every row and column. */
function rimPoints(grid: HeightGrid, region: Uint8Array): Float64Array {
  const points: number[] = [];
  for (let row = 0; row < grid.height; row++) {
    const line = region.subarray(row * grid.width, (row + 1) * grid.width);
    const first = line.indexOf(1);
    if (first >= 0) points.push(xOf(grid, first), yOf(grid, row), xOf(grid, line.lastIndexOf(1)), yOf(grid, row));
  }
  return Float64Array.from(points);
}

/** Convex hull of a region's cells, counter-clockwise, x, y pairs, mm: holes and notches do not dent it. */
export const hullOf = (grid: HeightGrid, region: Uint8Array): Float64Array => convexHull(rimPoints(grid, region));

/** Where 180 even directions from the centre cross a convex polygon. */
function resample(polygon: Float64Array, centre: readonly [number, number]): Float64Array {
  const reaches = new Float64Array(directions);
  const count = polygon.length / 2;
  for (let i = 0; i < count; i++) reachAlong(polygon, i, (i + 1) % count, centre, reaches);
  const out = new Float64Array(directions * 2);
  for (let k = 0; k < directions; k++) {
    out[k * 2] = centre[0] + reaches[k] * cosines[k];
    out[k * 2 + 1] = centre[1] + reaches[k] * sines[k];
  }
  return out;
}

const cosines = Float64Array.from({ length: directions }, (_, k) => Math.cos((2 * Math.PI * k) / directions));
const sines = Float64Array.from({ length: directions }, (_, k) => Math.sin((2 * Math.PI * k) / directions));

/** Raises the reach in those directions that may cross side i–j: from the one before its nearer end to the one after the other. */
function reachAlong(
  polygon: Float64Array,
  i: number,
  j: number,
  centre: readonly [number, number],
  reaches: Float64Array,
): void {
  const from = directionOf(polygon, i, centre);
  const to = nearestTo(from, directionOf(polygon, j, centre));
  const last = Math.floor(Math.max(from, to)) + directions + 1;
  for (let k = Math.ceil(Math.min(from, to)) + directions - 1; k <= last; k++) {
    const at = k % directions;
    reaches[at] = Math.max(reaches[at], crossing(polygon, i, j, centre, cosines[at], sines[at]));
  }
}

/** Of point i seen from the centre, in steps between directions, 90 to 270. */
const directionOf = (polygon: Float64Array, i: number, centre: readonly [number, number]): number =>
  (Math.atan2(polygon[i * 2 + 1] - centre[1], polygon[i * 2] - centre[0]) * directions) / (2 * Math.PI) + directions;

/** The same direction, so many whole turns on that it lies within half a turn of another. */
function nearestTo(other: number, direction: number): number {
  if (direction - other > directions / 2) return direction - directions;
  return direction - other < -directions / 2 ? direction + directions : direction;
}

/** Distance from the centre along (c, s) to side i–j, or 0 where they do not meet. */
function crossing(p: Float64Array, i: number, j: number, centre: readonly [number, number], c: number, s: number) {
  const ax = p[i * 2] - centre[0];
  const ay = p[i * 2 + 1] - centre[1];
  const dx = p[j * 2] - p[i * 2];
  const dy = p[j * 2 + 1] - p[i * 2 + 1];
  const det = c * dy - s * dx;
  if (Math.abs(det) < 1e-12) return 0;
  const along = (ax * dy - ay * dx) / det;
  const on = (ax * s - ay * c) / det;
  return on >= -1e-9 && on <= 1 + 1e-9 ? along : 0;
}

/** Points turned by `deg` counter-clockwise about the origin after taking `centre` off. */
function turned(points: Float64Array, centre: readonly [number, number], deg: number): Float64Array {
  const c = Math.cos((deg * Math.PI) / 180);
  const s = Math.sin((deg * Math.PI) / 180);
  const out = new Float64Array(points.length);
  for (let i = 0; i < points.length; i += 2) {
    const x = points[i] - centre[0];
    const y = points[i + 1] - centre[1];
    out[i] = c * x - s * y;
    out[i + 1] = s * x + c * y;
  }
  return out;
}

function boxOf(points: Float64Array) {
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < points.length; i += 2) {
    left = Math.min(left, points[i]);
    right = Math.max(right, points[i]);
    bottom = Math.min(bottom, points[i + 1]);
    top = Math.max(top, points[i + 1]);
  }
  return { left, right, bottom, top };
}

function extents(polygon: Float64Array): { widthMm: number; heightMm: number } {
  const box = boxOf(polygon);
  return { widthMm: box.right - box.left, heightMm: box.top - box.bottom };
}
