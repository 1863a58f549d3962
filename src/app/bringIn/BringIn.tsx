import { layDates } from '../state/dates.ts';
import { scanById } from '../state/document.ts';
import { comparePair, exchangeSeats } from '../state/scans.ts';
import { documentNow, setState, useDocument, useStore } from '../state/store.ts';
import { ChooseFiles } from './ChooseFiles.tsx';
import { LeftWork } from './LeftWork.tsx';
import { SampleShelf } from './SampleShelf.tsx';
import { ScanCard } from './ScanCard.tsx';
import { ScanTray } from './ScanTray.tsx';
import { inNeedFirst } from './scanRows.ts';

/** Up to so many scans lie as cards; more of them in a tray. */
const mostCards = 6;

/** Scans of the two seals come in here: each gets a card, many a tray. */
export function BringIn() {
  const scans = useDocument((document) => document.scans);
  const compared = useDocument((document) => document.compare);
  const offline = useStore((state) => state.offline);
  const faces = useStore((state) => state.faces);
  const pair = useDocument((document) => [document.referenceId, document.subjectId].join(' '));
  const ready = pair.split(' ').every((id) => id !== '' && faces[id]?.at === 'ready');
  if (offline)
    return (
      <p>This page shows a comparison as it was saved. To work on it, open the file it was made from in the app.</p>
    );
  return (
    <>
      <p>
        Drop scans anywhere on this page: PLY, STL, OBJ, glTF, X3P, or height maps as PNG or TIFF. Nothing leaves this
        computer.
      </p>
      <div className="deeds">
        <ChooseFiles />
      </div>
      {scans.length === 0 && <LeftWork />}
      {scans.length > mostCards && <ScanTray scans={scans} />}
      {scans.length > 0 && scans.length <= mostCards && (
        <ul className="cards">
          {inNeedFirst(scans, faces).map((scan) => (
            <ScanCard key={scan.id} scan={scan} />
          ))}
        </ul>
      )}
      {scans.length > 1 && (
        <div className="deeds">
          <button type="button" className="deed" disabled={!ready} onClick={comparePair}>
            {compared ? 'To the comparison' : 'Fit and compare'}
          </button>
          {ready && (
            <button
              type="button"
              className="word plain"
              title="b is compared against a and judged; what made the other stands as a"
              onClick={exchangeSeats}
            >
              exchange a and b
            </button>
          )}
          <button type="button" className="word plain" onClick={() => asDates(pair.split(' '))}>
            one object on two dates
          </button>
        </div>
      )}
      <SampleShelf />
    </>
  );
}

/** The two on the plate, or the only two that were brought in, as one object on two dates; else the room asks for them. */
function asDates(ids: readonly string[]): void {
  const document = documentNow();
  const seated = ids.flatMap((id) => scanById(document, id) ?? []);
  const [one, other] = seated.length < 2 && document.scans.length === 2 ? document.scans : seated;
  if (one && other) layDates(one, other);
  else setState({ step: 'change', margin: true });
}
