import { type Face, finest, imageBox } from '../face/index.ts';
import { alignRelief, type Fit } from '../fit/index.ts';
import { bandPass, erode, type HeightGrid, quantile, type Vec2, withHeights } from '../geometry/index.ts';
import { type ArealAgreement, arealAgreement } from './correlation.ts';
import { findLandmarks, type Landmark } from './landmarks.ts';
import { type Patch, type PatchOptions, type Place, registerPatch } from './patches.ts';
import { congruentTiles, type Tiles } from './tiles.ts';
import { whitenedDefaults, whitenedReliefs } from './whitened.ts';

export const measureDefaults = {
  /** Most cells across the face's long side. */
  across: 240,
  /** Band: shortest wavelength in spacings and as a share of the size, longest as a share. */
  shortestSpacings: 3.5,
  shortest: 1 / 70,
  longest: 1 / 10,
  margin: 0.02,
  /** Patch radius and reach as shares of the size. */
  radius: 1 / 24,
  reach: 0.03,
  /** … and at least so many spacings of the coarser scan, or cells where these are wider. */
  leastRadius: 5,
  leastReach: 4,
  most: 110,
  /** Places that agree by so much are seen. */
  leastCorrelation: 0.5,
  /** How many of them were matched with what does not correspond, below and above this quantile of what patches reach where they cannot be. */
  nullQuantile: 0.9,
  doubt: { below: 0.3, above: 0.03 },
  /** Relief below so much of the middle place's is the unevenness of a field: a place there is doubted when it is seen, and says nothing when it is not. */
  faint: 0.3,
  /** Heights are clipped at so many times the median height while a patch seeks its place. */
  clip: 6,
  /** Patches that are placed anew on the whitened reliefs: radius, reach in spacings from where they were found, what they agree by at least. */
  radiusAnew: 1 / 30,
  reachAnew: 2,
  /** By how much the flow of wax turns a patch, degrees (1 σ): one that turned by more went astray, and its place with it. */
  turnAnewDeg: 1,
  leastAnew: 0.3,
  /** Errors of places against the covariance of white noise, and per spacing: measured on pairs of one matrix. */
  noiseFactor: 1.8,
  noiseFactorAnew: 2,
  spacingFactor: 0.05,
  /** A place is clear on the subject when its relief there is so much of what the seen patches keep of the reference's. */
  clear: 0.5,
  /** … and no more than so much: a lump of dirt is no design. */
  clearMost: 2.5,
};

export interface MeasuredPlaces {
  readonly seen: readonly Place[];
  /** Relief like a design's on both, and nothing that corresponds. */
  readonly absent: readonly Patch[];
  readonly found: number;
  /** Cells by the correlation length, for the record: no gate rests on their number. */
  readonly tiles: Tiles;
  /** Of the whole overlap, for the record: no gate rests on it. */
  readonly agreement: ArealAgreement;
  /** The longer side of the reference's image, mm, and its middle in the face frame. */
  readonly sizeMm: number;
  readonly middle: Vec2;
  readonly spacingMm: number;
  readonly windowMm2: number;
  /** Points of the coarser scan across the face. */
  readonly pointsAcross: number;
  readonly share: number;
}

export function measurePlaces(
  reference: Face,
  subject: Face,
  fit: Fit,
  given?: readonly Landmark[],
  options = measureDefaults,
): MeasuredPlaces {
  const { side: sizeMm, middle } = imageBox(reference);
  const model = fit.models[2];
  const spacingMm = Math.max(reference.detail.pitch, subject.detail.pitch * model.scale);
  const [onto, other] = [onImage(reference), onImage(subject)];
  const pitch = Math.max(onto.detail.pitch, sizeMm / options.across);
  const aligned = alignRelief(onto, other, model, pitch);
  const perSpacing = Math.max(1, spacingMm / pitch);
  const cells = (share: number, leastSpacings: number): number =>
    Math.round(Math.max(leastSpacings * perSpacing, (share * sizeMm) / pitch));
  const shortest = Math.max(options.shortestSpacings * spacingMm, options.shortest * sizeMm);
  const both = aligned.reference.mask.map((v, i) => v & aligned.subject.mask[i]);
  const mask = erode(both, aligned.reference.width, Math.round((options.margin * sizeMm) / pitch));
  const band = bandPass(aligned.reference, shortest, options.longest * sizeMm);
  const a = withHeights(band, band.z, mask);
  const b = bandPass(aligned.subject, shortest, options.longest * sizeMm);
  const radius = cells(options.radius, options.leastRadius);
  const reach = cells(options.reach, options.leastReach);
  const radiusAnew = cells(options.radiusAnew, options.leastRadius);
  const noiseCells = options.noiseFactor ** 2 * Math.max(1, (shortest / pitch / 2.2) ** 2);
  const clipMm = [options.clip * usualHeight(a), options.clip * usualHeight(b)] as const;
  const base: PatchOptions = { radius, reach, noiseCells, clipMm };
  const marks = (given ?? findLandmarks(a, sizeMm)).slice(0, options.most);
  const patches = marks.map(({ x, y }) => registerPatch(a, b, x, y, base));
  const none = nullCorrelations(a, b, marks, base, 3 * radius * pitch);
  const nullCut = Math.max(options.leastCorrelation, none.length >= 10 ? quantile(none, options.nullQuantile) : 0.8);
  const looked = patches.filter((p): p is Patch => p !== null);

  const first = looked.filter((p) => p.inside && p.correlation >= options.leastCorrelation);
  const usual = quantile(
    first.map(({ relief }) => relief[0]),
    0.5,
  );
  const isFaint = ({ relief }: Patch): boolean => relief[0] < options.faint * usual;
  const { below, above } = options.doubt;
  const seen = placedAnew(first, aligned, mask, sizeMm, spacingMm, radiusAnew, options).map((place) => ({
    ...place,
    doubt: place.correlation < nullCut || isFaint(place) ? below : above,
  }));
  const absent = looked.filter((p) => {
    const ratio = p.relief[1] / p.relief[0];
    const found = p.inside && p.correlation >= options.leastCorrelation;
    return !found && !isFaint(p) && ratio >= options.clear && ratio <= options.clearMost;
  });
  return {
    seen,
    absent,
    found: marks.length,
    tiles: congruentTiles(a, b, sizeMm, { noiseCells, clipMm }),
    agreement: arealAgreement(a, b),
    sizeMm,
    middle,
    spacingMm: options.spacingFactor * spacingMm,
    pointsAcross: sizeMm / spacingMm,
    windowMm2: (2 * reach * pitch) ** 2,
    share: independentShare(seen, Math.max(sizeMm / 16, Math.sqrt(Math.PI) * radiusAnew * pitch)),
  };
}

/**
 * The places found, each looked for once more beside where it was, on the reliefs with their wavelengths weighed by what they say of a
 * place, in a smaller patch. What it agrees by and its relief are those of the first look; where the second finds nothing, all is.
 */
function placedAnew(
  found: readonly Patch[],
  aligned: { readonly reference: HeightGrid; readonly subject: HeightGrid },
  mask: Uint8Array,
  sizeMm: number,
  spacingMm: number,
  radius: number,
  options: typeof measureDefaults,
): readonly Patch[] {
  const { pitch } = aligned.reference;
  const perSpacing = Math.max(1, spacingMm / pitch);
  const [radiusMm, longestMm] = [options.radius * sizeMm, options.longest * sizeMm];
  const white = whitenedReliefs(aligned.reference, aligned.subject, found, spacingMm, longestMm, radiusMm);
  const a = withHeights(white.a, white.a.z, mask);
  const shortestCells = (whitenedDefaults.shortestSpacings * spacingMm) / pitch;
  const base: PatchOptions = {
    radius,
    reach: Math.round(options.reachAnew * perSpacing),
    turnSdDeg: options.turnAnewDeg,
    noiseCells: options.noiseFactorAnew ** 2 * Math.max(1, (shortestCells / 2.2) ** 2),
    clipMm: [options.clip * usualHeight(a), options.clip * usualHeight(white.b)],
  };
  return found.map((place) => {
    const offset = [Math.round(place.dx / pitch), Math.round(-place.dy / pitch)] as const;
    const anew = registerPatch(a, white.b, place.x, place.y, { ...base, offset });
    if (!anew?.inside || anew.correlation < options.leastAnew) return place;
    const { dx, dy, turnDeg, covariance } = anew;
    return { ...place, dx, dy, turnDeg, covariance };
  });
}

/** The face with the detail of its image, read as finely as it was: places on bevel, lip and rim are none of the design. */
const onImage = (face: Face): Face => ({ ...face, detail: finest(face) });

/** What patches reach at places where they cannot be: the place of another landmark, over the same search. */
function nullCorrelations(
  a: HeightGrid,
  b: HeightGrid,
  marks: readonly Landmark[],
  base: PatchOptions,
  apartMm: number,
): number[] {
  const out: number[] = [];
  for (let i = 0; i < marks.length; i += 2) {
    const here = marks[i];
    const there = marks[(i * 7 + 13) % marks.length];
    const [dx, dy] = [there.x - here.x, there.y - here.y];
    if (Math.hypot(dx, dy) < apartMm) continue;
    const offset = [Math.round(dx / a.pitch), -Math.round(dy / a.pitch)] as const;
    const placed = registerPatch(a, b, here.x, here.y, { ...base, offset });
    if (placed) out.push(placed.correlation);
  }
  return out;
}

/** Median of the absolute band-passed height, mm. */
function usualHeight({ z, mask }: HeightGrid): number {
  return quantile(
    z.map((value, i) => (mask[i] ? Math.abs(value) : Number.NaN)),
    0.5,
  );
}

/** Squares of a side that hold a patch, over patches: what shares a letter is shifted together, and what shares cells errs together. */
function independentShare(patches: readonly Patch[], sideMm: number): number {
  const squares = new Set(patches.map(({ x, y }) => `${Math.floor(x / sideMm)},${Math.floor(y / sideMm)}`));
  return patches.length > 0 ? squares.size / patches.length : 1;
}
