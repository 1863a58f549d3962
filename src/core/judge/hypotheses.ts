import type { Mark } from '../condition/index.ts';
import type { Fit } from '../fit/index.ts';
import type { Conclusion } from './finding.ts';
import type { PairEvidence } from './gates.ts';
import type { Evidence, Hypothesis } from './types.ts';

/** Each piece of evidence for one matrix over another: what it favours over what, and its number. */
export function evidenceOf(fit: Fit, { places, weighed }: PairEvidence): Evidence[] {
  const fitted: Evidence = {
    name: 'fit of the whole face',
    favours: 'sameMatrix',
    over: 'unrelated',
    value: fit.significance,
    unit: 'σ',
    words: `atanh(correlation) × √(independent cells), the best of all turns and sizes tried; where these two faces cannot agree, with heights of the wrong sign, the same search reaches ${fit.chance.location.toFixed(1)} σ; says that the designs are alike, and nothing of who cut them`,
  };
  if (!places || !weighed) return [fitted];
  const { same, handCopy, stockMotif, scatterMm, best } = weighed;
  return [
    fitted,
    ...[
      {
        name: 'places, over a copy by hand',
        value: same - handCopy,
        words:
          'log₁₀ of how much likelier the places of letters and ornaments are if they scatter by 4 to 25 µm, as the wax of one matrix flows, than by 30 µm to 1 mm, as a copyist cuts',
      },
      {
        name: 'places, over a stock motif',
        value: same - stockMotif,
        words: 'the same against a motif freely cut anew under another legend, where any share of the places is absent',
      },
    ].map(({ name, value, words }) => ({ name, ...sideOf(value), value, unit: '', words })),
    neutral(
      'scatter of the places',
      scatterMm,
      'mm',
      'what is left from place to place beyond their errors and a smooth flow',
    ),
    neutral(
      'places nowhere near',
      best.epsilon,
      '',
      'share that lies nowhere near where the others put it: accidents, lips, or another legend',
    ),
    neutral(
      'congruent cells',
      places.tiles.congruent,
      `of ${places.tiles.compared}`,
      `cells of ${places.tiles.sideMm.toFixed(1)} mm that agree better than cells laid at wrong places of this pair do, within 6° and the shift of the rest; not weighed`,
    ),
  ];
}

const neutral = (name: string, value: number, unit: string, words: string): Evidence => ({
  name,
  favours: 'neither',
  over: 'neither',
  value,
  unit,
  words,
});

/** Below this, in powers of ten, a number is said to favour neither. */
const leastWord = 0.3;

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
  { finding }: Conclusion,
  fit: Fit,
  copyWords: string,
  log10Lr: number | null,
): Hypothesis[] {
  const supported = finding === 'supported';
  const same = supported ? 'supported' : finding === 'undecided' ? 'not decided' : 'not supported';
  const other =
    finding === 'against' ? 'supported' : supported || finding === 'otherDesign' ? 'not supported' : 'not decided';
  const unrelated = fit.found
    ? 'not supported: the designs agree'
    : 'not excluded: the designs were not found to agree';
  return [
    { id: 'sameMatrix', over: 'otherMatrix', words: same, log10Lr },
    { id: 'copy', over: 'sameMatrix', words: supported ? copyWords : 'not weighed', log10Lr: null },
    { id: 'otherMatrix', over: 'sameMatrix', words: other, log10Lr: log10Lr === null ? null : -log10Lr },
    { id: 'unrelated', over: 'sameMatrix', words: finding === 'otherDesign' ? 'supported' : unrelated, log10Lr: null },
  ];
}
