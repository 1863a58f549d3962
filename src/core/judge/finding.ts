import type { Fit } from '../fit/index.ts';
import type { Features } from './features.ts';
import { gatesOf, speaksAgainst } from './gates.ts';
import type { Question } from './question.ts';
import { findingDefaults, hasRivalTurn, pointsAcross } from './thresholds.ts';
import type { Finding, Strength } from './types.ts';

export interface Conclusion {
  readonly finding: Finding;
  readonly strength: Strength;
  readonly sentence: string;
  /** What kept the finding from going further; empty where nothing did. */
  readonly reasons: readonly string[];
}

/**
 * From the score to a finding in words, with what stands in its way. `struckTwice`: the subject shows its relief a second
 * time, by a slip or a second strike, which looks like another die: nothing is then spoken against.
 */
export function conclude(
  fit: Fit,
  features: Features | null,
  score: number,
  question: Question,
  struckTwice = false,
  options = findingDefaults,
): Conclusion {
  if (!fit.found || !features) return nothingFitted(question);
  const reasons = obstacles(fit, features, score, options);
  if (score >= options.support && reasons.length === 0)
    return {
      finding: 'supported',
      strength: score >= options.strong ? 'strong' : score >= options.moderate ? 'moderate' : 'weak',
      sentence: `The evidence supports that ${question.claim}, over ${question.rival}: ${ground(features)}.`,
      reasons,
    };
  if (speaksAgainst(gatesOf(fit, features, score, struckTwice, options)))
    return {
      finding: 'against',
      strength: score <= -options.strong ? 'strong' : score <= -options.moderate ? 'moderate' : 'weak',
      sentence: `The evidence speaks for ${question.rival}, over the claim that ${question.claim}: ${groundAgainst(features)}.`,
      reasons,
    };
  return {
    finding: 'undecided',
    strength: 'none',
    sentence: `The evidence does not decide between the claim that ${question.claim} and ${question.rival}: ${ground(features)}.`,
    reasons,
  };
}

function nothingFitted(question: Question): Conclusion {
  return {
    finding: 'undecided',
    strength: 'none',
    sentence: `No way was found to lay the two faces on one another, so the claim that ${question.claim} has no support; two unrelated seals look like this, and so does a pair too worn or too broken to compare.`,
    reasons: ['No fit was found.'],
  };
}

const micrometres = (mm: number): string => `${Math.round(mm * 1000)} µm`;

/** The counts behind the sentence; a half of the landmarks lies within the median. */
function ground({ cells, constellation }: Features): string {
  const { landmarks, outside, smoothMm } = constellation;
  const congruent = `${cells.congruent} of ${cells.compared} cells of the face are congruent`;
  if (landmarks.length === 0) return `${congruent}; too few landmarks are seen on both to compare their places`;
  const off = Math.round(outside * landmarks.length);
  return `${congruent}, and of ${landmarks.length} landmarks half lie within ${micrometres(smoothMm)} of where the others put them, ${off} of them outside their error ellipses`;
}

/** The same counts from the other side, so that what agrees is not read as the ground against. */
function groundAgainst({ cells, constellation }: Features): string {
  const { landmarks, outside, smoothMm } = constellation;
  const apart = `${cells.compared - cells.congruent} of ${cells.compared} cells of the face are not congruent`;
  if (landmarks.length === 0) return `${apart}; too few landmarks are seen on both to compare their places`;
  const off = Math.round(outside * landmarks.length);
  return `of ${landmarks.length} landmarks half lie ${micrometres(smoothMm)} or more from where the others put them, ${off} of them outside their error ellipses, and ${apart}`;
}

function obstacles(fit: Fit, features: Features, score: number, options: typeof findingDefaults): string[] {
  const reasons: string[] = [];
  const points = pointsAcross(features);
  if (points < options.leastPoints && score < options.moderate)
    reasons.push(
      `The coarser scan has ${points} points across the face; a copy is told from its original from about ${options.leastPoints}: scan it finer.`,
    );
  if (features.cells.compared < options.leastCells) reasons.push('Too few cells of the face carry relief on both.');
  if (fit.overlap < options.leastOverlap) reasons.push('Too little of the face is there to compare.');
  if (features.outerCompared < options.leastOuterCompared)
    reasons.push(
      'The outer part of the face, where a legend stands, can hardly be compared; stock motifs were cut with many legends.',
    );
  else if (features.outerShare < options.leastOuterShare)
    reasons.push(
      'The outer part of the face, where a legend stands, agrees less than the rest: a stock motif with another legend looks like this.',
    );
  if (hasRivalTurn(fit)) reasons.push('Another turn of the subject fits nearly as well.');
  if (fit.mirrored)
    reasons.push('Only a mirror image of the file fits: check how it was exported before anything is concluded.');
  return reasons;
}
