import type { Doubt, Fit } from '../fit/index.ts';
import type { KnownScores } from './calibration.ts';
import type { Conclusion } from './finding.ts';
import type { Limit } from './types.ts';

/** What every comparison carries, whatever it found. */
const always: readonly Limit[] = [
  {
    code: 'copyPasses',
    words:
      'A faithful cast of a matrix can pass every test; where the matrix is itself a cast, its parent passes them too.',
  },
  {
    code: 'notShown',
    words: 'Scans do not show legal authenticity, who held the wax, a date or the alloy.',
  },
  {
    code: 'absentMark',
    words: 'A mark that is absent proves nothing where the wax was not filled, is lost or was not scanned.',
  },
];

/** What a doubt about the fit leaves of a finding. */
const inFull = ({ code, words }: Doubt): Limit =>
  code === 'notSettled'
    ? {
        code,
        words: `${words} Depths and sizes lean on it; places of landmarks and cells less, since turn, shift and scale are taken out of them again.`,
      }
    : { code, words };

/**
 * The finding's limits: those that always hold, what stood in its way, the fit's doubts, and what size says against a
 * finding of one matrix (`caution`).
 */
export function limitsOf(
  fit: Fit,
  conclusion: Conclusion,
  sizeMm: number,
  known?: KnownScores,
  caution?: string,
): Limit[] {
  const own =
    sizeMm < 8
      ? [
          {
            code: 'smallerThanSeals' as const,
            words: 'The object is smaller than any seal: the thresholds of the finding were chosen on seals and coins.',
          },
        ]
      : [];
  const size =
    caution !== undefined && conclusion.finding === 'supported' ? [{ code: 'size' as const, words: caution }] : [];
  const scale = known
    ? `The likelihood ratio rests on ${known.same.length} pairs of one matrix and ${known.different.length} of different ones (${known.name}) and says nothing beyond their kind.`
    : 'The thresholds were chosen on simulated seals and casts of two coins, not on real seals and their impressions; without known pairs of your own no likelihood ratio is printed.';
  return [
    ...size,
    ...own,
    ...conclusion.reasons,
    // A rival turn stands among the reasons already, as a gate that was not passed.
    ...fit.doubts
      .filter(
        ({ code }) => !(code === 'rivalTurn' && conclusion.reasons.some((reason) => reason.code === 'rivalTurns')),
      )
      .map(inFull),
    { code: 'calibration', words: scale },
    ...always,
  ];
}
