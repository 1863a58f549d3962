import type { Face } from '../face/index.ts';
import { compose, countCells, invert, type Similarity } from '../geometry/index.ts';
import { chanceOf } from './chance.ts';
import type { FaceModel, ThreeModels } from './models.ts';
import type { Candidate, Searched } from './search.ts';
import { turnBetweenDeg } from './similarity2d.ts';
import { liftPlanar } from './similarity3d.ts';
import type { Doubt, Fit, FitModel, ModelName, RivalTurn } from './types.ts';
import type { PoseUncertainty } from './uncertainty.ts';

export const judgeFitDefaults = {
  /** log₁₀ of the chance, over this pair's own search, that faces which cannot agree do as well: docs/fit.md. */
  mostLog10Chance: -4,
  /** The best place must stand so far above the best reflection: rings and borders agree either way. */
  overMirror: 1.15,
  /** A rival turn is listed from this share of the best one's significance, and is a doubt from the second. */
  rivalListed: 0.4,
  rivalDoubt: 0.75,
  /**
   * Borders alone agree in several turns: with a rival this close, less correlation than the second is no fit.
   */
  rivalEqual: 0.9,
  aloneCorrelation: 0.45,
  /** Doubt below this overlap of the smaller face, and outside these size ratios. */
  leastOverlap: 0.4,
  scales: [0.9, 1.1] as const,
  /** The warp is chosen when it lowers the residuals of unseen blocks to this share of the one-scale model's. */
  warpGain: 0.9,
  /** Residuals, mm, and growth too small to be a ground for a freer model: a scan fits itself rigidly. */
  negligibleMm: 0.001,
  negligibleGrowth: 1e-4,
};

/** The outcome of a fit in the codes and numbers of the contract; chooses the model. */
export function describeFit(
  reference: Face,
  subject: Face,
  { best, rivals, mirrored, none }: Pick<Searched, 'best' | 'rivals' | 'mirrored' | 'none'>,
  models: ThreeModels,
  uncertainty: PoseUncertainty,
  options = judgeFitDefaults,
): Fit {
  const listed = rivals.filter((rival) => rival.significance > options.rivalListed * best.significance);
  const overlap = overlapOf(reference, subject, models);
  const doubts = doubtsOf(best, listed, overlap, models, uncertainty, options);
  const equalRival = listed.some((rival) => rival.significance > options.rivalEqual * best.significance);
  const chance = chanceOf(best.significance, none.wrongSign, none.mirror);
  const enough =
    chance.log10P <= options.mostLog10Chance &&
    (mirrored || best.significance >= options.overMirror * chance.mirror) &&
    !(equalRival && best.correlation < options.aloneCorrelation);
  const settled = Number.isFinite(models.oneScale.motion.scale);
  return {
    found: enough && settled,
    doubts: enough ? doubts : [{ code: 'noBetterThanUnrelated' }, ...doubts],
    chosen: chooseModel(models, uncertainty, options),
    turnedOver: best.fit.negate,
    mirrored,
    overlap,
    score: best.correlation,
    rivalScore: listed[0]?.correlation ?? 0,
    significance: best.significance,
    chance,
    models: (['rigid', 'oneScale', 'smoothWarp'] as const).map((name) =>
      describeModel(name, models[name], reference, subject, uncertainty, models),
    ),
    rotationSdDeg: uncertainty.rotationSdDeg,
    translationSdMm: uncertainty.translationSdMm,
    covariance: uncertainty.covariance,
    degenerate: uncertainty.degenerate,
    rivalTurns: listed.map(
      (rival): RivalTurn => ({
        turnDeg: turnBetweenDeg(rival.fit, best.fit),
        score: rival.correlation,
        referenceFromSubject: betweenScans(reference, subject, liftPlanar(rival.fit)),
      }),
    ),
  };
}

/** Share of the smaller image's area that met the other and kept weight. */
function overlapOf(reference: Face, subject: Face, { joint, oneScale }: ThreeModels): number {
  const area = ({ image }: Face): number => countCells(image.mask) * image.pitch ** 2;
  const subjectArea = area(subject) * oneScale.motion.scale ** 2;
  return Math.min(1, (joint.inlierShare * subjectArea) / Math.min(area(reference), subjectArea));
}

function doubtsOf(
  best: Candidate,
  rivals: readonly Candidate[],
  overlap: number,
  models: ThreeModels,
  uncertainty: PoseUncertainty,
  options: typeof judgeFitDefaults,
): Doubt[] {
  const doubts: Doubt[] = [];
  if (rivals.some((rival) => rival.significance > options.rivalDoubt * best.significance))
    doubts.push({ code: 'rivalTurn' });
  if (overlap < options.leastOverlap) doubts.push({ code: 'littleOverlap', leastShare: options.leastOverlap });
  const { scale } = models.oneScale.motion;
  if (!Number.isFinite(scale)) doubts.push({ code: 'tooCoarse' });
  else if (!models.joint.converged) doubts.push({ code: 'notSettled' });
  const [leastScale, mostScale] = options.scales;
  if (scale < leastScale || scale > mostScale) doubts.push({ code: 'sizeOutOfRange', leastScale, mostScale });
  if (uncertainty.degenerate.length > 0) doubts.push({ code: 'hardlyResists', motions: uncertainty.degenerate });
  return doubts;
}

/** The simplest model that unseen blocks of the face do not speak against. */
export function chooseModel(
  models: ThreeModels,
  { scaleSd }: PoseUncertainty,
  options: typeof judgeFitDefaults,
): ModelName {
  const [rigid, oneScale, smoothWarp] = [models.rigid, models.oneScale, models.smoothWarp].map(({ heldOutRmsMm }) =>
    Math.hypot(heldOutRmsMm, options.negligibleMm),
  );
  if (smoothWarp < options.warpGain * oneScale) return 'smoothWarp';
  const growth = Math.abs(Math.log(models.oneScale.motion.scale));
  const grown = growth > Math.max(3 * scaleSd, options.negligibleGrowth);
  return grown || oneScale < 0.98 * rigid ? 'oneScale' : 'rigid';
}

/** Reference scan ← subject scan of a motion between the faces. */
const betweenScans = (reference: Face, subject: Face, motion: Similarity): Similarity =>
  compose(compose(invert(reference.faceFromScan), motion), subject.faceFromScan);

function describeModel(
  model: ModelName,
  found: FaceModel,
  reference: Face,
  subject: Face,
  uncertainty: PoseUncertainty,
  models: ThreeModels,
): FitModel {
  return {
    model,
    referenceFromSubject: betweenScans(reference, subject, found.motion),
    ...(found.warp && { warp: found.warp, warpRmsMm: models.smoothWarp.warpRmsMm }),
    scale: found.motion.scale,
    scaleSd: model === 'rigid' ? 0 : uncertainty.scaleSd * found.motion.scale,
    rmsMm: found.rmsMm,
    heldOutRmsMm: found.heldOutRmsMm,
  };
}
