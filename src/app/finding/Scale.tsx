import type { Judgement } from '../../core/judge/index.ts';

const width = 330;
const steps = ['strong', 'moderate', 'weak', 'not decided', 'weak', 'moderate', 'strong'] as const;
/** Not decided is as wide as two steps. */
const widths = [1, 1, 1, 1.6, 1, 1, 1];
const total = widths.reduce((sum, one) => sum + one, 0);
const startOf = (i: number): number => (widths.slice(0, i).reduce((sum, one) => sum + one, 0) / total) * width;

/** Where a finding stands between against and for: words and a place, never a colour alone. */
export function Scale({ judgement: { finding, strength } }: { judgement: Pick<Judgement, 'finding' | 'strength'> }) {
  const away = { none: 0, weak: 1, moderate: 2, strong: 3 }[strength];
  const against = finding === 'against' || finding === 'otherDesign';
  const at = finding === 'undecided' ? 3 : against ? 3 - away : 3 + away;
  const here = startOf(at) + ((widths[at] / total) * width) / 2;
  const words = finding === 'undecided' ? 'not decided' : `${strength}, ${against ? 'against' : 'for'} one matrix`;
  // At an end the word stays on the scale.
  const side = at < 2 ? 'first' : at > 4 ? 'last' : '';
  return (
    <figure className="strength">
      <svg viewBox={`0 0 ${width} 24`} role="img" aria-label={`Strength: ${words}`}>
        {steps.map((step, i) => (
          <rect
            // biome-ignore lint/suspicious/noArrayIndexKey: a step is its place
            key={`${step} ${i}`}
            className={i === at ? 'step here' : 'step'}
            x={startOf(i) + 1}
            y={14}
            width={(widths[i] / total) * width - 2}
            height={i === at ? 9 : 5}
          />
        ))}
        <path className="needle" d={`M${here - 6} 3h12l-6 9z`} />
      </svg>
      <b className={side} style={side === '' ? { insetInlineStart: `${(100 * here) / width}%` } : {}}>
        {finding === 'undecided' ? 'not decided' : strength}
      </b>
      <figcaption>
        <i>{finding === 'otherDesign' ? 'another design' : 'another matrix'}</i>
        <i>one matrix, or a copy</i>
      </figcaption>
    </figure>
  );
}
