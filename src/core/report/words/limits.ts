import type { Limit } from '../../judge/index.ts';
import { cautionLimitWords } from './descent.ts';
import { doubtWords, rivalTurnWords } from './doubts.ts';
import { strikeWords } from './strike.ts';

/** What bounds a finding, in sentences. */
export function limitWords(limit: Limit): string {
  switch (limit.code) {
    case 'leftOutByHand':
    case 'landmarksByHand':
    case 'startByHand':
      return byHandWords(limit);
    case 'scoreFor':
    case 'leastWithoutASector':
    case 'places':
    case 'outliers':
    case 'overLegendAnew':
    case 'overlap':
    case 'rivalTurns':
    case 'mirroredFile':
      return supportWords[limit.code];
    case 'statedAgainstFit':
      return 'The fit contradicts the stated kinds: a file is wound the wrong way or a kind is misstated; which of the two, is not known.';
    case 'struckTwice':
      return `${strikeWords(limit)} That looks like another matrix; nothing is spoken against on this ground.`;
    case 'twoMatrices':
      return 'Wear and marks are not listed: between two matrices every difference of the designs would read as one.';
    case 'size':
      return cautionLimitWords(limit);
    case 'smallerThanSeals':
      return 'The object is smaller than any seal: the thresholds of the finding were chosen on seals and coins.';
    case 'noFit':
      return 'No fit was found.';
    case 'coarse':
      return `The coarser scan has ${Math.round(limit.pointsAcross)} points across the face, and places are told no better than that: scan it finer, ${limit.finePoints} points or more.`;
    case 'calibration':
      return calibrationWords(limit);
    case 'copyPasses':
      return 'A faithful cast of a matrix can pass every test; where the matrix is itself a cast, its parent passes them too.';
    case 'notShown':
      return 'Scans do not show legal authenticity, who held the wax, a date or the alloy.';
    case 'absentMark':
      return 'A mark that is absent proves nothing where the wax was not filled, is lost or was not scanned.';
    case 'notSettled':
      return `${doubtWords(limit)} Depths and sizes lean on it; places of landmarks and cells less, since turn, shift and scale are taken out of them again.`;
    default:
      return doubtWords(limit);
  }
}

type Of<Code extends Limit['code']> = Extract<Limit, { readonly code: Code }>;

/** What a person put by hand. */
function byHandWords(limit: Of<'leftOutByHand' | 'landmarksByHand' | 'startByHand'>): string {
  if (limit.code === 'landmarksByHand') return `The ${limit.landmarks} landmarks were put by hand.`;
  if (limit.code === 'leftOutByHand') {
    const { why, by, areaMm2 } = limit;
    return `Left out of both faces by hand${by ? ` (${by})` : ''}: ${why || 'a region'}, ${areaMm2.toFixed(1)} mm²; nothing is said of it.`;
  }
  return limit.pairs === undefined
    ? `The fit began at a turn chosen by hand, ${(limit.turnDeg ?? 0).toFixed(1)}° from the one that the search prefers.`
    : `The fit began at ${limit.pairs} pairs of places marked by hand.`;
}

/** Why support was not given, threshold by threshold. */
const supportWords = {
  scoreFor: 'The places do not tell one matrix from a copy cut by hand or a stock motif.',
  leastWithoutASector: 'One part of the face carries the answer: without it the rest does not decide.',
  places: 'Too few places of letters and ornaments are seen on both.',
  outliers: 'Too many places lie nowhere near where the others put them: accidents, lips, or another legend.',
  overLegendAnew:
    'The motif lies in its places and the legend does not: it was cut anew on this matrix, or both motifs go back to one model.',
  overlap: 'Too little of the face is there to compare.',
  rivalTurns: rivalTurnWords,
  mirroredFile: 'Only a mirror image of the file fits: check how it was exported before anything is concluded.',
} as const;

const calibrationWords = ({ known }: Of<'calibration'>): string =>
  known
    ? `The likelihood ratio rests on ${known.same} pairs of one matrix and ${known.different} of different ones (${known.name}) and says nothing beyond their kind.`
    : 'The thresholds were chosen on simulated seals and casts of two coins, not on real seals and their impressions; without known pairs of your own no likelihood ratio is printed.';
