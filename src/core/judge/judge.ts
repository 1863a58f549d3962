import type { Difference } from '../compare/index.ts';
import { judgeSurfaces, ofTwoDies, stateOfTwoMatrices } from '../condition/index.ts';
import { type Face, longSide } from '../face/index.ts';
import type { Fit } from '../fit/index.ts';
import { report, type Watch } from '../geometry/index.ts';
import { type KnownScores, log10LikelihoodRatio } from './calibration.ts';
import { descentOf } from './descent.ts';
import { type Features, featuresOf } from './features.ts';
import { conclude } from './finding.ts';
import { gatesOf } from './gates.ts';
import { evidenceOf, hypothesesOf, sharedAccidents } from './hypotheses.ts';
import type { Landmark } from './landmarks.ts';
import { limitsOf } from './limits.ts';
import { questionOf } from './question.ts';
import { scoreOf } from './score.ts';
import type { Judgement } from './types.ts';

/** Where the score's figures come from; printed in every record. */
export const calibrationName = 'simulated pairs, scale 1';

/**
 * Weighs the differences: cells, correlations, wear, marks, and the finding in words with its limits.
 * The claim depends on which of the two are negatives (see `questionOf`). With the user's own known pairs a likelihood
 * ratio is given beside the words. `landmarks`: put or corrected by hand, on the reference's face, mm.
 */
export function judge(
  reference: { readonly face: Face },
  subject: { readonly face: Face },
  fit: Fit,
  difference: Difference | null,
  watch: Watch = {},
  known?: KnownScores,
  landmarks?: readonly Landmark[],
): Judgement {
  const question = questionOf(reference.face.sense, subject.face.sense);
  const sizeMm = longSide(reference.face);
  const features = fit.found ? featuresOf(reference.face, subject.face, fit, landmarks) : null;
  report(watch, 0.5, 'Looking for marks and wear');
  const scored = features ? scoreOf(features) : null;
  const score = scored?.score ?? 0;
  const surfaces = judgeSurfaces(reference.face, subject.face, fit);
  const strike = surfaces.secondStrike;
  const conclusion = conclude(fit, features, score, question, strike !== null);
  const apart = conclusion.finding === 'against';
  const { wear, marks } = apart ? ofTwoDies : surfaces;
  const bands = surfaces.wear.byWavelength;
  const descent = descentOf(reference.face.sense, subject.face.sense, difference?.size, bands);
  return {
    ...numbersOf(features),
    score,
    scoredAgainst: scored && { rival: scored.rival, offset: scored.offset },
    constellation: features?.constellation ?? null,
    evidence:
      features && scored
        ? [...evidenceOf(fit, scored.parts, features.bands), ...descent.evidence, ...sharedAccidents(marks)]
        : [],
    gates: gatesOf(fit, features, score, strike !== null),
    hypotheses: hypothesesOf(
      conclusion,
      fit,
      descent.words,
      features && known ? log10LikelihoodRatio(score, known) : null,
    ),
    state: apart ? stateOfTwoMatrices : surfaces.state,
    finding: conclusion.finding,
    strength: conclusion.strength,
    sentence:
      conclusion.finding === 'supported' && descent.caution
        ? `${conclusion.sentence} ${descent.caution.sentence}`
        : conclusion.sentence,
    limits: [
      ...(strike ? [`${strike.words} That looks like another die; nothing is spoken against on this ground.`] : []),
      ...(apart
        ? ['Wear and marks are not listed: between two dies every difference of the designs would read as one.']
        : []),
      ...limitsOf(fit, conclusion, sizeMm, known, descent.caution?.limit),
    ],
    secondStrike: strike,
    wear,
    damage: marks,
    surfaces: fit.found && !apart ? surfaces : null,
    calibration: known ? `${calibrationName}; ${known.name}` : calibrationName,
  };
}

function numbersOf(features: Features | null): Pick<Judgement, 'correlation' | 'topographyDifference' | 'cells'> {
  if (!features)
    return { correlation: 0, topographyDifference: Number.NaN, cells: { compared: 0, congruent: 0, cells: [] } };
  const { correlation, topographyDifference } = features.agreement;
  return { correlation, topographyDifference, cells: features.cells };
}
