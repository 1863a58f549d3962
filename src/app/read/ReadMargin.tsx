import { setState, useDocument, useStore } from '../state/store.ts';
import { BackMargin } from './back/BackMargin.tsx';
import { CardForm } from './card/CardForm.tsx';
import { FragmentsMargin } from './fragments/FragmentsMargin.tsx';
import { BandWords } from './legend/BandWords.tsx';
import { LegiblePlaces } from './legend/LegiblePlaces.tsx';
import { LetterWords } from './legend/LetterWords.tsx';
import { Readers } from './legend/Readers.tsx';
import { ReadingWords } from './legend/ReadingWords.tsx';
import { OwnLook } from './light/OwnLook.tsx';
import { PrintedPlate } from './light/PrintedPlate.tsx';
import { Sweep } from './light/Sweep.tsx';
import { useScanId } from './state/current.ts';
import { leaves, setRead, useRead } from './state/readStore.ts';
import { useStackScans } from './state/useStackScans.ts';

const leafWords = { legend: 'legend', back: 'back', fragments: 'fragments', card: 'catalogue card' } as const;

/** The words beside the reading room. */
export default function ReadMargin() {
  const leaf = useRead((state) => state.leaf);
  const offline = useStore((state) => state.offline);
  const several = (useStackScans()?.subjects.length ?? 0) >= 2 && !offline;
  return (
    <>
      <p className="seats">
        {leaves
          .filter((name) => several || name !== 'fragments')
          .map((name) => (
            <button
              key={name}
              type="button"
              className="word"
              aria-pressed={leaf === name}
              onClick={() => setRead({ leaf: name })}
            >
              {leafWords[name]}
            </button>
          ))}
      </p>
      {leaf !== 'fragments' && <Objects />}
      {leaf === 'legend' && (
        <>
          <ReadingWords />
          <LetterWords />
          <LegiblePlaces />
          <Readers />
          <BandWords />
          <OwnLook />
          <PrintedPlate />
          <Sweep />
        </>
      )}
      {leaf === 'back' && <BackMargin />}
      {leaf === 'fragments' && <FragmentsMargin />}
      {leaf === 'card' && <CardForm />}
    </>
  );
}

/** Which scan is read, or all that were laid on the reference at once. */
function Objects() {
  const scans = useDocument((document) => document.scans);
  const offline = useStore((state) => state.offline);
  const current = useScanId();
  const leaf = useRead((state) => state.leaf);
  const stacked = useRead((state) => state.stacked);
  const stack = useStackScans();
  if (scans.length === 0) return null;
  return (
    <>
      <h3>Object</h3>
      <ul className="seat-list">
        {scans.map(({ id, title }) => (
          <li key={id}>
            <button
              type="button"
              className="word"
              aria-pressed={!stacked && id === current}
              onClick={() => {
                setRead({ stacked: false, hovered: null, comparedWith: null });
                setState({ faceId: id });
              }}
            >
              {title}
            </button>
          </li>
        ))}
        {leaf === 'legend' && stack && !offline && (
          <li>
            <button
              type="button"
              className="word"
              aria-pressed={stacked}
              onClick={() => setRead({ stacked: true, hovered: null })}
            >
              all under one another, as they fit
            </button>
          </li>
        )}
      </ul>
    </>
  );
}
