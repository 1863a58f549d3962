import type { Fit } from '../fit/index.ts';
import type { KnownScores } from './calibration.ts';
import type { Conclusion } from './finding.ts';

/** What every comparison carries, whatever it found. */
const always = [
  'A faithful cast of a matrix can pass every test; where the matrix is itself a cast, its parent passes them too.',
  'Scans do not show legal authenticity, who held the wax, a date or the alloy.',
  'A mark that is absent proves nothing where the wax was not filled, is lost or was not scanned.',
] as const;

/** What a doubt about the fit leaves of a finding. */
const inFull = (doubt: string): string =>
  doubt.startsWith('The fit had not settled')
    ? `${doubt} Depths and sizes lean on it; places of landmarks and cells less, since turn, shift and scale are taken out of them again.`
    : doubt;

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
): string[] {
  const own =
    sizeMm < 8
      ? ['The object is smaller than any seal: the thresholds of the finding were chosen on seals and coins.']
      : [];
  const size = caution !== undefined && conclusion.finding === 'supported' ? [caution] : [];
  const scale = known
    ? `The likelihood ratio rests on ${known.same.length} pairs of one matrix and ${known.different.length} of different ones (${known.name}) and says nothing beyond their kind.`
    : 'The thresholds were chosen on simulated seals and casts of two coins, not on real seals and their impressions; without known pairs of your own no likelihood ratio is printed.';
  return [
    ...size,
    ...own,
    ...conclusion.reasons,
    ...fit.doubts.filter((doubt) => !conclusion.reasons.includes(doubt)).map(inFull),
    scale,
    ...always,
  ];
}
