import { evidenceDefaults, strengthDefaults } from '../../judge/index.ts';
import type { ComparisonRecord } from '../record/schema.ts';
import { number, signedNumber } from './html.ts';

const steps = ['strong', 'moderate', 'weak', 'undecided', 'weak', 'moderate', 'strong'] as const;
const middle = 3;

/** Place of the finding among the seven steps: 0 strongly against, 3 undecided, 6 strongly for. */
export function stepOf({ finding, strength }: ComparisonRecord['judge']): number {
  const size = ['weak', 'moderate', 'strong'].indexOf(strength) + 1;
  if (finding === 'undecided') return middle;
  return finding === 'supported' ? middle + size : middle - size;
}

/** What the steps are steps of, and where each begins. */
export function scaleWords(judge: ComparisonRecord['judge'], scored: boolean): string {
  if (!scored || typeof judge.score !== 'number') return '';
  const { supportFirm, against } = evidenceDefaults;
  const { moderate, strong } = strengthDefaults;
  const [plus, minus] = [(x: number) => signedNumber(x, 1), (x: number) => number(x, 1)];
  return `<p class="steps">Steps of this program’s score, here ${signedNumber(judge.score, 2)}: weak from ${plus(supportFirm)}, moderate from ${plus(moderate)}, strong from ${plus(strong)}; against, weak from ${minus(against)}, moderate from ${minus(-moderate)}, strong from ${minus(-strong)}; and further conditions, listed under Evidence. They are no steps of a likelihood ratio, and no probability that the finding is right.</p>`;
}

/** The strength on a printed scale: seven words in a row, the one that holds marked. */
export function strengthScale(judge: ComparisonRecord['judge']): string {
  const here = stepOf(judge);
  const cells = steps.map((word, i) =>
    i === here ? `<li class="here" aria-current="true"><span>${word}</span></li>` : `<li><span>${word}</span></li>`,
  );
  return `<div class="strength"><p class="ends"><span>against</span><span>for</span></p><ol>${cells.join('')}</ol></div>`;
}
