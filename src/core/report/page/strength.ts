import type { ComparisonRecord } from '../record/schema.ts';

const steps = ['strong', 'moderate', 'weak', 'undecided', 'weak', 'moderate', 'strong'] as const;
const middle = 3;

/** Place of the finding among the seven steps: 0 strongly against, 3 undecided, 6 strongly for. */
export function stepOf({ finding, strength }: ComparisonRecord['judge']): number {
  const size = ['weak', 'moderate', 'strong'].indexOf(strength) + 1;
  if (finding === 'undecided') return middle;
  return finding === 'supported' ? middle + size : middle - size;
}

/** The strength on a printed scale: seven words in a row, the one that holds marked. */
export function strengthScale(judge: ComparisonRecord['judge']): string {
  const here = stepOf(judge);
  const cells = steps.map((word, i) =>
    i === here ? `<li class="here" aria-current="true"><span>${word}</span></li>` : `<li><span>${word}</span></li>`,
  );
  return `<div class="strength"><p class="ends"><span>against</span><span>for</span></p><ol>${cells.join('')}</ol></div>`;
}
