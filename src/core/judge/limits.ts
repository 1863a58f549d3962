import type { Fit } from '../fit/index.ts';
import type { KnownScores } from './calibration.ts';
import type { Conclusion } from './finding.ts';

/** What every comparison carries, whatever it found. */
const always = [
  'A faithful cast of a matrix can pass every test.',
  'Scans do not show legal authenticity, who held the wax, a date or the alloy.',
  'A mark that is absent proves nothing where the wax was not filled, is lost or was not scanned.',
] as const;

/** The finding's limits: those that always hold, what stood in its way, and the fit's doubts. */
export function limitsOf(fit: Fit, conclusion: Conclusion, sizeMm: number, known?: KnownScores): string[] {
  const own =
    sizeMm < 8 ? ['The object is smaller than any seal: the score scale made for seals does not apply to it.'] : [];
  const scale = known
    ? `The likelihood ratio rests on ${known.same.length} pairs of one matrix and ${known.different.length} of different ones (${known.name}) and says nothing beyond their kind.`
    : 'The score was set on simulated pairs, not on real seals; without known pairs of your own no likelihood ratio is printed.';
  return [
    ...own,
    ...conclusion.reasons,
    ...fit.doubts.filter((doubt) => !conclusion.reasons.includes(doubt)),
    scale,
    ...always,
  ];
}
