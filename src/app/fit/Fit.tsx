import { doubtWords, freeMotionWords } from '../../core/report/words/index.ts';
import type { ComparisonView } from '../../workers/browser/protocol.ts';
import { failureWords } from '../bringIn/failureWords.ts';
import { FromFile } from '../compare/FromFile.tsx';
import { stopWork } from '../jobs/workers.ts';
import { number, percent } from '../look/numbers.ts';
import { scanById } from '../state/document.ts';
import { comparePair } from '../state/scans.ts';
import { asksForUnit } from '../state/seats.ts';
import { usePair } from '../state/select.ts';
import { setState, useStore } from '../state/store.ts';
import { tryAgain } from '../state/work.ts';
import { ByHand, StartWords } from './ByHand.tsx';
import { MirroredFile } from './MirroredFile.tsx';
import { Models } from './Models.tsx';
import { Rivals } from './Rivals.tsx';

/** One face laid on the other: no guess is needed. */
export function Fit() {
  const { reference, subject, comparison } = usePair();
  const state = useStore(({ comparison: c }) => c);
  if (!reference || !subject) return <OneMissing />;
  if (state?.at === 'working')
    return (
      <p>
        {state.doing}…{' '}
        <button type="button" className="word plain" onClick={stopWork}>
          stop
        </button>
      </p>
    );
  if (state?.at === 'failed' || state?.at === 'stopped')
    return (
      <p role="alert">
        {state.at === 'failed' ? failureWords(state.failure, 'The pair') : 'Stopped.'}{' '}
        <button type="button" className="word plain" onClick={() => tryAgain(null)}>
          try again
        </button>
      </p>
    );
  if (!comparison)
    return (
      <>
        <p>The two faces are laid on one another by themselves, whatever way the scans lie.</p>
        <div className="deeds">
          <button type="button" className="deed" onClick={comparePair}>
            Fit and compare
          </button>
        </div>
      </>
    );
  return <Fitted comparison={comparison} />;
}

/** What keeps two of them from lying there: a unit that is asked among the cards, or no second scan. */
function OneMissing() {
  const asked = useStore(({ history: { present }, faces }) =>
    present.fresh.map((id) => scanById(present, id)).find((scan) => scan && asksForUnit(faces[scan.id])),
  );
  if (!asked) return <p>Two scans are needed: one to compare against, one to be judged.</p>;
  return (
    <p>
      Which two belong together is not known before{' '}
      <button type="button" className="word plain" onClick={() => setState({ step: 'bringIn' })}>
        it is said how large {asked.name} is
      </button>
      .
    </p>
  );
}

function Fitted({ comparison }: { comparison: ComparisonView }) {
  const { fit } = comparison;
  const offline = useStore((state) => state.offline);
  const byHand = offline ? null : <ByHand searchFailed={!fit.found} />;
  return (
    <>
      {fit.found ? (
        <p>
          Laid on one another over {percent(fit.overlap)} of the smaller face, agreeing by {number(fit.score, 2)}
          {fit.rivalTurns.length > 0 && ` where the next best turn reaches ${number(fit.rivalScore, 2)}`}. Certain to{' '}
          {number(fit.rotationSdDeg, 3)}° and {number(fit.translationSdMm * 1000, 0)} µm.
        </p>
      ) : (
        <p role="alert">
          No fit was found. Check in Face that both show the right side, and in Bring in that the kinds and units are
          right; or mark the same places on both seals by hand:
        </p>
      )}
      <FromFile />
      <StartWords />
      <MirroredFile />
      {[
        ...fit.doubts.map(doubtWords),
        ...fit.degenerate.map((motion) => freeMotionWords[motion]),
        ...(comparison.stated?.doubts ?? []),
      ].map((doubt) => (
        <p key={doubt} className="doubt">
          {doubt}
        </p>
      ))}
      {!fit.found && byHand}
      <Models fit={fit} />
      <Rivals fit={fit} />
      {fit.found && byHand}
    </>
  );
}
