import { useState } from 'react';
import { fingerCaution, ridgeWords } from '../../../core/report/words/index.ts';
import { number } from '../../look/numbers.ts';
import { download } from '../../state/download.ts';
import { notify } from '../../state/store.ts';
import { writeField } from '../card/CardForm.tsx';
import { pictureBlob } from '../card/pictureUrl.ts';
import { useCard } from '../card/useCard.ts';
import { askOnce } from '../state/ask.ts';
import { useShown, useSource } from '../state/current.ts';

const marks = [
  ['present', 'present'],
  ['absent', 'none seen'],
  ['notJudged', 'not judged'],
] as const;

/** Finger marks on the back: recorded as present or absent, and no more. */
export function BackMargin() {
  const now = useCard();
  const back = useShown('back');
  const [sharp, setSharp] = useState(false);
  if (!now) return null;
  const save = (): void => {
    if (!back) return;
    download(pictureBlob(sharp ? back.sharp : back.blurred), `${now.scan.name.replace(/\.[^.]+$/, '')}-back.png`);
  };
  return (
    <>
      <h3>Finger marks</h3>
      {back && <p>{ridgeWords(back)}</p>}
      <p className="seats">
        {marks.map(([value, words]) => (
          <button
            key={value}
            type="button"
            className="word"
            aria-pressed={now.fields.fingerMarks === value}
            onClick={() => writeField(now.scan.id, 'fingerMarks', value)}
          >
            {words}
          </button>
        ))}
      </p>
      <p className="soft">{fingerCaution}</p>
      {back && <Spacing key={now.scan.id} />}
      {back && (
        <>
          <h3>Picture</h3>
          <p className="seats">
            <button type="button" className="word plain" onClick={save}>
              {sharp ? 'save it sharp' : 'save it blurred'}
            </button>
          </p>
          <label>
            <input type="checkbox" checked={sharp} onChange={(event) => setSharp(event.target.checked)} /> sharp: ridges
            of a living person’s finger could be read from it
          </label>
        </>
      )}
    </>
  );
}

/** The distance from ridge to ridge, only for those who ask, with the caution. */
function Spacing() {
  const source = useSource();
  const [words, setWords] = useState<string | null>(null);
  const ask = async (): Promise<void> => {
    if (!source) return;
    const answer = await askOnce((reading) => reading.ridgeSpacing(source));
    if (answer === 'stopped') return;
    if (!answer.ok) notify(answer.message);
    else if (answer.value === null) setWords('No ridges, so no spacing.');
    else setWords(`About ${number(answer.value, 2)} mm from ridge to ridge. This tells neither age nor sex.`);
  };
  return words === null ? (
    <p className="seats">
      <button type="button" className="word" onClick={() => void ask()}>
        measure the ridges’ spacing
      </button>
    </p>
  ) : (
    <p role="status">{words}</p>
  );
}
