import { hullOf, type Sense } from '../../face/index.ts';
import { everyNthAcross, type HeightGrid } from '../../geometry/index.ts';
import { type Aligned, alignCurve, type BandRelief, bandRelief, depthOf, detailedPlaces } from './alignCurve.ts';
import { type Band, type BandDoubt, type BandFace, insideParallel, parallelAt, readingGrid, readingX } from './band.ts';
import { chosenRing, lengthMm, type Ring } from './chosenRing.ts';
import { imageAlone } from './imageAlone.ts';
import { outlineCurve } from './outlineCurve.ts';
import { type BandProfile, bandProfiles, leastLine, type PickedBand, pickBands } from './pickBand.ts';
import { confidenceOf, worthOf } from './ringChoice.ts';
import { ringPicture } from './ringPicture.ts';
import { type RingSigns, ringSigns } from './ringSigns.ts';
import { startsFor } from './starts.ts';

export const bandDefaults = {
  /** Most cells along a side that are looked at: two to a border line of a three-hundredth of the face. */
  mostAcross: 640,
  /** Score of lines and gaps below which not even letters between two gaps are seen. */
  leastScore: 1,
  /** Confidence of the first band, and of each further ring, at least. */
  leastConfidence: 0.1,
  ringConfidence: 0.5,
  /** Evenness of a further ring, at least: what a motif or beads hold is not everywhere. */
  leastEven: 0.7,
  /** Root mean square of the heights between the edges, at least, in units of the noise; not asked of rings surer than this, as none of noise is. */
  surely: 0.5,
  leastOverNoise: 1.5,
  /** Length round the middle of the letters, at least, in their heights. */
  leastRound: 15,
  /** Height of the letters, at least: in cells of the relief blurred to strokes, and as a share of the band. */
  leastCells: 4,
  leastShare: 0.4,
  /** A ring that ends at a border line which the best takes along is taken in its place, worth less by at most this. */
  mostBehind: 1,
  /** So is one that holds it up to its border lines, taller by at most this factor, worth less by at most this, where strokes run on into it along this share of the round. */
  mostTaller: 1.6,
  tallerBehind: 1.3,
  leastArc: 0.25,
  /** Told to be uncertain below this confidence: it is as likely wrong. */
  uncertain: 0.5,
};

/**
 * Finds the legend bands of a face, outermost first; empty where nothing like one is seen.
 *
 * Ideal outlines (round, oval, pointed oval, shield, square) are moved and stretched until as much of the relief as
 * possible runs parallel to them, beside them the image's own outline is asked; then border lines and letters are told apart by what is found at each depth inward:
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
  const relief = reliefOf(face);
  const rings = ringsOf(face, relief);
  if (rings.length === 0) return [];
  const first = chosenRing(rings, bandDefaults);
  // A further ring is not much less clear than the first, and has letters everywhere. It may
  // follow a curve of its own: outlines drawn smaller are not parallel to the large one.
  const isRing = (ring: Ring): boolean =>
    ring.band.score > Math.max(1.6, 0.6 * first.band.score) && ring.signs.even > bandDefaults.leastEven;
  const bands: Band[] = [];
  const further = rings.filter((ring) => ring !== first && isRing(ring)).sort((p, q) => q.worth - p.worth);
  for (const ring of [first, ...further]) {
    const found = bandOf(face.sense, ring);
    const least = ring === first ? bandDefaults.leastConfidence : bandDefaults.ringConfidence;
    if (
      found.confidence > least &&
      hasMiddle(found) &&
      (found.confidence > bandDefaults.surely || standsOut(face, found)) &&
      !bands.some((other) => overlap(other, found))
    )
      bands.push(found);
  }
  return bands.sort((p, q) => meanRadius(q, q.outerMm) - meanRadius(p, p.outerMm));
}

/** All rings that a face offers, each as a band, and the signs by which one is chosen: what the choice is learned from. */
export const ringsOffered = (
  face: BandFace,
): { readonly band: Band; readonly signs: RingSigns; readonly score: number }[] =>
  ringsOf(onCoarserCells(face)).map((ring) => ({
    band: bandOf(face.sense, ring),
    signs: ring.signs,
    score: ring.band.score,
  }));

const reliefOf = (face: BandFace): BandRelief => bandRelief(readingGrid(face.sense, imageAlone(face)), face.sense);

/** The rings along every curve that the relief runs parallel to. */
function ringsOf(face: BandFace, relief = reliefOf(face)): Ring[] {
  const polygon = face.outline.polygon.map((value, i) => (i % 2 === 0 ? readingX(face.sense, value) : value));
  const detailed = detailedPlaces(relief);
  const edge = hullOf(relief.fine, relief.fine.mask);
  const ideal = alignCurve(
    relief,
    (shape) => startsFor(shape, polygon, detailed),
    (shape) => startsFor(shape, edge),
  );
  const profileOf = bandProfiles(relief.raised);
  return [...ideal, ...outlineCurve(relief, face.outline.shape)].flatMap((aligned) =>
    ringsAlong(relief, aligned, profileOf(aligned.curve, depthOf(aligned))),
  );
}

function ringsAlong(relief: BandRelief, aligned: Aligned, profile: BandProfile): Ring[] {
  const { curve, explained } = aligned;
  return pickBands(profile)
    .filter((band) => isClear(band) && isLong(aligned, band) && isHigh(relief.strokes, band))
    .map((band) => {
      const picture = ringPicture(relief.strokes, curve, band);
      const signs = ringSigns(picture, band, explained);
      return { aligned, band, picture, signs, worth: worthOf(signs) };
    });
}

const isClear = ({ score }: PickedBand): boolean => score >= bandDefaults.leastScore;

/** A ring so short in its letters' heights is a motif's petals or pellets. */
const isLong = ({ curve }: Aligned, { lettersOuterMm, lettersInnerMm }: PickedBand): boolean =>
  lengthMm(curve, (lettersOuterMm + lettersInnerMm) / 2) > bandDefaults.leastRound * (lettersInnerMm - lettersOuterMm);

/** A line that was taken for letters is as low as a few cells, or fills little of its band. */
function isHigh({ pitch }: HeightGrid, { outerMm, innerMm, lettersOuterMm, lettersInnerMm }: PickedBand): boolean {
  const heightMm = lettersInnerMm - lettersOuterMm;
  return heightMm >= bandDefaults.leastCells * pitch && heightMm >= bandDefaults.leastShare * (innerMm - outerMm);
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

function bandOf(sense: Sense, { aligned, band, worth }: Ring): Band {
  const outer = band.outerLine > leastLine;
  const inner = band.innerLine > leastLine;
  const lines = outer && inner ? 'both' : outer ? 'outer' : inner ? 'inner' : 'none';
  const confidence = confidenceOf(worth);
  const doubts: BandDoubt[] = [];
  if (lines === 'outer') doubts.push('noInnerLine');
  if (lines === 'inner') doubts.push('noOuterLine');
  if (lines === 'none') doubts.push('noLine');
  if (confidence < bandDefaults.uncertain) doubts.push('uncertain');
  const { shape, place, curve } = aligned;
  const base = new Float64Array(2 * curve.x.length);
  for (let i = 0; i < curve.x.length; i++) base.set([curve.x[i], curve.y[i]], 2 * i);
  return { sense, shape, base, cx: place.cx, cy: place.cy, ...depths(band), lines, confidence, doubts };
}

const depths = ({ outerMm, innerMm, insideMm, lettersOuterMm, lettersInnerMm }: PickedBand) => ({
  outerMm,
  innerMm,
  insideMm,
  lettersOuterMm,
  lettersInnerMm,
});
