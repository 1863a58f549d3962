import type { Fit } from '../fit/index.ts';
import type { Features } from './features.ts';
import type { Question } from './question.ts';
import type { Finding, Strength } from './types.ts';

export const findingDefaults = {
  /** Score from which the claim is supported, and below which the evidence is against it: local flow of the wax can look like a copy. */
  support: 0.8,
  against: -2,
  /** Strength on the printed scale: weak below the first, moderate below the second, strong above. */
  moderate: 1.6,
  strong: 2.6,
  /** A scatter below this is no ground against, nor one below this share of the coarser scan's point spacing. */
  leastScatterMm: 0.1,
  leastScatterSpacing: 0.3,
  /** No support on fewer compared cells, or with less of the legend's part of the face congruent. */
  leastCells: 8,
  leastOuterShare: 0.55,
  leastOuterCompared: 4,
  /** No verdict on less of the smaller face. */
  leastOverlap: 0.3,
};

export interface Conclusion {
  readonly finding: Finding;
  readonly strength: Strength;
  readonly sentence: string;
  /** What kept the finding from going further; empty where nothing did. */
  readonly reasons: readonly string[];
}

/** From the score to a finding in words, with what stands in its way. */
export function conclude(
  fit: Fit,
  features: Features | null,
  score: number,
  question: Question,
  options = findingDefaults,
): Conclusion {
  if (!fit.found || !features) return nothingFitted(question);
  const reasons = obstacles(fit, features, options);
  if (score >= options.support && reasons.length === 0)
    return {
      finding: 'supported',
      strength: score >= options.strong ? 'strong' : score >= options.moderate ? 'moderate' : 'weak',
      sentence: `The evidence supports that ${question.claim}, over ${question.rival}: ${ground(features)}.`,
      reasons,
    };
  if (score <= options.against && canSpeakAgainst(fit, features, options))
    return {
      finding: 'against',
      strength: score <= -options.strong ? 'strong' : score <= -options.moderate ? 'moderate' : 'weak',
      sentence: `The evidence speaks for ${question.rival}, over the claim that ${question.claim}: ${ground(features)}.`,
      reasons,
    };
  return {
    finding: 'undecided',
    strength: 'none',
    sentence: `The evidence does not decide between the claim that ${question.claim} and ${question.rival}: ${ground(features)}.`,
    reasons,
  };
}

/**
 * Against needs enough face, one clear turn, and a ground that worn or coarsely scanned wax does not give: cells too far
 * apart, or another legend.
 */
function canSpeakAgainst(fit: Fit, features: Features, options: typeof findingDefaults): boolean {
  const enough = features.cells.compared >= options.leastCells && fit.overlap >= options.leastOverlap;
  const apart =
    features.scatterMm >= Math.max(options.leastScatterMm, options.leastScatterSpacing * features.spacingMm);
  const otherLegend = features.outerCompared >= options.leastOuterCompared && features.outerShare < 0.5;
  return enough && !hasRivalTurn(fit) && (apart || otherLegend);
}

const hasRivalTurn = (fit: Fit): boolean => fit.doubts.some((doubt) => doubt.startsWith('Another turn'));

function nothingFitted(question: Question): Conclusion {
  return {
    finding: 'undecided',
    strength: 'none',
    sentence: `No way was found to lay the two faces on one another, so the claim that ${question.claim} has no support; two unrelated seals look like this, and so does a pair too worn or too broken to compare.`,
    reasons: ['No fit was found.'],
  };
}

function ground({ cells, scatterMm }: Features): string {
  const micrometres = Math.round(scatterMm * 1000);
  return `${cells.congruent} of ${cells.compared} cells of the face are congruent, their places scattered by ${micrometres} µm after one smooth fit`;
}

function obstacles(fit: Fit, features: Features, options: typeof findingDefaults): string[] {
  const reasons: string[] = [];
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
