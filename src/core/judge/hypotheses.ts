import type { Mark } from '../condition/index.ts';
import type { Fit } from '../fit/index.ts';
import type { BandCorrelation } from './features.ts';
import type { Conclusion } from './finding.ts';
import type { ScorePart } from './score.ts';
import type { Evidence, Hypothesis } from './types.ts';

/** Each piece of evidence for one die over another: what it favours over what, and its number. */
export function evidenceOf(fit: Fit, parts: readonly ScorePart[], bands: readonly BandCorrelation[]): Evidence[] {
  const fitted: Evidence = {
    name: 'fit of the whole face',
    favours: 'sameMatrix',
    over: 'unrelated',
    value: fit.significance,
    unit: 'σ',
    words:
      'atanh(correlation) × √(independent cells): how many standard deviations of chance the two faces agree by, the best of all turns and sizes tried; says that the designs are alike, and nothing of who cut them',
  };
  return [
    fitted,
    ...parts.map(({ name, score, value, unit, words }) => ({
      name,
      ...sideOf(score),
      value,
      unit,
      words,
      weighed: score,
    })),
    ...bands.slice(1).map(
      ({ fromMm, toMm, correlation }): Evidence => ({
        name: `relief of ${fromMm.toFixed(1)} to ${toMm.toFixed(1)} mm`,
        favours: 'neither',
        over: 'neither',
        value: correlation,
        unit: '',
        words: 'correlation inside the cells in this band of wavelengths; not weighed, for comparison with the finest',
      }),
    ),
  ];
}

/** Below this, in powers of ten, a feature is said to favour neither. */
const leastWord = 0.15;

function sideOf(score: number): Pick<Evidence, 'favours' | 'over'> {
  if (Math.abs(score) < leastWord) return { favours: 'neither', over: 'neither' };
  return score > 0 ? { favours: 'sameMatrix', over: 'otherMatrix' } : { favours: 'otherMatrix', over: 'sameMatrix' };
}

/** Shapes that no engraver means. */
const accidental = new Set<Mark['shape']>(['cut', 'crack', 'scratch', 'line', 'pit']);

/** Cuts, cracks and scratches that both carry: a copyist seldom repeats them, a cast always does. */
export function sharedAccidents(marks: readonly Mark[]): Evidence[] {
  const accidents = marks.filter(({ shape }) => accidental.has(shape));
  const shared = accidents.filter(({ carriedBy }) => carriedBy === 'both').length;
  if (accidents.length === 0) return [];
  return [
    {
      name: 'accidents shared',
      favours: shared > 0 ? 'sameMatrix' : 'neither',
      over: shared > 0 ? 'otherMatrix' : 'neither',
      value: shared,
      unit: `of ${accidents.length}`,
      words: 'cuts, cracks, scratches and pits found on either that both carry; not weighed in the score',
    },
  ];
}

/** The table of hypotheses; `log10Lr` is null without the user's own known pairs. */
export function hypothesesOf(
  conclusion: Conclusion,
  fit: Fit,
  copyWords: string,
  log10Lr: number | null,
): Hypothesis[] {
  const { finding } = conclusion;
  const against = finding === 'against';
  const same = finding === 'supported' ? 'supported' : against ? 'not supported' : 'not decided';
  return [
    { id: 'sameMatrix', over: 'otherMatrix', words: same, log10Lr },
    { id: 'copy', over: 'sameMatrix', words: finding === 'supported' ? copyWords : 'not weighed', log10Lr: null },
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
