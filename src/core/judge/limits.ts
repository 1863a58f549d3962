import type { Fit } from '../fit/index.ts';
import type { KnownScores } from './calibration.ts';
import type { Conclusion } from './finding.ts';
import type { Limit, SizeCaution } from './types.ts';

/** What every comparison carries, whatever it found. */
const always: readonly Limit[] = [{ code: 'copyPasses' }, { code: 'notShown' }, { code: 'absentMark' }];

/** Seals and coins are larger than this, mm. */
const leastSealMm = 8;

/**
 * The finding's limits: those that always hold, what stood in its way, the fit's doubts, and what size says against a
 * finding of one matrix (`caution`).
 */
export function limitsOf(
  fit: Fit,
  { finding, reasons }: Pick<Conclusion, 'finding' | 'reasons'>,
  sizeMm: number,
  known?: KnownScores,
  caution: SizeCaution | null = null,
): Limit[] {
  const size: Limit[] = caution && finding === 'supported' ? [{ code: 'size', ...caution }] : [];
  const small: Limit[] = sizeMm < leastSealMm ? [{ code: 'smallerThanSeals', sizeMm, leastMm: leastSealMm }] : [];
  // A rival turn may stand among the reasons already, as a gate that was not passed.
  const rivalSaid = reasons.some(({ code }) => code === 'rivalTurns');
  const doubts = fit.doubts.filter(({ code }) => !(code === 'rivalTurn' && rivalSaid));
  return [...size, ...small, ...reasons, ...doubts, calibrationLimit(known), ...always];
}

const calibrationLimit = (known: KnownScores | undefined): Limit => ({
  code: 'calibration',
  known: known ? { name: known.name, same: known.same.length, different: known.different.length } : null,
});
