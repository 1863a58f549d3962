import type { Outline, Sense } from '../../face/index.ts';
import { type HeightGrid, turnGridOver } from '../../geometry/index.ts';
import { type Aligned, alignCurve, bandRelief, detailedPlaces } from './alignCurve.ts';
import { type BandShape, type CurvePlace, curveOf, resample } from './baseCurve.ts';
import { bandProfile, type PickedBand, pickBands } from './pickBand.ts';
import { startsFor } from './starts.ts';

/** What of a face the search needs; a `Face` is one. */
export interface BandFace {
  readonly sense: Sense;
  readonly outline: Pick<Outline, 'polygon' | 'shape'>;
  /** Heights with the form removed. */
  readonly detail: HeightGrid;
}

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
  /** Tops and feet of the letters (whichever is nearer the rim first), mm inward. */
  readonly lettersOuterMm: number;
  readonly lettersInnerMm: number;
  /** Which border lines were found. */
  readonly lines: 'both' | 'outer' | 'inner' | 'none';
  /** 0 = a guess, 1 = sure. */
  readonly confidence: number;
  readonly doubts: readonly string[];
}

/** A face's relief in the impression's sense: a matrix is turned over first, so that its legend can be read. */
export const readingGrid = (sense: Sense, grid: HeightGrid): HeightGrid =>
  sense === 'intaglio' ? turnGridOver(grid) : grid;

/** x of the object's own face frame ↔ x in the impression's sense: both ways the same. */
export const readingX = (sense: Sense, x: number): number => (sense === 'intaglio' ? -x : x);

/**
 * Finds the legend bands of a face, outermost first; empty where nothing like one is seen.
 *
 * Ideal outlines (round, oval, pointed oval, shield, square) are moved and stretched until as much of the relief as
 * possible runs parallel to them, then border lines and letters are told apart by what is found at each depth inward:
 * on a line the mean over all positions is high and the spread low; among letters the spread is high and the mean
 * low. Works from what is left of a broken impression, as far as that holds a good part of the band.
 * The method is this project's own.
 */
export function findLegendBands(face: BandFace): Band[] {
  const relief = bandRelief(readingGrid(face.sense, face.detail));
  const polygon = face.outline.polygon.map((value, i) => (i % 2 === 0 ? readingX(face.sense, value) : value));
  const detailed = detailedPlaces(relief);
  const tries = alignCurve(relief, (shape) => startsFor(shape, polygon, detailed)).map((aligned) => {
    const depth = 0.75 * Math.min(aligned.place.a, aligned.place.b);
    const picked = pickBands(bandProfile(relief.fine, aligned.curve, depth));
    return { aligned, picked, value: (picked[0]?.score ?? 0) + 2 * aligned.explained };
  });
  tries.sort((p, q) => q.value - p.value);
  const first = tries[0]?.picked[0];
  if (!first || first.score < leastScore) return [];
  // A further ring is taken only where it has border lines of its own and is not much less clear than the first. It may
  // follow a curve of its own: outlines drawn smaller are not parallel to the large one.
  const isRing = (band: PickedBand): boolean =>
    band.score > Math.max(1.6, 0.6 * first.score) && band.outerLine > 0.5 && band.innerLine > 0.5;
  const bands: Band[] = [];
  for (const { aligned, picked } of tries)
    for (const band of picked.filter((p) => p === first || isRing(p))) {
      const found = bandOf(face.sense, aligned, band);
      const least = band === first ? leastConfidence : ringConfidence;
      if (found.confidence > least && hasMiddle(found) && !bands.some((other) => overlap(other, found)))
        bands.push(found);
    }
  return bands.sort((p, q) => meanRadius(q, q.outerMm) - meanRadius(p, p.outerMm));
}

/** A parallel so deep that hardly anything is left of it is no legend's middle. */
const hasMiddle = (band: Band): boolean =>
  parallelAt(band, (band.outerMm + band.innerMm) / 2).length > 0.3 * band.base.length;

/** Does a good part of one band's middle, perhaps of another curve, lie within the other? */
function overlap(a: Band, b: Band): boolean {
  const middle = (band: Band): Float64Array => parallelAt(band, (band.outerMm + band.innerMm) / 2);
  const ringA = middle(a);
  const ringB = middle(b);
  const within = (a.innerMm - a.outerMm + b.innerMm - b.outerMm) / 2;
  let inside = 0;
  let count = 0;
  for (let i = 0; i < ringB.length; i += 16, count++) {
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < ringA.length; k += 8)
      least = Math.min(least, Math.hypot(ringA[k] - ringB[i], ringA[k + 1] - ringB[i + 1]));
    if (least < 0.9 * within) inside++;
  }
  return inside > 0.2 * count;
}

function meanRadius(band: Band, depthMm: number): number {
  const ring = parallelAt(band, depthMm);
  let sum = 0;
  for (let i = 0; i < ring.length; i += 2) sum += Math.hypot(ring[i] - band.cx, ring[i + 1] - band.cy);
  return ring.length > 0 ? (2 * sum) / ring.length : 0;
}

/** The clearest legend band, or null. */
export function findLegendBand(face: BandFace): Band | null {
  const bands = findLegendBands(face);
  return bands.length === 0 ? null : bands.reduce((p, q) => (q.confidence > p.confidence ? q : p));
}

const leastConfidence = 0.15;
const ringConfidence = 0.5;
/** Below this not even letters between two gaps are seen. */
const leastScore = 1.2;

function bandOf(sense: Sense, aligned: Aligned, picked: PickedBand): Band {
  const outer = picked.outerLine > 0.35;
  const inner = picked.innerLine > 0.35;
  const lines = outer && inner ? 'both' : outer ? 'outer' : inner ? 'inner' : 'none';
  const confidence = Math.max(0, Math.min(1, (picked.score - leastScore) / 1.2)) * (lines === 'both' ? 1 : 0.5);
  const doubts: string[] = [];
  if (lines === 'outer') doubts.push('No inner border line was seen.');
  if (lines === 'inner') doubts.push('No outer border line was seen.');
  if (lines === 'none') doubts.push('No border line was seen: the band is where letters seem to be.');
  if (confidence < 0.4) doubts.push('The band is uncertain: check both edges.');
  const { shape, place, curve } = aligned;
  const base = new Float64Array(2 * curve.x.length);
  for (let i = 0; i < curve.x.length; i++) base.set([curve.x[i], curve.y[i]], 2 * i);
  return { sense, shape, base, cx: place.cx, cy: place.cy, ...depths(picked), lines, confidence, doubts };
}

const depths = ({ outerMm, innerMm, lettersOuterMm, lettersInnerMm }: PickedBand) => ({
  outerMm,
  innerMm,
  lettersOuterMm,
  lettersInnerMm,
});

/** The band with its edges moved by the user; letters are taken to fill the middle three quarters of the new band. */
export function withEdges(band: Band, outerMm: number, innerMm: number): Band {
  if (!(innerMm - outerMm > 0.2))
    throw new RangeError('The inner edge of a band lies at least 0.2 mm inside the outer.');
  const gap = 0.125 * (innerMm - outerMm);
  return {
    ...band,
    outerMm,
    innerMm,
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
