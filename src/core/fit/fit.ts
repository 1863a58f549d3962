import type { Face } from '../face/index.ts';
import {
  buildSurfaceIndex,
  type Mesh,
  partOf,
  report,
  type SurfaceIndex,
  vertexNormals,
  type Watch,
} from '../geometry/index.ts';
import { describeFit } from './describe.ts';
import { type IcpOptions, icp } from './icp.ts';
import { liftPlanar } from './lift.ts';
import { pairingTarget } from './meeting.ts';
import { type ThreeModels, threeModels } from './models.ts';
import { facePoints } from './points.ts';
import { type Candidate, searchFits } from './search.ts';
import type { Fit } from './types.ts';
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
  /** Margin of the reference's face that is left out, as a share of its size. */
  margin: 0.03,
  /** A reflection is believed when it is this many times as significant as the best rotation. */
  reflectionOver: 1.5,
};

/**
 * Lays the subject's face on the reference's without any guess: search, joint fit of similarity and smooth warp,
 * the three models, uncertainty, rivals. Where nothing agrees, `found` is false and the best attempt is still given.
 */
export function fitFaces(reference: FitSide, subject: FitSide, watch: Watch = {}, options = fitDefaults): Fit {
  const sizeMm = Math.max(reference.face.outline.widthMm, reference.face.outline.heightMm);
  const searched = searchFits(reference.face.detail, subject.face.detail, sizeMm, partOf(watch, 0, 0.5));
  const { best, rivals, mirrored } = chooseWay(searched.proper, searched.reflected, options.reflectionOver);
  report(watch, 0.5, 'Fitting the surfaces');
  const refined = refine(reference, subject, best, sizeMm, mirrored, partOf(watch, 0.5, 1), options);
  return describeFit(reference.face, subject.face, best, rivals, mirrored, refined.models, refined.uncertainty);
}

/** The most significant rotation, unless a reflection is far more so. */
function chooseWay(proper: readonly Candidate[], reflected: readonly Candidate[], over: number) {
  const mirrored = (reflected[0]?.significance ?? 0) > over * (proper[0]?.significance ?? 0);
  const [best, ...rivals] = mirrored ? reflected : proper;
  return { best, rivals, mirrored };
}

interface Refined {
  readonly models: ThreeModels;
  readonly uncertainty: PoseUncertainty;
}

function refine(
  reference: FitSide,
  subject: FitSide,
  best: Candidate,
  sizeMm: number,
  mirrored: boolean,
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
  const coarse = icp(target, facePoints(subject.face.relief, options.coarsePoints), liftPlanar(best.fit), base);
  report(watch, 0.4, 'Fitting the surfaces');
  const points = facePoints(subject.face.relief, options.finePoints);
  const near: IcpOptions = { ...base, meeting: 'closest', rounds: 8, reachMm: [base.reachMm[1], base.reachMm[1]] };
  const joint = icp(target, points, coarse.motion, near, coarse.bending);
  report(watch, 0.8, 'Weighing the three models');
  return { models: threeModels(target, points, joint, near, mirrored), uncertainty: poseUncertainty(joint, near) };
}
