import {
  distanceTransform,
  gaussianFilter,
  median,
  quantile,
  sigmaFromMad,
  withHeights,
} from '../../../geometry/index.ts';
import type { LossField } from '../../relief/loss.ts';
import type { WearRelief } from '../../relief/relief.ts';
import { wouldShow } from '../keptAsHigh.ts';
import { type Chain, chainsOf, crestCells } from './chains.ts';
import { type Contrasts, contrastsAcross, evenCourse, medianOf, middleOf, type Place, placesOf } from './contrasts.ts';
import { lineDefaults, lineField } from './lineField.ts';
import { keptAround, type LineMark, narrowForms } from './lines.ts';

export const matchedDefaults = {
  /** Crests of the difference are looked for against sides at this distance, mm: near, so that thin cracks show. */
  field: { ...lineDefaults, besideMm: 0.45 },
  /** A cell is a crest from this height on, mm, and so many times what is usual about it within this cut-off, mm; a whole line is one from so many times on. */
  leastMm: 0.01,
  overUsual: 1.8,
  wholeOverUsual: 3,
  usualWithinMm: 6,
  /** Towards what is usual nothing counts by more than so many times the median: a mark or a broken edge is no noise. */
  mostOfUsual: 4,
  leastLengthMm: 2,
  /** Least mean strength of a line, mm, and least strength × length, mm². */
  leastStrengthMm: 0.02,
  leastMm2: 0.15,
  /** Parallel ways lie from so many distances of the sides on, and up to so far aside, mm. */
  fromBeside: 1.5,
  farMm: 3,
  /** The line stands over its parallels by so many of their standard deviations. */
  leastSigmas: 6,
  /** Where the other face is bare the carrier's own crest is what the difference has, within these factors, and the other face shows at most this share of it; the subject, which may only be worn, this: each times the share of narrow forms about the line that it keeps. */
  accounted: [0.75, 1.3],
  otherShare: 0.25,
  otherShareWorn: 0.15,
  /** Over its crests, design and all, the carrier has at most so many times what the two differ by: else they are strokes of the design that wore on the other. */
  mostOwn: 1.7,
  /** So much of their height these keep at least: else the line may have been lost with them. */
  leastKept: 0.4,
  /** What the two differ by beside it is at most this share of what they differ by along it: else its sides are what was worn. */
  mostBeside: 0.5,
  /** No farther in than this share of the size a line must come in by so much of its own length. */
  farInShare: 0.15,
  leastInward: 0.25,
  /** Cells on either side from which the line's own way is taken. */
  reach: 6,
  /** Where the other face is bare it stands along its whole course, of which each place is taken over so much of it, within so far aside, mm, at this share of what its crests have on the average: else it is strokes of the design, lower on the other face, or spots, that lie in line. */
  courseMm: 0.5,
  asideMm: 0.3,
  leastOnBare: 0.6,
  /** About it, from so far on and up to so far, mm, crests of this share of its strength and more come to no more than so many times its length: else it is one of many. */
  peersFromMm: 1.2,
  peersToMm: 6,
  asStrong: 0.7,
  mostPeers: 5,
};

type Options = typeof matchedDefaults;

/**
 * Raised lines that one face has and the other lacks, measured along their own way against parallel ways beside it. With c the height over the mean of two
 * sides across the way, at each cell k of the line and each distance aside s,
 *
 *   C(s) = median of c(k, s) over k,   σ = 1.48 · median of |C(s)| over s well aside:
 *
 * the difference has the line where C(0) ≥ `leastSigmas` σ there. Which face has it is read where the other face is bare, along its whole course: there no design lies under it, the
 * carrier has what the difference has, and the other face at most `otherShare` of that. Strokes of the design that lie in line differ where the design is alone, and one that wore keeps more of
 * itself; where narrow forms about the line, or what stands as high as it does (keptAsHigh.ts), are gone from the other face, so may the line be. And it is no one of many about as strong.
 */
export function matchedLines(
  relief: WearRelief,
  loss: LossField,
  narrow = narrowForms(relief),
  crests = differenceCrests(relief),
  options: Options = matchedDefaults,
): LineMark[] {
  const { usual, strengths } = crests;
  const least = (i: number): number => Math.max(options.leastMm, options.overUsual * usual[i]);
  return ([1, -1] as const).flatMap((sign) => {
    const { strength, along } = strengths(sign);
    return chainsOf(relief.reference, strength, along, options.field.directions, least, relief.sizeMm)
      .filter((chain) => standsOut(chain, usual, options))
      .flatMap((chain) => measuredOnBoth(relief, loss, chain, sign, narrow, crests, options) ?? []);
  });
}

const standsOut = ({ cells, lengthMm, strengthMm }: Chain, usual: Float32Array, options: Options): boolean =>
  lengthMm >= options.leastLengthMm &&
  strengthMm >= options.leastStrengthMm &&
  lengthMm * strengthMm >= options.leastMm2 &&
  strengthMm >= options.wholeOverUsual * median(cells.map((i) => usual[i]));

/** Crests of the difference within the image against near sides: how strong and which way, raised (1) or sunk (−1), and how strong they usually are about each cell, mm. */
export interface DifferenceCrests {
  readonly strengths: (sign: 1 | -1) => { readonly strength: Float32Array; readonly along: Uint8Array };
  readonly usual: Float32Array;
}

export function differenceCrests(
  { reference, difference, image }: WearRelief,
  options: Options = matchedDefaults,
): DifferenceCrests {
  const mask = Uint8Array.from(difference, (value, i) => (image[i] && !Number.isNaN(value) ? 1 : 0));
  const field = lineField(
    [
      withHeights(
        reference,
        difference.map((value, i) => (mask[i] ? value : 0)),
        mask,
      ),
    ],
    false,
    options.field,
  );
  const crests = field.ridge.map((value, i) => (mask[i] ? Math.max(value, field.groove[i]) : 0));
  const most = options.mostOfUsual * median(crests.filter((value) => value > 0));
  const squares = withHeights(
    reference,
    crests.map((value) => Math.min(value, most) ** 2),
    mask,
  );
  return {
    strengths: (sign) =>
      sign === 1
        ? { strength: field.ridge, along: field.ridgeAlong }
        : { strength: field.groove, along: field.grooveAlong },
    usual: gaussianFilter(squares, options.usualWithinMm).z.map((value) => Math.sqrt(Math.max(0, value))),
  };
}

/**
 * The line that runs along crests of the difference, `sign` 1 where the subject is to have it and −1 where the reference is, as both faces have it; null where the
 * parallels, the other face or what is lost about it do not bear it out.
 */
export function measuredOnBoth(
  relief: WearRelief,
  loss: LossField,
  chain: Chain,
  sign: 1 | -1,
  narrow: ReturnType<typeof narrowForms>,
  crests: DifferenceCrests,
  options: Options,
): LineMark | null {
  const [carriedBy, other] = sign === 1 ? (['subject', 'reference'] as const) : (['reference', 'subject'] as const);
  const across = (places: readonly Place[]): Contrasts[] =>
    [carriedBy, other].map((face) => contrastsAcross(relief[face], places, options));
  const [own, lacking] = across(placesOf(relief.reference, chain));
  const { heightMm, sigmas } = overParallels(own, lacking, options);
  const crestMm = medianOf(own.rows[middleOf(own.rows)]);
  if (!(sigmas >= options.leastSigmas && crestMm <= options.mostOwn * heightMm)) return null;
  const [ownWay, otherWay] = across(evenCourse(relief.reference, chain, options.courseMm));
  const onBare = onBareGround(ownWay, otherWay, chain.strengthMm, options);
  if (!isCarriersOwn(onBare, chain.strengthMm, options)) return null;
  const kept = keptAround(relief, narrow, chain, other);
  const share = Math.min(1, kept) * (carriedBy === 'subject' ? options.otherShare : options.otherShareWorn);
  if (kept < options.leastKept || onBare.otherMm > share * onBare.ownMm) return null;
  if (Math.abs(standingOver(relief, chain, sign) - heightMm) > options.mostBeside * heightMm) return null;
  if (keepsToEdge(relief, chain, options) || !wouldShow(relief, loss, { cells: chain.cells, carriedBy })) return null;
  if (peersMm(relief, chain, crests.strengths(sign), options) > options.mostPeers * chain.lengthMm) return null;
  const { ownMm, otherMm } = onBare;
  const [onReferenceMm, onSubjectMm] = sign === 1 ? [otherMm, ownMm] : [ownMm, otherMm];
  return { chain, carriedBy, onReferenceMm, onSubjectMm, matched: true };
}

/** Whether a line stands on bare ground as its crests do, and is as high there as the difference: no groove of the other face, no strokes in line. */
const isCarriersOwn = (
  { ownMm, standsMm }: OnBareGround,
  strengthMm: number,
  { leastOnBare, accounted: [least, most] }: Options,
): boolean => standsMm >= leastOnBare * strengthMm && ownMm >= least * standsMm && ownMm <= most * standsMm;

/** Whether a line keeps along the edge, in the outer part of the face: the foot of a wall or a lip, which one face has elsewhere. */
function keepsToEdge(
  { fromEdge, sizeMm, reference: { pitch } }: WearRelief,
  { cells, lengthMm }: Chain,
  { farInShare, leastInward }: Options,
): boolean {
  const depths = cells.map((i) => fromEdge[i] * pitch);
  const [least, most] = [quantile(depths, 0.05), quantile(depths, 0.95)];
  return most <= farInShare * sizeMm && most - least < leastInward * lengthMm;
}

/** What the carrier stands higher than the other face along the line, mm: the line's own height over its sides where these are as high on both. */
const standingOver = ({ difference }: WearRelief, { cells }: Chain, sign: 1 | -1): number =>
  sign * medianOf(Float64Array.from(cells, (i) => difference[i]));

/** How high the difference of two faces stands along the line, mm, and how far over what it is along parallels, in standard deviations of these. */
function overParallels(own: Contrasts, other: Contrasts, options: Options): { heightMm: number; sigmas: number } {
  const along = own.rows.map((row, s) => medianOf(row.map((value, k) => value - other.rows[s][k])));
  const parallels = along.filter(
    (value, s) => Math.abs(own.aside[s]) > options.fromBeside * own.besideMm && !Number.isNaN(value),
  );
  const heightMm = along[middleOf(along)];
  return { heightMm, sigmas: heightMm / (sigmaFromMad * median(parallels.map(Math.abs))) };
}

/** What two faces show, and what they differ by, along a course where the other of them is bare; medians, mm. */
interface OnBareGround {
  readonly ownMm: number;
  readonly otherMm: number;
  readonly standsMm: number;
}

/**
 * A line along a course that goes through the gaps between crests, at its places where the other face shows no form as high as `highMm`: there no design lies under it
 * or beside it, and what the carrier has is the line alone. Each place is taken where the two differ most within `asideMm`; NaN where it is bare hardly anywhere.
 */
function onBareGround(own: Contrasts, other: Contrasts, highMm: number, options: Options): OnBareGround {
  const within = (mm: number): number[] => [...own.aside.keys()].filter((s) => Math.abs(own.aside[s]) <= mm + 1e-6);
  const [near, beside] = [within(options.asideMm), within(own.besideMm)];
  const differs = (k: number, s: number): number => own.rows[s][k] - other.rows[s][k];
  const bare = [...own.rows[0].keys()].filter((k) => beside.every((s) => Math.abs(other.rows[s][k]) <= highMm));
  const at = bare.map((k) => near.reduce((best, s) => (differs(k, s) > differs(k, best) ? s : best)));
  const over = (value: (k: number, s: number) => number): number =>
    medianOf(Float64Array.from(bare, (k, n) => value(k, at[n])));
  return {
    ownMm: over((k, s) => own.rows[s][k]),
    otherMm: over((k, s) => other.rows[s][k]),
    standsMm: over(differs),
  };
}

/** Length of the crests about a line that are about as strong as it is, mm. */
function peersMm(
  { reference }: WearRelief,
  { cells, strengthMm }: Chain,
  { strength, along }: ReturnType<DifferenceCrests['strengths']>,
  { field, asStrong, peersFromMm, peersToMm }: Options,
): number {
  const { width, pitch } = reference;
  const elsewhere = new Uint8Array(strength.length).fill(1);
  for (const i of cells) elsewhere[i] = 0;
  const away = distanceTransform(elsewhere, width);
  const peers = crestCells(reference, strength, along, field.directions, () => asStrong * strengthMm);
  return pitch * peers.filter((i) => away[i] * pitch > peersFromMm && away[i] * pitch <= peersToMm).length;
}
