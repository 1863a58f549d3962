import type { Difference, SizeTest } from '../compare/index.ts';
import type { Fit } from '../fit/index.ts';
import type { Conclusion } from './finding.ts';
import type { ScorePart } from './score.ts';
import type { Evidence, Hypothesis } from './types.ts';

/** Each piece of evidence: what it favours over what, and its number. */
export function evidenceOf(fit: Fit, parts: readonly ScorePart[]): Evidence[] {
  const side = (score: number): Pick<Evidence, 'favours' | 'over'> =>
    Math.abs(score) < 0.15
      ? { favours: 'neither', over: 'neither' }
      : score > 0
        ? { favours: 'sameMatrix', over: 'otherMatrix' }
        : { favours: 'otherMatrix', over: 'sameMatrix' };
  const fitted: Evidence = {
    name: 'fit of the whole face',
    favours: 'sameMatrix',
    over: 'unrelated',
    value: fit.significance,
    unit: 'σ',
    words: 'how far the two faces agree above chance over all turns and sizes',
  };
  return [
    fitted,
    ...parts.map(({ name, score, value, unit, words }) => ({ name, ...side(score), value, unit, words })),
  ];
}

/** The table of hypotheses; `log10Lr` is null without the user's own known pairs. */
export function hypothesesOf(
  conclusion: Conclusion,
  fit: Fit,
  difference: Difference | null,
  log10Lr: number | null,
): Hypothesis[] {
  const { finding } = conclusion;
  const against = finding === 'against';
  const same = finding === 'supported' ? 'supported' : against ? 'not supported' : 'not decided';
  return [
    { id: 'sameMatrix', over: 'otherMatrix', words: same, log10Lr },
    { id: 'copy', over: 'sameMatrix', words: copyWords(finding === 'supported', difference?.size), log10Lr: null },
    {
      id: 'otherMatrix',
      over: 'sameMatrix',
      words: against ? 'supported' : finding === 'supported' ? 'not supported' : 'not decided',
      log10Lr: log10Lr === null ? null : -log10Lr,
    },
    {
      id: 'unrelated',
      over: 'sameMatrix',
      words: fit.found ? 'not supported: the designs agree' : 'not excluded: the designs were not found to agree',
      log10Lr: null,
    },
  ];
}

function copyWords(supported: boolean, size: SizeTest | undefined): string {
  if (!supported || !size) return 'not weighed';
  return `a faithful copy passes the same tests; size ratio subject to reference ${size.ratio.toFixed(4)} ± ${size.sd.toFixed(4)}`;
}
