import type { Difference } from '../compare/index.ts';
import {
  judgeSurfaces,
  ofTwoDies,
  type StateReading,
  secondStrikeOf,
  stateOfTwoMatrices,
  stateOfUndecided,
  type WearAndDamage,
} from '../condition/index.ts';
import { type Face, imageBox } from '../face/index.ts';
import { type Fit, reverseFit } from '../fit/index.ts';
import { report, type Watch } from '../geometry/index.ts';
import { askedOf } from './asked.ts';
import { type KnownScores, log10LikelihoodRatio } from './calibration.ts';
import { constellationOf } from './constellation.ts';
import { descentOf, saysDescent } from './descent.ts';
import { conclude } from './finding.ts';
import { hangsOnStrike, type PairEvidence, pairEvidence, withStrike } from './gates.ts';
import { evidenceOf, hypothesesOf, sharedAccidents } from './hypotheses.ts';
import { imageSizes, type OwnImages, ownImages } from './imageSizes.ts';
import type { Landmark } from './landmarks.ts';
import { limitsOf } from './limits.ts';
import { claimOf } from './question.ts';
import { rolesKnown, sizeUnderRoles } from './sizeUnderRoles.ts';
import type { Judgement } from './types.ts';

/** Where the score's figures come from; printed in every record. */
export const calibrationName = 'places under one matrix and under its rivals, scale 2';

/** What of a judgement may be made before, or elsewhere and at the same time: neither needs the other. */
export interface JudgedParts {
  readonly surfaces: WearAndDamage;
  readonly places: PairEvidence;
  readonly images: OwnImages;
}

/** Size of each image by its own edge, which hangs on nothing but the faces and who is asked of what. */
export const ownImagesOf = (reference: Face, subject: Face, fit: Fit): OwnImages =>
  ownImages(reference, subject, askedOf(reference, subject, fit));

/** The places of letters and ornaments weighed, before it is known whether the subject was struck twice. */
export const weighPlaces = (reference: Face, subject: Face, fit: Fit, landmarks?: readonly Landmark[]): PairEvidence =>
  pairEvidence(reference, subject, fit, false, landmarks);

/**
 * Weighs the differences: cells, correlations, wear, marks, and the finding with its limits.
 * The claim depends on which of the two are negatives (see `askedOf`). With the user's own known pairs a likelihood
 * ratio is given beside them. `landmarks`: put or corrected by hand, on the reference's face, mm. `ready`: what was
 * made before.
 */
export function judge(
  reference: { readonly face: Face },
  subject: { readonly face: Face },
  fit: Fit,
  difference: Difference | null,
  watch: Watch = {},
  known?: KnownScores,
  landmarks?: readonly Landmark[],
  ready?: Partial<JudgedParts>,
): Judgement {
  report(watch, 0.1, 'Looking for marks and wear');
  const surfaces = ready?.surfaces ?? judgeSurfaces(reference.face, subject.face, fit);
  report(watch, 0.6, 'Weighing the places of letters and ornaments');
  const asked = askedOf(reference.face, subject.face, fit);
  const unstruck = ready?.places ?? weighPlaces(reference.face, subject.face, fit, landmarks);
  const struck = withStrike(unstruck, surfaces.secondStrike !== null);
  const evidence = struckTwiceEitherWay(reference.face, subject.face, fit, struck);
  const { places, weighed, gates } = evidence;
  const constellation = places && constellationOf(places, weighed);
  const conclusion = conclude(fit, evidence, constellation);
  const apart = conclusion.finding === 'against' || conclusion.finding === 'otherDesign';
  const { wear, marks } = apart ? ofTwoDies : surfaces;
  // Beside another matrix the relief that seems to show twice is that matrix's own.
  const strike = apart ? null : surfaces.secondStrike;
  const [a, b] = asked.senses ?? [reference.face.sense, subject.face.sense];
  const common = { losses: surfaces.lossesInCommon, edge: surfaces.edgeInCommon };
  const roles = rolesKnown(asked);
  const size = difference && sizeUnderRoles(difference.size, roles);
  const descent = descentOf(a, b, size ?? undefined, surfaces.wear.byWavelength, common, roles);
  const score = weighed?.score ?? 0;
  const own = ready?.images ?? ownImages(reference.face, subject.face, asked);
  return {
    correlation: places?.agreement.correlation ?? 0,
    topographyDifference: places?.agreement.topographyDifference ?? Number.NaN,
    cells: places?.tiles ?? { compared: 0, congruent: 0, cells: [] },
    question: asked.question,
    rolesConfidence: asked.confidence,
    images: imageSizes(own, fit, asked, conclusion.finding),
    statedAgainstFit: asked.statedAgainstFit,
    score,
    interval: weighed?.interval ?? null,
    constellation,
    evidence: fit.found ? [...evidenceOf(fit, evidence), ...descent.evidence, ...sharedAccidents(marks)] : [],
    gates,
    hypotheses: hypothesesOf(
      conclusion,
      fit,
      descent.verdict,
      weighed && known ? log10LikelihoodRatio(score, known) : null,
    ),
    state: stateUnder(conclusion.finding, surfaces.state),
    finding: conclusion.finding,
    strength: conclusion.strength,
    claim: claimOf(asked),
    counted: conclusion.counted,
    caution: conclusion.finding === 'supported' ? descent.caution : null,
    descent: saysDescent(conclusion.finding, descent) ? descent.code : null,
    descentBy: descent.by,
    limits: [
      ...(asked.statedAgainstFit ? [{ code: 'statedAgainstFit' as const }] : []),
      ...(strike ? [{ code: 'struckTwice' as const, ...strike }] : []),
      ...(apart ? [{ code: 'twoMatrices' as const }] : []),
      ...limitsOf(fit, conclusion, imageBox(reference.face).side, known, descent.caution),
    ],
    secondStrike: strike,
    wear,
    damage: marks,
    surfaces: fit.found && !apart ? surfaces : null,
    calibration: known ? `${calibrationName}; ${known.name}` : calibrationName,
  };
}

/** States are those of one matrix: an order is told where the finding supports that both are of one, and nowhere else. */
export function stateUnder(finding: Judgement['finding'], read: StateReading): StateReading {
  if (finding === 'supported' || read.reason.code === 'noFit') return read;
  return finding === 'undecided' ? stateOfUndecided(read) : stateOfTwoMatrices;
}

/** What the places of letters and ornaments alone decide. */
export type WeighedFinding = Pick<Judgement, 'finding' | 'question' | 'strength' | 'score' | 'constellation'>;

/** The finding of `judge` by its places, without a look at the surfaces; null where it hangs on whether a second blow is seen there. */
export function weighedFinding(
  reference: Face,
  subject: Face,
  fit: Fit,
  evidence: PairEvidence,
): WeighedFinding | null {
  if (hangsOnStrike(evidence)) return null;
  const { places, weighed } = evidence;
  const constellation = places && constellationOf(places, weighed);
  const { finding, strength } = conclude(fit, evidence, constellation);
  const { question } = askedOf(reference, subject, fit);
  return { finding, strength, question, score: weighed?.score ?? 0, constellation };
}

/**
 * The blow is looked for on the caller's subject, where that was pressed. Where the answer hangs on it both orders of two files answer alike: of a
 * negative and a positive it is looked for on the positive, of two positives in the order that the fit was made in.
 */
function struckTwiceEitherWay(reference: Face, subject: Face, fit: Fit, evidence: PairEvidence): PairEvidence {
  const onReference = reference.sense === subject.sense ? fit.asFitted !== undefined : subject.sense === 'intaglio';
  if (!onReference || !hangsOnStrike(evidence)) return evidence;
  const back = fit.asFitted ?? reverseFit(fit, reference, subject);
  return withStrike(evidence, secondStrikeOf(subject, reference, { ...back, found: fit.found }) !== null);
}
