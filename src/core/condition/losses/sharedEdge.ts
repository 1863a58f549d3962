import type { Face } from '../../face/index.ts';
import { applyWarp, chosenModel, type Fit, faceMotion } from '../../fit/index.ts';
import { apply, convexHull } from '../../geometry/index.ts';
import type { EdgeInCommon } from '../types.ts';
import { addLeft, nothingLeft, roughOf, sureAlike } from './alike.ts';
import { beyondCurve } from './beyondCurve.ts';
import { edgesApart } from './edgesApart.ts';
import { joinBays } from './joinBays.ts';
import { layEdge } from './layEdge.ts';
import { evenly, outerEdge, outwardNormals, type Way } from './outerEdge.ts';

export const sharedEdgeDefaults = {
  /** The edges are followed in steps of, mm. */
  stepMm: 0.25,
  /** They run together where no more than this lies between them: mm, and cells of the coarser scan. */
  apartMm: 0.3,
  apartCells: 1.5,
  /** A bay goes from one point of the hull to the next, or on along one break (`joinBays.ts`); it is so deep, mm and cells, and so long, mm. */
  deepMm: 0.3,
  deepCells: 1,
  leastMm: 4,
  /**
   * Places of an edge so far from one another count as drawn by chance each for itself, mm, and cells: corners smoothed along the way
   * with σ = √2 are as many as one in σ √(2π) steps (the integral of their squared correlation), of which 1.27 go to a cell.
   */
  independentMm: 0.5,
  independentCells: 2.8,
};

/** A stretch is handed on by points so far apart, mm, each to so many parts of a millimetre; nothing is decided by them. */
const toldMm = 0.5;
const toldParts = 100;

/** What rounding leaves of no distance, mm. */
const onHullMm = 1e-6;

/** A stretch of two edges that run together, in the frame of its chord, mm. */
interface Bay {
  readonly along: readonly [Float64Array, Float64Array];
  readonly aside: readonly [Float64Array, Float64Array];
  readonly lengthMm: number;
  /** The stretch itself, in the face's frame: x, y pairs. */
  readonly way: readonly number[];
}

/**
 * Broken edge that two positives share. A matrix's own outline is convex, or as smooth between two corners as the top of a shield:
 * where both edges run together through a bay of the hull, each is taken off its own parabola there, and what is left of the two is
 * correlated over all bays. Two breaks agree in nothing that is left; one break that was cast does. By Fisher's z (1921) over the
 * independent places, the three parameters of each parabola taken off. Null where no bay runs alike, or where a
 * person left something out: both would have that edge.
 */
export function sharedEdge(
  reference: Face,
  subject: Face,
  fit: Fit,
  options = sharedEdgeDefaults,
): EdgeInCommon | null {
  if (reference.cut || subject.cut) return null;
  const edge = evenly(outerEdge(reference.relief), options.stepMm);
  const placed = evenly(placedEdge(reference, subject, fit), options.stepMm);
  if (edge.length < 24 || placed.length < 24) return null;
  const other = layEdge(edge, placed);
  const cellMm = Math.max(reference.relief.pitch, subject.relief.pitch * chosenModel(fit).scale);
  const apartFrom = Math.max(options.independentMm, options.independentCells * cellMm);
  const both = [
    evidenceOf(baysOf(edge, other, cellMm, options), apartFrom),
    evidenceOf(baysOf(other, edge, cellMm, options), apartFrom),
  ];
  // Whichever of the two is followed, the other is only its nearest: the lesser of the two answers holds either way.
  return both[0] && both[1] && (both[0].sigma < both[1].sigma ? both[0] : both[1]);
}

/** The subject's edge in the frame of the reference's face. */
function placedEdge(reference: Face, subject: Face, fit: Fit): Way {
  const model = chosenModel(fit);
  const motion = faceMotion(reference, subject, model);
  const way = outerEdge(subject.relief);
  for (let i = 0; i < way.length; i += 2) {
    const place = apply(motion, [way[i], way[i + 1], 0]);
    const [x, y] = model.warp ? applyWarp(model.warp, place) : place;
    way[i] = x;
    way[i + 1] = y;
  }
  return way;
}

/** Stretches of `edge` inside its hull, deep and long enough, along which `other` runs too. */
function baysOf(edge: Way, other: Way, cellMm: number, options: typeof sharedEdgeDefaults): Bay[] {
  const normals = outwardNormals(edge);
  const mostApart = Math.max(options.apartMm, options.apartCells * cellMm);
  const apart = edgesApart(edge, other, mostApart, normals);
  const inside = depthInHull(edge);
  const leastDeep = Math.max(options.deepMm, options.deepCells * cellMm);
  const alongside = (i: number): boolean => Number.isFinite(apart[i]);
  const bays = runsOf(inside.map((depth, i) => (depth > onHullMm && alongside(i) ? 1 : 0)));
  return joinBays(edge, bays, alongside, options.stepMm)
    .filter((run) => run.length * options.stepMm >= options.leastMm && run.some((i) => inside[i] > leastDeep))
    .map((run) => bayOf(edge, normals, apart, run, options));
}

/** Depth of each point inside the convex hull of all, mm. */
function depthInHull(way: Way): Float64Array {
  const hull = convexHull(way);
  const depth = new Float64Array(way.length / 2).fill(Number.POSITIVE_INFINITY);
  for (let k = 0; k < hull.length; k += 2) {
    const next = (k + 2) % hull.length;
    const [dx, dy] = [hull[next] - hull[k], hull[next + 1] - hull[k + 1]];
    const length = Math.hypot(dx, dy) || 1;
    for (let i = 0; i < depth.length; i++) {
      const off = (dx * (way[2 * i + 1] - hull[k + 1]) - dy * (way[2 * i] - hull[k])) / length;
      depth[i] = Math.min(depth[i], off);
    }
  }
  return depth;
}

/** Runs of ones of a closed row, as indices in order. */
function runsOf(marked: ArrayLike<number>): number[][] {
  const n = marked.length;
  const cells = Array.from({ length: n }, (_, i) => marked[i]);
  const first = cells.indexOf(0);
  const runs: number[][] = [];
  for (let k = 0; k < n; k++) {
    const i = (Math.max(0, first) + k) % n;
    if (!cells[i]) continue;
    const before = (i + n - 1) % n;
    if (k > 0 && cells[before]) runs[runs.length - 1].push(i);
    else runs.push([i]);
  }
  return runs;
}

function bayOf(
  edge: Way,
  normals: Float64Array,
  apart: Float64Array,
  run: readonly number[],
  options: typeof sharedEdgeDefaults,
): Bay {
  const [from, to] = [2 * run[0], 2 * run[run.length - 1]];
  const [dx, dy] = [edge[to] - edge[from], edge[to + 1] - edge[from + 1]];
  const length = Math.hypot(dx, dy) || 1;
  const [ux, uy] = [dx / length, dy / length];
  const along = [new Float64Array(run.length), new Float64Array(run.length)] as const;
  const aside = [new Float64Array(run.length), new Float64Array(run.length)] as const;
  run.forEach((i, k) => {
    for (const [which, off] of [0, apart[i]].entries()) {
      const x = edge[2 * i] + off * normals[2 * i] - edge[from];
      const y = edge[2 * i + 1] + off * normals[2 * i + 1] - edge[from + 1];
      along[which][k] = x * ux + y * uy;
      aside[which][k] = y * ux - x * uy;
    }
  });
  return { along, aside, lengthMm: run.length * options.stepMm, way: toldWay(edge, run, options) };
}

/** A run of an edge by few rounded points, its two ends among them. */
function toldWay(edge: Way, run: readonly number[], { stepMm }: typeof sharedEdgeDefaults): number[] {
  const each = Math.max(1, Math.round(toldMm / stepMm));
  const told = run.filter((_, k) => k % each === 0 || k === run.length - 1);
  return told.flatMap((i) => [edge[2 * i], edge[2 * i + 1]].map((mm) => Math.round(mm * toldParts) / toldParts));
}

/** What the parabolas leave of both edges over all bays: how rough, how far apart, and how surely alike. */
function evidenceOf(bays: readonly Bay[], independentMm: number): EdgeInCommon | null {
  if (bays.length === 0) return null;
  const left = nothingLeft();
  for (const { along, aside } of bays) addLeft(left, beyondCurve(along[0], aside[0]), beyondCurve(along[1], aside[1]));
  const lengthMm = bays.reduce((sum, bay) => sum + bay.lengthMm, 0);
  const { aa, bb, ab, count } = left;
  return {
    lengthMm,
    roughMm: roughOf(left),
    apartMm: Math.sqrt((aa + bb - 2 * ab) / count),
    sigma: sureAlike(left, lengthMm / independentMm, 3 * bays.length - 1),
    stretches: bays.map(({ way }) => way),
  };
}
