import { curveByKernel } from '../../../kernels/index.ts';

/**
 * A closed curve to which a legend band runs parallel, sampled evenly, clockwise as seen in the impression's sense.
 * All lengths in mm of the face frame in the impression's sense (x right, y up).
 */
export interface BaseCurve {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Inward unit normals. */
  readonly nx: Float64Array;
  readonly ny: Float64Array;
  /** How far inward each point may be moved before another part of the curve is nearer, mm. */
  readonly reach: Float64Array;
  /** Curvature, 1/mm, positive where the curve bends inward; a point moved inward by d stands for 1 − κ d as much length. */
  readonly bend: Float64Array;
  /** Length that each point stands for, mm. */
  readonly spacingMm: number;
}

export const bandShapes = ['round', 'oval', 'pointedOval', 'shield', 'square', 'free'] as const;
export type BandShape = (typeof bandShapes)[number];
export type IdealShape = Exclude<BandShape, 'free'>;

/** Size and place of an ideal outline. */
export interface CurvePlace {
  readonly cx: number;
  readonly cy: number;
  /** Clockwise, degrees. */
  readonly turnDeg: number;
  /** Half width and half height before turning, mm. */
  readonly a: number;
  readonly b: number;
}

/**
 * Points of an ideal outline, clockwise from the top, x, y pairs, in mm.
 * Round: circle of radius a. Oval: ellipse. Pointed oval: two circular arcs that meet above and below. Square:
 * rectangle. Shield: straight top, sides that run straight down past 0.575 b and then in arcs, tangent to them, to the point.
 */
export function idealOutline(shape: IdealShape, place: CurvePlace, count: number): Float64Array {
  const even = resample(idealPath(shape, place), count);
  const t = (-place.turnDeg * Math.PI) / 180;
  const c = Math.cos(t);
  const s = Math.sin(t);
  for (let i = 0; i < even.length; i += 2) {
    const x = even[i];
    const y = even[i + 1];
    even[i] = place.cx + c * x - s * y;
    even[i + 1] = place.cy + s * x + c * y;
  }
  return even;
}

const arcSteps = 48;

/** Room for the longest path, the shield's: three corners, two arcs of 2 arcSteps + 1 and 2 arcSteps points, its first again. */
const path = new Float64Array(2 * (4 * arcSteps + 5));

/**
 * The outline before it is turned and put at its place, clockwise from the top, its first point again at the end: good until the
 * next is asked for, since a search asks some thousand times.
 */
export function idealPath(shape: IdealShape, { a, b }: CurvePlace): Float64Array {
  const n = writeCorners(shape, a, b);
  path[n] = path[0];
  path[n + 1] = path[1];
  return path.subarray(0, n + 2);
}

/** Writes the corners and returns how many numbers they are. */
function writeCorners(shape: IdealShape, a: number, b: number): number {
  if (shape === 'round') return writeEllipse(a, a);
  if (shape === 'oval') return writeEllipse(a, b);
  if (shape === 'square') {
    path.set([0, b, a, b, a, -b, -a, -b, -a, b]);
    return 10;
  }
  return shape === 'pointedOval' ? writePointedOval(a, b) : writeShield(a, b);
}

function writeEllipse(a: number, b: number): number {
  for (let k = 0; k < unitCircle.length; k += 2) {
    path[k] = a * unitCircle[k];
    path[k + 1] = b * unitCircle[k + 1];
  }
  return unitCircle.length;
}

const unitCircle = Array.from({ length: 4 * arcSteps }, (_, i) => (Math.PI * i) / (2 * arcSteps)).flatMap((t) => [
  Math.sin(t),
  Math.cos(t),
]);

/** Arcs through (±a, 0) and (0, ±b): centres at ∓c on the x axis, radius a + c, with (a + c)² = b² + c². */
function writePointedOval(a: number, b: number): number {
  const c = (b * b - a * a) / (2 * a);
  const half = Math.atan2(b, c);
  const arc = 4 * arcSteps;
  for (let i = 0; i < arc; i += 2) {
    const t = half - (half * i) / (2 * arcSteps);
    path[i] = -c + (a + c) * Math.cos(t);
    path[i + 1] = (a + c) * Math.sin(t);
    // The other arc is this one turned by half a turn.
    path[arc + i] = -path[i];
    path[arc + i + 1] = -path[i + 1];
  }
  return 2 * arc;
}

function writeShield(a: number, b: number): number {
  const shoulder = 0.15 * b;
  const drop = b + shoulder;
  const r = (a * a + drop * drop) / (2 * a);
  const end = Math.asin(Math.min(1, drop / r));
  path.set([0, b, a, b]);
  const last = 8 * arcSteps + 4;
  for (let i = 0; i <= 2 * arcSteps; i++) {
    const t = (end * i) / (2 * arcSteps);
    const x = a - r + r * Math.cos(t);
    const y = shoulder - r * Math.sin(t);
    // The left side is the right one mirrored; in the point they meet.
    path[last - 2 * i] = -x;
    path[last - 2 * i + 1] = y;
    path[4 + 2 * i] = x;
    path[5 + 2 * i] = y;
  }
  path[last + 2] = -a;
  path[last + 3] = b;
  return last + 4;
}

/** `count` points at even spacing along an open path, its last point left out. */
export function resample(path: ArrayLike<number>, count: number): Float64Array {
  const n = path.length / 2;
  const reach = new Float64Array(n);
  for (let i = 1; i < n; i++) {
    const dx = path[2 * i] - path[2 * i - 2];
    const dy = path[2 * i + 1] - path[2 * i - 1];
    reach[i] = reach[i - 1] + Math.sqrt(dx * dx + dy * dy);
  }
  const out = new Float64Array(2 * count);
  let at = 1;
  for (let k = 0; k < count; k++) {
    const wanted = (reach[n - 1] * k) / count;
    while (at < n - 1 && reach[at] < wanted) at++;
    const span = reach[at] - reach[at - 1] || 1;
    const t = (wanted - reach[at - 1]) / span;
    out[2 * k] = path[2 * at - 2] + t * (path[2 * at] - path[2 * at - 2]);
    out[2 * k + 1] = path[2 * at - 1] + t * (path[2 * at + 1] - path[2 * at - 1]);
  }
  return out;
}

/**
 * Normals and reaches of evenly spaced points of a closed curve, clockwise; `rough` looks at fewer points for the reach. By a compiled kernel
 * where the engine lets it run, which gives the same numbers as `curvePlainly`.
 */
export function curveOf(points: Float64Array, rough = false): BaseCurve {
  const every = rough ? Math.max(3, points.length >> 6) : 3;
  return curveByKernel(points, every) ?? curvePlainly(points, every);
}

/** The reach looks at every so-manyth point. */
export function curvePlainly(points: Float64Array, every: number): BaseCurve {
  const n = points.length / 2;
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  const nx = new Float64Array(n);
  const ny = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    x[i] = points[2 * i];
    y[i] = points[2 * i + 1];
    const before = 2 * ((i + n - 1) % n);
    const after = 2 * ((i + 1) % n);
    const tx = points[after] - points[before];
    const ty = points[after + 1] - points[before + 1];
    const size = Math.sqrt(tx * tx + ty * ty) || 1;
    // Clockwise: inward is to the right of the way one goes.
    nx[i] = ty / size;
    ny[i] = -tx / size;
  }
  const [dx, dy] = [x[1] - x[0], y[1] - y[0]];
  const spacingMm = Math.sqrt(dx * dx + dy * dy);
  return { x, y, nx, ny, reach: reaches(x, y, nx, ny, every), bend: bends(nx, ny, spacingMm), spacingMm };
}

/** Turn of the normal from the point before to the point after, over the length between them. */
function bends(nx: Float64Array, ny: Float64Array, spacingMm: number): Float64Array {
  const n = nx.length;
  const bend = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const a = (i + n - 1) % n;
    const b = (i + 1) % n;
    // Clockwise, the normal of an outward curve turns clockwise too.
    bend[i] = Math.asin(Math.max(-1, Math.min(1, ny[a] * nx[b] - nx[a] * ny[b]))) / (2 * spacingMm);
  }
  return bend;
}

/** P + d n is as near to Q as to P where d = |Q − P|²/(2 n · (Q − P)), for every `every`-th Q. */
function reaches(x: Float64Array, y: Float64Array, nx: Float64Array, ny: Float64Array, every: number): Float64Array {
  const n = x.length;
  const reach = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let least = Number.POSITIVE_INFINITY;
    for (let k = i % every; k < n; k += every) {
      const dx = x[k] - x[i];
      const dy = y[k] - y[i];
      const toward = dx * nx[i] + dy * ny[i];
      if (toward > 1e-9) least = Math.min(least, (dx * dx + dy * dy) / (2 * toward));
    }
    reach[i] = least;
  }
  return reach;
}
