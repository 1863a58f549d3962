import { capital } from '../../core/scan/index.ts';
import type { FaceView } from '../../workers/browser/protocol.ts';
import { count } from '../look/numbers.ts';
import { imageOf, sizeWords } from '../look/sizeWords.ts';
import { UprightStill } from '../plate/UprightStill.tsx';
import type { ScanEntry } from '../state/document.ts';
import { layOnPlate, removeScan, retitle } from '../state/scans.ts';
import { usePair } from '../state/select.ts';
import { useDocument, useStore } from '../state/store.ts';
import { tryAgain } from '../state/work.ts';
import { repairWords, unitWords } from './cardWords.ts';
import { Directions } from './Directions.tsx';
import { failureWords } from './failureWords.ts';
import { Statements } from './Statements.tsx';
import { UnitQuestion } from './UnitQuestion.tsx';

/** The card of one scan: its picture, what it is, what was read and mended. */
export function ScanCard({ scan }: { scan: ScanEntry }) {
  const state = useStore(({ faces }) => faces[scan.id]);
  return (
    <li className={state?.at === 'failed' ? 'card unread' : 'card'}>
      <textarea
        className="card-title"
        rows={1}
        aria-label={`Caption of ${scan.name}`}
        value={scan.title}
        onChange={(event) => retitle(scan.id, event.target.value.replace(/\s*\n\s*/g, ' '))}
      />
      <div className="card-picture">
        {state?.at === 'ready' ? <UprightStill face={state.value} name={scan.title} /> : <span className="blank" />}
      </div>
      <div className="card-words">
        {state?.at === 'ready' && <Facts face={state.value} />}
        {state?.at === 'working' && <p className="soft">{state.doing}…</p>}
        {state?.at === 'stopped' && <Again scan={scan} words="Stopped." />}
        {state?.at === 'failed' &&
          (state.failure.code === 'unitNeeded' && state.failure.unitChoice ? (
            <UnitQuestion scan={scan} failure={state.failure} />
          ) : (
            <Again scan={scan} words={failureWords(state.failure, scan.name)} />
          ))}
        {state?.at === 'failed' && state.failure.code === 'noFace' && <Directions scan={scan} />}
        {state?.at !== 'failed' && <Seats scan={scan} />}
      </div>
      <Statements scan={scan} face={state?.at === 'ready' ? state.value : undefined}>
        <button type="button" className="word" onClick={() => removeScan(scan.id)}>
          put away
        </button>
      </Statements>
    </li>
  );
}

function Facts({ face }: { face: FaceView }) {
  const pair = usePair();
  return (
    <p className="num facts-line">
      {capital(sizeWords(face, imageOf(face, pair)))}, {count(face.triangles)} triangles. {unitWords(face)}{' '}
      <span className="soft">
        {face.fromFile ? 'So a saved file states; the scan itself is not here.' : repairWords(face.repairs)}
      </span>
    </p>
  );
}

function Again({ scan, words }: { scan: ScanEntry; words: string }) {
  return (
    <p role="alert">
      {words}{' '}
      <button type="button" className="word plain" onClick={() => tryAgain(scan.id)}>
        try again
      </button>
    </p>
  );
}

function Seats({ scan }: { scan: ScanEntry }) {
  const at = useDocument(({ referenceId, subjectId }) => [referenceId, subjectId].indexOf(scan.id));
  return (
    <p className="seats">
      <button type="button" className="word" aria-pressed={at >= 0} onClick={() => layOnPlate(scan.id)}>
        {at >= 0 ? `on the plate, as ${'ab'[at]}` : 'lay it on the plate'}
      </button>
    </p>
  );
}
