import { useEffect, useMemo } from 'react';
import { candidateWords, objectLabel, pairWords } from '../../core/report/words/index.ts';
import { mmPer } from '../../core/scan/index.ts';
import { number } from '../look/numbers.ts';
import { ChooseScan } from './ChooseScan.tsx';
import { Grounds, PlainCaption } from './PairRoom.tsx';
import { Sheet } from './Sheet.tsx';
import { labelOf } from './state/deciding.ts';
import { useUpright } from './state/detail.ts';
import { useFaces, wantFaces } from './state/faces.ts';
import { useScan } from './state/rooms.ts';
import { type Found, searchFor, useSearch } from './state/searching.ts';

/** The number under which the scan that is searched for lies on the sheet. */
const ofQuery = 0;

/** A search by an image: what was dropped beside a candidate, and all candidates with why, each verified as it comes. */
export function SearchRoom() {
  const { file, view, candidates, shown } = useSearch();
  const candidate = candidates?.find(({ scan }) => scan === shown);
  const scan = useScan(shown ?? -1);
  const upright = useUpright(shown ?? -1);
  useEffect(() => {
    if (shown !== null) wantFaces([shown]);
  }, [shown]);
  const face = useFaces((faces) => (shown === null ? undefined : faces[shown]));
  const lying = useMemo(() => {
    if (!view) return [];
    const turnDeg = candidate?.why.turnedOver ? 0 : (candidate?.why.turnDeg ?? 0);
    const own = { scan: ofQuery, face: view, turnDeg: upright + turnDeg };
    return typeof face === 'object' && shown !== null ? [own, { scan: shown, face, turnDeg: upright }] : [own];
  }, [view, candidate, face, shown, upright]);
  if (!file) return <Empty />;
  const { onQuery, onCandidate, turnedOver } = candidate?.why ?? {};
  return (
    <>
      <div className="spread">
        <Sheet
          label="What is searched for, and a candidate, at one scale"
          lying={lying}
          caption={(one) =>
            one === ofQuery ? <QueryCaption name={file.name} /> : scan && <PlainCaption scan={scan} />
          }
          places={(one) => (turnedOver ? [] : ((one === ofQuery ? onQuery : onCandidate) ?? []))}
        />
      </div>
      <Candidates />
    </>
  );
}

const QueryCaption = ({ name }: { name: string }) => (
  <p className="sheet-name">
    {name}
    <span className="soft">what is searched for</span>
  </p>
);

const Empty = () => (
  <div className="room-words drop-place">
    <p>
      Drop a scan anywhere on this page. It is read here; its face alone, as the collection would keep it, goes to the
      collection to be looked for.
    </p>
    <ChooseScan />
  </div>
);

function Candidates() {
  const { file, doing, failure, candidates, itself } = useSearch();
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region without other stops needs one
    <aside className="margin" aria-label="Candidates" tabIndex={0}>
      <h2>Candidates</h2>
      <p className="soft" role="status">
        {doing ? `${doing}…` : candidates && 'Each was verified.'}
      </p>
      {failure?.unitChoice && file ? (
        <Unit file={file} choice={failure.unitChoice} />
      ) : (
        failure && <p role="alert">{failure.message}</p>
      )}
      {itself.map((scan) => (
        <p key={scan}>This very file is in the collection: {labelOf(scan)}.</p>
      ))}
      {candidates?.length === 0 && <p>Nothing in the collection is like this face.</p>}
      <ol className="candidates">
        {candidates?.map((found) => (
          <Candidate key={found.scan} found={found} />
        ))}
      </ol>
      {candidates && (
        <p className="soft">A candidate is what a search puts forward, no more. Marked are the places that agree.</p>
      )}
      <div className="deeds">
        <ChooseScan />
      </div>
    </aside>
  );
}

function Candidate({ found }: { found: Found }) {
  const scan = useScan(found.scan);
  const shown = useSearch((state) => state.shown === found.scan);
  const pair = useSearch((state) => state.verified[found.scan]);
  if (!scan) return null;
  return (
    <li>
      <button
        type="button"
        className="candidate"
        aria-pressed={shown}
        onClick={() => useSearch.setState({ shown: found.scan })}
      >
        {scan.picture ? <img src={scan.picture} alt="" /> : <span className="blank" />}
        <span>
          <b>{objectLabel(scan)}</b> <span className="soft">{scan.kind}</span>
          <span className="soft num">{candidateWords(found.why)}</span>
          {typeof pair === 'string' && <span>{pair}</span>}
          {pair && typeof pair === 'object' && <span className="verified">{pairWords(pair)}</span>}
          {!pair && <span className="soft">not verified yet</span>}
        </span>
      </button>
      {shown && pair && typeof pair === 'object' && (
        <div className="candidate-why">
          <p>{pair.sentence}</p>
          <details>
            <summary>Why</summary>
            <Grounds pair={pair} />
          </details>
        </div>
      )}
    </li>
  );
}

/** Each unit with the size that it gives the face. */
function Unit({
  file,
  choice,
}: {
  file: File;
  choice: NonNullable<NonNullable<ReturnType<typeof useSearch.getState>['failure']>['unitChoice']>;
}) {
  return (
    <div role="alert">
      <p>How large is it? The file gives no unit that fits a seal.</p>
      <div className="unit-choices">
        {choice.units.map((unit) => {
          const mm = choice.faceLongSide * mmPer[unit];
          return (
            <button key={unit} type="button" className="unit-choice" onClick={() => void searchFor(file, { unit })}>
              {number(mm, mm < 10 ? 1 : 0)} mm
              <span className="soft"> ({unit})</span>
            </button>
          );
        })}
      </div>
    </div>
  );
}
