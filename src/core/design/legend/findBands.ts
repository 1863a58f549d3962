import { largestRegion, type Sense } from '../../face/index.ts';
import { everyNthAcross, type HeightGrid, withHeights } from '../../geometry/index.ts';
import { type Aligned, alignCurve, bandRelief, detailedPlaces } from './alignCurve.ts';
import { type Band, type BandDoubt, type BandFace, insideParallel, parallelAt, readingGrid, readingX } from './band.ts';
import type { BaseCurve } from './baseCurve.ts';
import { lettersAlong } from './lettersAlong.ts';
import { bandProfile, leastLine, type PickedBand, pickBands } from './pickBand.ts';
import { startsFor } from './starts.ts';

export const bandDefaults = {
  /** Most cells along a side that are looked at: two to a border line of a three-hundredth of the face. */
  mostAcross: 640,
  /** Score below which not even letters between two gaps are seen. */
  leastScore: 1.2,
  /** Confidence of the first band, and of each further ring, at least. */
  leastConfidence: 0.15,
  ringConfidence: 0.5,
  /** Root mean square of the heights between the edges, at least, in units of the noise. */
  leastOverNoise: 1.5,
  /** Length round the middle of the letters, at least, in their heights. */
  leastRound: 15,
  /** What capitals along the ring are worth (`lettersAlong`), and how far behind a curve's best ring others are looked at. */
  worthOfLetters: 10,
  mostBehind: 0.7,
  /** Two rings whose middles, and whose edges on average, differ by less are one, mm. */
  sameMm: 0.15,
};

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
  const known = knownBands.get(face) ?? bandsOf(onCoarserCells(face));
  knownBands.set(face, known);
  return [...known];
}

/** Bands of a face that were found elsewhere. */
export function rememberBands(face: BandFace, bands: readonly Band[]): void {
  knownBands.set(face, bands);
}

/** A face does not change, and more than one step asks for its legend. */
const knownBands = new WeakMap<BandFace, readonly Band[]>();

function onCoarserCells(face: BandFace): BandFace {
  const coarser = (grid: HeightGrid): HeightGrid => everyNthAcross(grid, bandDefaults.mostAcross);
  return { ...face, detail: coarser(face.detail), ...(face.image && { image: coarser(face.image) }) };
}

function bandsOf(face: BandFace): Band[] {
  const relief = bandRelief(readingGrid(face.sense, imageOnly(face)));
  const polygon = face.outline.polygon.map((value, i) => (i % 2 === 0 ? readingX(face.sense, value) : value));
  const detailed = detailedPlaces(relief);
  const letters = lettersOnce(relief.lines);
  const tries = alignCurve(relief, (shape) => startsFor(shape, polygon, detailed)).map((aligned) => {
    const depth = 0.75 * Math.min(aligned.place.a, aligned.place.b);
    const long = pickBands(bandProfile(relief.fine, aligned.curve, depth)).filter((band) => isLong(aligned, band));
    const picked = withLetters(letters, aligned, long);
    return { aligned, picked, value: (picked[0]?.score ?? 0) + 2 * aligned.explained };
  });
  tries.sort((p, q) => q.value - p.value);
  const first = tries[0]?.picked[0];
  if (!first || first.score < bandDefaults.leastScore) return [];
  // A further ring is taken only where it has border lines of its own and is not much less clear than the first. It may
  // follow a curve of its own: outlines drawn smaller are not parallel to the large one.
  const isRing = (band: PickedBand): boolean =>
    band.score > Math.max(1.6, 0.6 * first.score) && band.outerLine > 0.5 && band.innerLine > 0.5;
  const bands: Band[] = [];
  for (const { aligned, picked } of tries)
    for (const band of picked.filter((p) => p === first || isRing(p))) {
      const found = bandOf(face.sense, aligned, band);
      const least = band === first ? bandDefaults.leastConfidence : bandDefaults.ringConfidence;
      if (
        found.confidence > least &&
        hasMiddle(found) &&
        standsOut(face, found) &&
        !bands.some((other) => overlap(other, found))
      )
        bands.push(found);
    }
  return bands.sort((p, q) => meanRadius(q, q.outerMm) - meanRadius(p, p.outerMm));
}

/** The few best by their lines and gaps, in the order of what their letters add to it. */
function withLetters(letters: LettersOf, aligned: Aligned, picked: readonly PickedBand[]): PickedBand[] {
  const best = picked
    .filter((band) => band.score > picked[0].score - bandDefaults.mostBehind)
    .map((band) => ({ ...band, score: band.score + bandDefaults.worthOfLetters * letters(aligned, band) }));
  return best.sort((p, q) => q.score - p.score);
}

type LettersOf = (aligned: Aligned, band: PickedBand) => number;

/** `lettersAlong`, once for rings that hardly differ: several starts often end on one curve. */
function lettersOnce(lines: HeightGrid): LettersOf {
  const known: { readonly ring: readonly number[]; readonly letters: number }[] = [];
  return ({ curve, place: { cx, cy } }, band) => {
    const ring = [cx, cy, lengthMm(curve, band.lettersOuterMm) / 6, lengthMm(curve, band.lettersInnerMm) / 6];
    const same = known.find((each) => each.ring.every((value, k) => Math.abs(value - ring[k]) < bandDefaults.sameMm));
    if (same) return same.letters;
    const letters = lettersAlong(lines, curve, band);
    known.push({ ring, letters });
    return letters;
  };
}

/** Length of a parallel: a closed convex curve is 2π d shorter d mm inside. */
const lengthMm = (curve: BaseCurve, depthMm: number): number =>
  curve.x.length * curve.spacingMm - 2 * Math.PI * depthMm;

/** A ring so short in its letters' heights is a motif's petals or pellets. */
const isLong = ({ curve }: Aligned, { lettersOuterMm, lettersInnerMm }: PickedBand): boolean =>
  lengthMm(curve, (lettersOuterMm + lettersInnerMm) / 2) > bandDefaults.leastRound * (lettersInnerMm - lettersOuterMm);

/** The image in one piece: what stays of a bevel or lip beside it, a broken ring or splinters, would be the most regular ring of all. */
function imageOnly({ image, detail }: BandFace): HeightGrid {
  const grid = image ?? detail;
  return withHeights(grid, grid.z, largestRegion(grid, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY));
}

/** A parallel so deep that hardly anything is left of it is no legend's middle. */
const hasMiddle = (band: Band): boolean =>
  parallelAt(band, (band.outerMm + band.innerMm) / 2).length > 0.3 * band.base.length;

/** Noise alone makes rings too, faint ones: the heights between the edges must be more than it. */
function standsOut({ detail, noiseMm = 0 }: BandFace, band: Band): boolean {
  const within = insideParallel(detail, band, band.outerMm);
  const inside = insideParallel(detail, band, band.innerMm);
  let [squares, count] = [0, 0];
  for (let i = 0; i < within.length; i++) {
    if (!within[i] || inside[i] || !detail.mask[i]) continue;
    squares += detail.z[i] ** 2;
    count++;
  }
  return squares > (bandDefaults.leastOverNoise * noiseMm) ** 2 * count;
}

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

function bandOf(sense: Sense, aligned: Aligned, picked: PickedBand): Band {
  const outer = picked.outerLine > leastLine;
  const inner = picked.innerLine > leastLine;
  const lines = outer && inner ? 'both' : outer ? 'outer' : inner ? 'inner' : 'none';
  const confidence =
    Math.max(0, Math.min(1, (picked.score - bandDefaults.leastScore) / 1.2)) * (lines === 'both' ? 1 : 0.5);
  const doubts: BandDoubt[] = [];
  if (lines === 'outer') doubts.push('noInnerLine');
  if (lines === 'inner') doubts.push('noOuterLine');
  if (lines === 'none') doubts.push('noLine');
  if (confidence < 0.4) doubts.push('uncertain');
  const { shape, place, curve } = aligned;
  const base = new Float64Array(2 * curve.x.length);
  for (let i = 0; i < curve.x.length; i++) base.set([curve.x[i], curve.y[i]], 2 * i);
  return { sense, shape, base, cx: place.cx, cy: place.cy, ...depths(picked), lines, confidence, doubts };
}

const depths = ({ outerMm, innerMm, insideMm, lettersOuterMm, lettersInnerMm }: PickedBand) => ({
  outerMm,
  innerMm,
  insideMm,
  lettersOuterMm,
  lettersInnerMm,
});
