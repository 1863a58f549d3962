import { insidePolygon, type Outline, type Sense } from '../../face/index.ts';
import { type HeightGrid, turnGridOver } from '../../geometry/index.ts';
import { type BandShape, type CurvePlace, curveOf, resample } from './baseCurve.ts';

/** What of a face the search needs; a `Face` is one. */
export interface BandFace {
  readonly sense: Sense;
  readonly outline: Pick<Outline, 'polygon' | 'shape'>;
  /** Heights with the form removed. */
  readonly detail: HeightGrid;
  /** The same without bevel, lip and rim, where that was found: there the legend is looked for. */
  readonly image?: HeightGrid;
  /** Noise of a height, mm (1 σ); without it every relief is taken for one. */
  readonly noiseMm?: number;
}

/** What makes a band doubtful: no border line on a side, none at all, or letters hardly clearer than the ground. */
export type BandDoubt = 'noInnerLine' | 'noOuterLine' | 'noLine' | 'uncertain';

/**
 * Where a legend runs: between two parallels to a base curve. Everything is in the face frame in the impression's
 * sense (x right, y up, mm): for a matrix x is the face frame's x negated.
 */
export interface Band {
  readonly sense: Sense;
  readonly shape: BandShape;
  /** Closed curve, clockwise, x, y pairs, evenly spaced. */
  readonly base: Float64Array;
  /** Middle of the base curve. */
  readonly cx: number;
  readonly cy: number;
  /** Edges of the band, mm inward from the base curve. */
  readonly outerMm: number;
  readonly innerMm: number;
  /** Where the ground inside the inner border line begins, mm inward; `innerMm` where none is seen. */
  readonly insideMm: number;
  /** Tops and feet of the letters (whichever is nearer the rim first), mm inward. */
  readonly lettersOuterMm: number;
  readonly lettersInnerMm: number;
  /** Which border lines were found. */
  readonly lines: 'both' | 'outer' | 'inner' | 'none';
  /** 0 = a guess, 1 = sure. */
  readonly confidence: number;
  readonly doubts: readonly BandDoubt[];
}

/** A face's relief in the impression's sense: a matrix is turned over first, so that its legend can be read. */
export const readingGrid = (sense: Sense, grid: HeightGrid): HeightGrid =>
  sense === 'intaglio' ? turnGridOver(grid) : grid;

/** x of the object's own face frame ↔ x in the impression's sense: both ways the same. */
export const readingX = (sense: Sense, x: number): number => (sense === 'intaglio' ? -x : x);

/** The band with its edges moved by the user; letters are taken to fill the middle three quarters of the new band. */
export function withEdges(band: Band, outerMm: number, innerMm: number): Band {
  if (!(innerMm - outerMm > 0.2))
    throw new RangeError('The inner edge of a band lies at least 0.2 mm inside the outer.');
  const gap = 0.125 * (innerMm - outerMm);
  return {
    ...band,
    outerMm,
    innerMm,
    insideMm: Math.max(innerMm, band.insideMm),
    lettersOuterMm: outerMm + gap,
    lettersInnerMm: innerMm - gap,
    confidence: 1,
    doubts: [],
  };
}

/**
 * A band drawn by hand: parallel to the given outline (x, y pairs in the object's own face frame, any direction), from
 * `outerMm` to `innerMm` inward.
 */
export function bandInside(
  face: Pick<BandFace, 'sense'>,
  outline: Float64Array,
  outerMm: number,
  innerMm: number,
): Band {
  const turned = outline.map((value, i) => (i % 2 === 0 ? readingX(face.sense, value) : value));
  const clockwise = signedArea(turned) < 0 ? turned : reversed(turned);
  const closed = Float64Array.from([...clockwise, clockwise[0], clockwise[1]]);
  const base = resample(closed, 720);
  const { cx, cy } = middleOf(base);
  const blank: Band = {
    sense: face.sense,
    shape: 'free',
    base,
    cx,
    cy,
    outerMm,
    innerMm,
    insideMm: innerMm,
    lettersOuterMm: outerMm,
    lettersInnerMm: innerMm,
    lines: 'none',
    confidence: 1,
    doubts: [],
  };
  return withEdges(blank, outerMm, innerMm);
}

/** Band of another face carried over: `move` takes its points (impression's sense) to this face's (same sense). */
export function movedBand(
  band: Band,
  sense: Sense,
  move: (x: number, y: number) => readonly [number, number],
  scale = 1,
): Band {
  const base = new Float64Array(band.base.length);
  for (let i = 0; i < base.length; i += 2) base.set(move(band.base[i], band.base[i + 1]), i);
  const [cx, cy] = move(band.cx, band.cy);
  return {
    ...band,
    sense,
    base,
    cx,
    cy,
    outerMm: band.outerMm * scale,
    innerMm: band.innerMm * scale,
    insideMm: band.insideMm * scale,
    lettersOuterMm: band.lettersOuterMm * scale,
    lettersInnerMm: band.lettersInnerMm * scale,
  };
}

/** Points of the parallel at `depthMm`, x, y pairs, clockwise, for drawing a band's edges; corners are kept sharp. */
export function parallelAt(band: Pick<Band, 'base'>, depthMm: number): Float64Array {
  const curve = curveOf(band.base);
  const points: number[] = [];
  for (let i = 0; i < curve.x.length; i++)
    if (depthMm <= curve.reach[i]) points.push(curve.x[i] + depthMm * curve.nx[i], curve.y[i] + depthMm * curve.ny[i]);
  return Float64Array.from(points);
}

/** Which cells of a grid in the object's own face frame lie inside the parallel at `depthMm`: 1 and 0. */
export const insideParallel = (grid: HeightGrid, band: Band, depthMm: number): Uint8Array =>
  insidePolygon(
    grid,
    parallelAt(band, depthMm).map((value, i) => (i % 2 === 0 ? readingX(band.sense, value) : value)),
  );

function signedArea(ring: Float64Array): number {
  let twice = 0;
  for (let i = 0, k = ring.length - 2; i < ring.length; k = i, i += 2)
    twice += ring[k] * ring[i + 1] - ring[i] * ring[k + 1];
  return twice / 2;
}

function reversed(ring: Float64Array): Float64Array {
  const out = new Float64Array(ring.length);
  for (let i = 0; i < ring.length; i += 2) out.set([ring[ring.length - 2 - i], ring[ring.length - 1 - i]], i);
  return out;
}

function middleOf(ring: Float64Array): Pick<CurvePlace, 'cx' | 'cy'> {
  let cx = 0;
  let cy = 0;
  for (let i = 0; i < ring.length; i += 2) {
    cx += (2 * ring[i]) / ring.length;
    cy += (2 * ring[i + 1]) / ring.length;
  }
  return { cx, cy };
}
