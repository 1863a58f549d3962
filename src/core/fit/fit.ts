import { type Face, finest, imageBox } from '../face/index.ts';
import {
  buildSurfaceIndex,
  countCells,
  invert,
  type Mesh,
  partOf,
  report,
  type Similarity,
  type SurfaceIndex,
  vertexNormals,
  type Watch,
} from '../geometry/index.ts';
import { describeFit } from './assessment.ts';
import { startByHand, withStart } from './byHand.ts';
import { pairingTarget } from './correspondenceGround.ts';
import { type IcpOptions, icp } from './icp.ts';
import { type ThreeModels, threeModels } from './models.ts';
import { facePoints, printedHeights } from './points.ts';
import { reverseFit } from './reverse.ts';
import { type Candidate, improvePlaces, type Searched, searchFits } from './search.ts';
import { liftPlanar } from './similarity3d.ts';
import type { Fit, FitStart } from './types.ts';
import { type PoseUncertainty, poseUncertainty } from './uncertainty.ts';

/** One side of a fit. */
export interface FitSide {
  readonly mesh: Mesh;
  readonly face: Face;
  /** Prepared once and shared with the comparison; built here where it is not given. */
  readonly index?: SurfaceIndex;
}

export const fitDefaults = {
  /** Points of the subject used for the first rounds and for the last. */
  coarsePoints: 4000,
  finePoints: 5000,
  /** Reach of a pair at the start and at the end, as shares of the reference's size. */
  reachStart: 0.04,
  reachEnd: 0.015,
  /** Margin of the reference's image that is left out, as a share of its size. */
  margin: 0.03,
  /** A reflection is believed when it is this many times as significant as the best rotation. */
  reflectionOver: 1.5,
};

/**
 * Lays the subject's face on the reference's without any guess: search, joint fit of similarity and smooth warp,
 * the three models, uncertainty, rivals. Where nothing agrees, `found` is false and the best attempt is still given.
 * With a `start` the surfaces are fitted from where a person put them, and the fit says so.
 */
export function fitFaces(reference: FitSide, subject: FitSide, watch: Watch = {}, start?: FitStart): Fit {
  const found = searchFaces(reference.face, subject.face, partOf(watch, 0, 0.5));
  const searched = start ? startByHand(reference.face, subject.face, found, start) : found;
  return fitSearched(reference, subject, searched, partOf(watch, 0.5, 1));
}

/** The first half of `fitFaces`: all turns, sizes and both ways of laying one face on the other. */
export function searchFaces(reference: Face, subject: Face, watch: Watch = {}, options = fitDefaults): Searched {
  const exchanged = !inOrder(reference, subject);
  const [a, b] = exchanged ? [subject, reference] : [reference, subject];
  const sizeMm = commonSize(a, b);
  const { proper, reflected, none } = searchFits(finest(a), finest(b), sizeMm, watch);
  // The most significant rotation, unless a reflection is far more so.
  const mirrored = (reflected[0]?.significance ?? 0) > options.reflectionOver * (proper[0]?.significance ?? 0);
  const [best = nowhere, ...rivals] = mirrored ? reflected : proper;
  return { best, rivals, mirrored, none, sizeMm, exchanged };
}

/** Where no place has enough of both faces on one another to be weighed. */
const nowhere: Candidate = {
  fit: { flipX: false, negate: false, turn: 0, scale: 1, tx: 0, ty: 0 },
  correlation: 0,
  cells: 0,
  overlap: 0,
  significance: 0,
};

/**
 * The same search on faces of which parts were left out since: its places improved and weighed anew on what is left.
 */
export function searchedAgain(reference: Face, subject: Face, searched: Searched): Searched {
  const [a, b] = searched.exchanged ? [subject, reference] : [reference, subject];
  const places = [searched.best, ...searched.rivals].map(({ fit }) => fit);
  const [best = nowhere, ...rivals] = improvePlaces(finest(a), finest(b), searched.sizeMm, places);
  return { ...searched, best, rivals };
}

/** Reference face ← subject face as the search leaves it. */
export function searchedMotion({ best, exchanged }: Searched): Similarity {
  const motion = liftPlanar(best.fit);
  return exchanged ? invert(motion) : motion;
}

/** The second half: fits the surfaces from where the search left them. */
export function fitSearched(reference: FitSide, subject: FitSide, searched: Searched, watch: Watch = {}): Fit {
  const [a, b] = searched.exchanged ? [subject, reference] : [reference, subject];
  const { models, uncertainty } = refine(a, b, searched, watch, fitDefaults);
  const fit = describeFit(a.face, b.face, searched, models, uncertainty);
  const inCallersOrder = searched.exchanged ? { ...reverseFit(fit, a.face, b.face), asFitted: fit } : fit;
  return withStart(inCallersOrder, reference.face, subject.face, searched.start);
}

/**
 * One order for every pair, so that exchanging the scans exchanges the answer and changes nothing else: the engraved
 * face is fitted to, since dies are whole and clean; of two of one sense the one with more relief on it.
 */
function inOrder(reference: Face, subject: Face): boolean {
  if (reference.sense !== subject.sense) return reference.sense === 'intaglio';
  const area = (face: Face): number => countCells(face.relief.mask) * face.relief.pitch ** 2;
  return area(reference) >= area(subject);
}

/** The size that the search scales its bands to: the shorter of the two images, since wax that passes for image is longer; but a fragment does not set the scale. */
export const commonSize = (a: Face, b: Face): number => {
  const [shorter, longer] = [imageBox(a).side, imageBox(b).side].sort((one, other) => one - other);
  return Math.max(shorter, 0.65 * longer);
};

interface Refined {
  readonly models: ThreeModels;
  readonly uncertainty: PoseUncertainty;
}

function refine(
  reference: FitSide,
  subject: FitSide,
  { best, sizeMm, mirrored }: Searched,
  watch: Watch,
  options: typeof fitDefaults,
): Refined {
  const index = reference.index ?? buildSurfaceIndex(reference.mesh, { normals: vertexNormals(reference.mesh) });
  const target = pairingTarget(index, reference.face, options.margin * sizeMm);
  const base: IcpOptions = {
    scale: true,
    warp: true,
    meeting: 'alongHeight',
    opposed: best.fit.negate,
    radiusMm: sizeMm / 2,
    reachMm: [options.reachStart * sizeMm, options.reachEnd * sizeMm],
    rounds: 24,
    floorMm: Math.max(0.003, Math.hypot(reference.face.noiseMm, subject.face.noiseMm)),
  };
  const printed = printedHeights(subject.face);
  const coarse = icp(target, facePoints(printed, options.coarsePoints), liftPlanar(best.fit), base);
  report(watch, 0.4, 'Fitting the surfaces');
  const points = facePoints(printed, options.finePoints);
  const near: IcpOptions = { ...base, meeting: 'closest', rounds: 8, reachMm: [base.reachMm[1], base.reachMm[1]] };
  const joint = icp(target, points, coarse.motion, near, coarse.bending);
  report(watch, 0.8, 'Weighing the three models');
  return { models: threeModels(target, points, joint, near, mirrored), uncertainty: poseUncertainty(joint, near) };
}
