import type { Mark } from '../condition/index.ts';
import type { Fit } from '../fit/index.ts';
import type { Conclusion } from './finding.ts';
import type { PairEvidence } from './gates.ts';
import type { Evidence, Hypothesis, Verdict } from './types.ts';

/** Each piece of evidence for one matrix over another: what it favours over what, and its number. */
export function evidenceOf(fit: Fit, { places, weighed }: PairEvidence): Evidence[] {
  const fitted: Evidence = {
    code: 'wholeFace',
    favours: 'sameMatrix',
    over: 'unrelated',
    value: fit.significance,
    chanceSigma: fit.chance.location,
  };
  if (!places || !weighed) return [fitted];
  const { same, handCopy, stockMotif, scatterMm, best } = weighed;
  const { congruent, compared, sideMm } = places.tiles;
  return [
    fitted,
    { code: 'overHandCopy', ...sideOf(same - handCopy), value: same - handCopy },
    { code: 'overStockMotif', ...sideOf(same - stockMotif), value: same - stockMotif },
    { code: 'scatter', ...neither, value: scatterMm },
    { code: 'nowhereNear', ...neither, value: best.epsilon },
    { code: 'congruentCells', ...neither, value: congruent, compared, sideMm },
  ];
}

const neither = { favours: 'neither', over: 'neither' } as const;

/** Below this, in powers of ten, a number is said to favour neither. */
const leastWord = 0.3;

function sideOf(score: number): Pick<Evidence, 'favours' | 'over'> {
  if (Math.abs(score) < leastWord) return neither;
  return score > 0 ? { favours: 'sameMatrix', over: 'otherMatrix' } : { favours: 'otherMatrix', over: 'sameMatrix' };
}

/** Shapes that no engraver means. */
const accidental = new Set<Mark['shape']>(['cut', 'crack', 'scratch', 'line', 'pit']);

/** Cuts, cracks and scratches that both carry: a copyist seldom repeats them, a cast always does. */
export function sharedAccidents(marks: readonly Mark[]): Evidence[] {
  const accidents = marks.filter(({ shape }) => accidental.has(shape));
  const shared = accidents.filter(({ carriedBy }) => carriedBy === 'both').length;
  if (accidents.length === 0) return [];
  const sides = shared > 0 ? ({ favours: 'sameMatrix', over: 'otherMatrix' } as const) : neither;
  return [{ code: 'accidentsShared', ...sides, value: shared, found: accidents.length }];
}

/** The table of hypotheses; `log10Lr` is null without the user's own known pairs. */
export function hypothesesOf(
  { finding }: Pick<Conclusion, 'finding'>,
  fit: Pick<Fit, 'found'>,
  copy: Verdict,
  log10Lr: number | null,
): Hypothesis[] {
  const supported = finding === 'supported';
  const same = supported ? 'supported' : finding === 'undecided' ? 'notDecided' : 'notSupported';
  const other =
    finding === 'against' ? 'supported' : supported || finding === 'otherDesign' ? 'notSupported' : 'notDecided';
  const apart = fit.found ? 'designsAgree' : 'designsNotSeenToAgree';
  const unrelated = finding === 'otherDesign' ? 'supported' : apart;
  return [
    { id: 'sameMatrix', over: 'otherMatrix', verdict: { code: same }, log10Lr },
    { id: 'copy', over: 'sameMatrix', verdict: supported ? copy : { code: 'notWeighed' }, log10Lr: null },
    { id: 'otherMatrix', over: 'sameMatrix', verdict: { code: other }, log10Lr: log10Lr === null ? null : -log10Lr },
    { id: 'unrelated', over: 'sameMatrix', verdict: { code: unrelated }, log10Lr: null },
  ];
}
