import type { Fit } from '../fit/index.ts';

import { type GateCode, type PairEvidence, strengthDefaults } from './gates.ts';
import type { Question } from './question.ts';
import type { Constellation, Finding, Gate, Limit, Strength } from './types.ts';

export interface Conclusion {
  readonly finding: Finding;
  readonly strength: Strength;
  readonly sentence: string;
  /** What kept the finding from going further; empty where nothing did. */
  readonly reasons: readonly Limit[];
}

/** From so many points across the face on, places are told well enough to part a copy of 60 µm from its original. */
export const finePoints = 150;

const coarseLimit = ({ pointsAcross }: { pointsAcross: number }): Limit => ({
  code: 'coarse',
  words: `The coarser scan has ${Math.round(pointsAcross)} points across the face, and places are told no better than that: scan it finer, ${finePoints} points or more.`,
});

/** The finding of the gates in words: the plain answer, its strength, over which rival, and the ground that decided. */
export function conclude(
  fit: Fit,
  { finding, gates, weighed, places }: PairEvidence,
  constellation: Constellation | null,
  question: Question,
): Conclusion {
  const strength = strengthOf(finding, weighed?.score ?? 0, gates);
  const ground = constellation && places ? groundOf(constellation, places.tiles) : '';
  const coarse = places !== null && finding === 'undecided' && places.pointsAcross < finePoints;
  const reasons = finding === 'undecided' ? [...reasonsOf(fit, gates), ...(coarse ? [coarseLimit(places)] : [])] : [];
  return { finding, strength, reasons, sentence: sentenceOf(finding, strength, fit, question, ground) };
}

function sentenceOf(finding: Finding, strength: Strength, fit: Fit, question: Question, ground: string): string {
  const { claim, rival, plain } = question;
  if (finding === 'supported')
    return `${plain}. The evidence supports (${strength}) that ${claim}, over ${rival}: ${ground}.`;
  if (finding === 'against')
    return `Another matrix. The evidence speaks (${strength}) for ${rival}, over the claim that ${claim}: ${ground}.`;
  if (finding === 'otherDesign')
    return `Another design (${strength}). Both faces are clear enough that one design would have been found on the two, and nothing corresponds; they may still be two sides of one seal.`;
  if (!fit.found)
    return `Not decided. No way was found to lay the two faces on one another, so the claim that ${claim} has no support; two unrelated seals look like this, and so does a pair too worn or too broken to compare.`;
  return `Not decided. The evidence does not decide between the claim that ${claim} and ${rival}: ${ground || 'too few places are seen on both'}.`;
}

/** Steps of the score; for another design, of how far a common design would have stood above what was asked. */
function strengthOf(finding: Finding, score: number, gates: readonly Gate[]): Strength {
  if (finding === 'undecided') return 'none';
  const { moderate, strong, clearModerate, clearStrong } = strengthDefaults;
  const clear = gates.find(({ group, code }) => group === 'otherDesign' && code === 'clear');
  const [size, middle, most] =
    finding === 'otherDesign' && clear
      ? [clear.value / clear.limit, clearModerate, clearStrong]
      : [Math.abs(score), moderate, strong];
  return size >= most ? 'strong' : size >= middle ? 'moderate' : 'weak';
}

const micrometres = (mm: number): string => `${Math.round(mm * 1000)} µm`;

/** The counts behind the sentence; a half of the places lies within the median. */
function groundOf(
  { landmarks, outside, smoothMm, unseen }: Constellation,
  cells: { compared: number; congruent: number },
): string {
  const congruent = `${cells.congruent} of ${cells.compared} cells of the face are congruent`;
  if (landmarks.length === 0) return `${congruent}; too few places of letters and ornaments are seen on both`;
  const off = Math.round(outside * landmarks.length);
  const missing = unseen.length > 0 ? `; ${unseen.length} more have nothing that corresponds` : '';
  return `of ${landmarks.length} places of letters and ornaments half lie within ${micrometres(smoothMm)} of where the others put them, ${off} of them outside their error ellipses${missing}; ${congruent}`;
}

/** Why support was not given, gate by gate. */
const supportReasons: Partial<Record<GateCode, string>> = {
  scoreFor: 'The places do not tell one matrix from a copy cut by hand or a stock motif.',
  leastWithoutASector: 'One part of the face carries the answer: without it the rest does not decide.',
  places: 'Too few places of letters and ornaments are seen on both.',
  outliers: 'Too many places lie nowhere near where the others put them: accidents, lips, or another legend.',
  overlap: 'Too little of the face is there to compare.',
  rivalTurns: 'Another turn of the subject fits nearly as well.',
  mirroredFile: 'Only a mirror image of the file fits: check how it was exported before anything is concluded.',
};

const reasonsOf = (fit: Fit, gates: readonly Gate[]): Limit[] => {
  if (!fit.found) return [{ code: 'noFit', words: 'No fit was found.' }];
  return gates.flatMap(({ group, code, passed }) => {
    const words = supportReasons[code];
    return group === 'support' && !passed && words ? [{ code, words }] : [];
  });
};
