import { failureWords } from '../bringIn/failureWords.ts';
import { UnitQuestion } from '../bringIn/UnitQuestion.tsx';
import { datePlaces, useDates } from '../state/dates.ts';
import { useStore } from '../state/store.ts';
import { tryAgain } from '../state/work.ts';
import { ChangeFiles } from './ChangeFiles.tsx';
import { ChangeList } from './ChangeList.tsx';
import { DatesChoice } from './DatesChoice.tsx';
import { useChange } from './state/changeStore.ts';
import { tryChangeAgain, useChangeView } from './state/useChangeWork.ts';
import './change.css';

/** The words beside the two dates: the plain answer first, then each change, what limits it and on what it rests. */
export default function ChangeMargin() {
  const view = useChangeView();
  const { earlierId, laterId } = useDates();
  return (
    <>
      {!(earlierId && laterId) && <p>What changed on one object between two scans of it, and by how much.</p>}
      {view && <p className="change-sentence">{view.sentence}</p>}
      <Unread />
      <Halted />
      {view && view.changes.length > 0 && <ChangeList changes={view.changes} />}
      {view?.judged && (
        <>
          <h3>Limits</h3>
          <ul className="change-limits">
            {view.limits.map((words) => (
              <li key={words}>{words}</li>
            ))}
            <li>
              No question of matrices is asked here. Handling of the object is for the holding institution’s conservator
              to decide.
            </li>
          </ul>
          <h3>On what it rests</h3>
          {view.facts.map((words) => (
            <p key={words}>{words}</p>
          ))}
        </>
      )}
      <DatesChoice />
      {view && <ChangeFiles />}
    </>
  );
}

/** Dates that could not be read: their unit is asked here, anything else on their card. */
function Unread() {
  const dates = useDates();
  const faces = useStore((state) => state.faces);
  return datePlaces.map((place) => {
    const scan = dates[place];
    if (!scan) return null;
    const face = faces[scan.id];
    if (face?.at === 'stopped' || (face?.at === 'failed' && face.failure.code !== 'unitNeeded'))
      return (
        <p key={place} role="alert">
          {face.at === 'failed' ? failureWords(face.failure, scan.name) : `${scan.name}: stopped.`}{' '}
          <button type="button" className="word plain" onClick={() => tryAgain(scan.id)}>
            try again
          </button>
        </p>
      );
    return face?.at === 'failed' ? (
      <div key={place}>
        <h3>{scan.title}</h3>
        <UnitQuestion scan={scan} failure={face.failure} />
      </div>
    ) : null;
  });
}

/** Stopped or failed work, with the way to try again. */
function Halted() {
  const job = useChange((state) => state.job);
  if (job?.at !== 'stopped' && job?.at !== 'failed') return null;
  return (
    <p role="alert">
      {job.at === 'failed' ? job.failure.message : 'Stopped.'}{' '}
      <button type="button" className="word plain" onClick={tryChangeAgain}>
        try again
      </button>
    </p>
  );
}
