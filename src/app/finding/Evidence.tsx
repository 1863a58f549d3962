import type { HypothesisId, Judgement } from '../../core/judge/index.ts';
import { evidenceWords, verdictWords } from '../../core/report/words/index.ts';
import { capital } from '../../core/scan/index.ts';
import { number } from '../look/numbers.ts';

const names: Readonly<Record<HypothesisId | 'neither', string>> = {
  sameMatrix: 'this matrix or a faithful copy of it',
  copy: 'a copy',
  otherMatrix: 'another matrix of the pattern',
  unrelated: 'unrelated objects',
  neither: 'neither',
};

/** The ground of the finding: each piece with what it favours over what, and the number it rests on. */
export function Evidence({ judgement }: { judgement: Judgement }) {
  return (
    <>
      <h3>Ground</h3>
      <dl className="evidence">
        {judgement.evidence
          .map((one) => ({ ...one, ...evidenceWords(one) }))
          .map((piece) => (
            <div key={piece.code}>
              <dt>
                {sentence(piece.name, '')}{' '}
                <span className="num soft">
                  {number(piece.value, decimals(piece.value))} {piece.unit}
                </span>
              </dt>
              <dd>
                {sentence(piece.words)}{' '}
                {piece.favours !== 'neither' && (
                  <span className="soft">
                    Speaks for {names[piece.favours]} over {names[piece.over]}.
                  </span>
                )}
              </dd>
            </div>
          ))}
      </dl>
      <h3>Weighed</h3>
      <ul>
        {judgement.hypotheses.map((one) => (
          <li key={`${one.id}${one.over}`}>
            {names[one.id]} over {names[one.over]}: {verdictWords(one.verdict)}
            {one.log10Lr === null ? '' : ` (log₁₀ of the likelihood ratio ${number(one.log10Lr, 1)})`}
          </li>
        ))}
      </ul>
      <p className="soft">{judgement.calibration}</p>
    </>
  );
}

/** With a capital letter, and a full stop where one is missing. */
function sentence(words: string, end = '.'): string {
  const first = capital(words);
  return /[.?!]$/.test(first) ? first : first + end;
}

const decimals = (value: number): number => (Number.isInteger(value) ? 0 : Math.abs(value) < 1 ? 3 : 2);
