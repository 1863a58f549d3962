import { columnOf, type HeightGrid, quantile, rowOf } from '../geometry/index.ts';
import { plainShape, type SizedShape } from './plainShape.ts';
import type { Face } from './types.ts';

export const matrixEdgeDefaults = {
  /** The edge is looked for in so many directions. */
  directions: 180,
  /** The field's height is asked of these shares of the way to the edge, over so many directions on either side; strokes lie below it. */
  field: [0.5, 0.9] as const,
  beside: 5,
  fieldQuantile: 0.7,
  /** The ground that a flank falls from is the field, or the rim that stands over it within this distance, mm. */
  rimMm: 1,
  /** What falls by so much is flank, mm: an edge that wear rounded falls by less. */
  leastFallMm: 0.2,
  /** The part of a flank that tells where it begins, in shares of that fall: below it there may be the body's wall. */
  upper: [0.5, 1.5] as const,
};

/** What is asked of a face: its heights, and the shape it seems to have. */
export type Edged = Pick<Face, 'detail'> & { readonly outline: SizedShape };

/**
 * Where a matrix ends: the face is plane to its edge, and beyond it a bevel or the body's wall falls away, which prints nothing. In each
 * direction the upper part of the flank is followed back up to the ground beside it; where none was scanned the matrix ends with the data. Through these
 * places goes the plain shape that the face has, by least absolute misfit, so that chips, a broken part and worn points do not matter.
 */
export function matrixEdge(face: Edged): SizedShape {
  const known = knownEdges.get(face) ?? edgeOf(face, matrixEdgeDefaults);
  knownEdges.set(face, known);
  return known;
}

/** A face does not change, and is asked with every other that it is compared with. */
const knownEdges = new WeakMap<Edged, SizedShape>();

function edgeOf(face: Edged, options: typeof matrixEdgeDefaults): SizedShape {
  const { shape, widthMm, heightMm } = face.outline;
  if (shape === 'irregular') return { shape, widthMm, heightMm };
  const rays = raysOf(face.detail, face.outline, options);
  const edges = rays.map((ray, k) => edgeAlong(ray, fieldHeight(rays, k, options), face.detail.pitch, options));
  return shape === 'shield' ? shieldOf(edges) : plainShape({ shape, widthMm, heightMm }, edges);
}

/** Heights along one direction from the middle of the face outward, as far as there is data. */
interface Ray {
  readonly angle: number;
  /** Distance from the middle, mm, and height there, mm. */
  readonly r: readonly number[];
  readonly z: readonly number[];
  /** Heights where the field is, mm. */
  readonly field: Float64Array;
}

function raysOf(
  heights: HeightGrid,
  { widthMm, heightMm }: SizedShape,
  { directions, field }: typeof matrixEdgeDefaults,
): Ray[] {
  const most = Math.max(widthMm, heightMm);
  return Array.from({ length: directions }, (_, k) => {
    const angle = (2 * Math.PI * k) / directions;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const r: number[] = [];
    const z: number[] = [];
    for (let at = most / 8; at < most; at += heights.pitch / 2) {
      const i = cellAt(heights, at * c, at * s);
      if (i < 0 || !heights.mask[i]) continue;
      r.push(at);
      z.push(heights.z[i]);
    }
    const end = r[r.length - 1];
    return {
      angle,
      r,
      z,
      field: Float64Array.from(z.filter((_, i) => r[i] > field[0] * end && r[i] < field[1] * end)),
    };
  }).filter(({ r }) => r.length > 0);
}

function cellAt(grid: HeightGrid, x: number, y: number): number {
  const column = Math.round(columnOf(grid, x));
  const row = Math.round(rowOf(grid, y));
  return column >= 0 && row >= 0 && column < grid.width && row < grid.height ? row * grid.width + column : -1;
}

/** Height of the field between and beside the strokes, mm. */
function fieldHeight(rays: readonly Ray[], k: number, { beside, fieldQuantile }: typeof matrixEdgeDefaults): number {
  const near = Array.from(
    { length: 2 * beside + 1 },
    (_, off) => rays[(k + off - beside + rays.length) % rays.length].field,
  );
  const heights = new Float64Array(near.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const each of near) {
    heights.set(each, at);
    at += each.length;
  }
  return heights.length > 0 ? quantile(heights, fieldQuantile) : 0;
}

/** The place of the edge: x, y, mm. */
function edgeAlong(ray: Ray, field: number, pitch: number, options: typeof matrixEdgeDefaults): [number, number] {
  const { angle, r, z } = ray;
  const ground = groundBeside(ray, field, options);
  const falls = z.map((height) => ground - height);
  const end = falls.length - 1;
  const top = lastBelow(falls, options.leastFallMm, end);
  const at = top === end ? r[end] + pitch / 4 : startOfFlank(falls, r, top, options);
  return [at * Math.cos(angle), at * Math.sin(angle)];
}

/** Height of what the flank falls from, mm: the field's, or that of a rim, since a matrix's rim may stand over its field. */
function groundBeside({ r, z }: Ray, field: number, { leastFallMm, rimMm }: typeof matrixEdgeDefaults): number {
  let top = z.length - 1;
  while (top > 0 && field - z[top] > leastFallMm) top--;
  return z.reduce((most, height, k) => (k <= top && r[k] > r[top] - rimMm ? Math.max(most, height) : most), field);
}

/** Where a flank begins of which `top` is the last place above its least fall. */
function startOfFlank(
  falls: readonly number[],
  r: readonly number[],
  top: number,
  { leastFallMm, upper: [least, most] }: typeof matrixEdgeDefaults,
): number {
  const from = Math.min(top, lastBelow(falls, least * leastFallMm, top) + 1);
  let to = top + 2;
  while (to < falls.length && falls[to] <= most * leastFallMm) to++;
  const flank = falls.slice(from, to).map((fall, k) => [fall, r[from + k]] as const);
  return Math.max(r[lastBelow(falls, 0, top)], Math.min(r[top], atNoFall(flank, r[top])));
}

/** The last index, `from` or before it, of a fall of no more than `most`; 0 where there is none. */
function lastBelow(falls: readonly number[], most: number, from: number): number {
  let i = from;
  while (i > 0 && falls[i] > most) i--;
  return i;
}

/** Where the line through a flank's falls and distances has not fallen yet; `top` where there is no line. */
function atNoFall(flank: readonly (readonly [fall: number, r: number])[], top: number): number {
  const n = flank.length;
  if (n < 2) return top;
  const [mf, mr] = [0, 1].map((k) => flank.reduce((sum, pair) => sum + pair[k], 0) / n);
  const [fr, ff] = flank.reduce(([p, q], [f, d]) => [p + (f - mf) * (d - mr), q + (f - mf) ** 2], [0, 0]);
  return mr - (ff > 0 ? (fr / ff) * mf : 0);
}

/**
 * A shield stands upright: of all directions a quarter meets its straight top and a twelfth each of its straight sides, whose middles are
 * taken; its point is where it is lowest.
 */
function shieldOf(edges: readonly (readonly [number, number])[]): SizedShape {
  const [x, y] = [0, 1].map((axis) => Float64Array.from(edges, (edge) => edge[axis]));
  return {
    shape: 'shield',
    widthMm: quantile(x, 0.96) - quantile(x, 0.04),
    heightMm: quantile(y, 0.9) - quantile(y, 0.01),
  };
}
