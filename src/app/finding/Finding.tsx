import type { Judgement, LimitCode } from '../../core/judge/index.ts';
import { findingParts, limitWords, weighedWords } from '../../core/report/words/index.ts';
import type { ComparisonView } from '../../workers/browser/protocol.ts';
import { Again } from '../compare/Again.tsx';
import { FromFile } from '../compare/FromFile.tsx';
import { toggleMarking } from '../fit/ByHand.tsx';
import { Fit } from '../fit/Fit.tsx';
import { MirroredFile } from '../fit/MirroredFile.tsx';
import { usePair } from '../state/select.ts';
import { act, setState, useDocument, useStore } from '../state/store.ts';
import { Cautions } from './Cautions.tsx';
import { Conclusion } from './Conclusion.tsx';
import { Evidence } from './Evidence.tsx';
import { FirstReading } from './FirstReading.tsx';
import { Grounds } from './Grounds.tsx';
import { Scale } from './Scale.tsx';
import { StatedFinding } from './StatedFinding.tsx';
import { Wear } from './Wear.tsx';
import './finding.css';

/** The finding, folded until it is asked for, its ground and its limits, and one's own conclusion beside it. */
export function Finding() {
  const { comparison } = usePair();
  const open = useDocument((document) => document.findingOpen);
  if (!comparison) return <Fit />;
  const { judgement, weighed, stated } = comparison;
  return (
    <>
      <FromFile />
      <Again />
      <FirstReading />
      {open && !judgement && !stated && <FirstAnswer weighed={weighed} />}
      {open && stated && (
        <>
          <StatedFinding stated={stated} />
          <Conclusion />
        </>
      )}
      {open && judgement && (
        <>
          <Answer comparison={comparison} />
          <Scale judgement={judgement} />
          <MirroredFile />
          {!comparison.fit.found && <ByPlaces />}
          <Grounds />
          <Limits judgement={judgement} />
          <Conclusion />
          <details className="tables">
            <summary>Tables: every number that was weighed</summary>
            <Evidence judgement={judgement} />
            <Wear zones={judgement.wear.zones} />
          </details>
          <p>
            <button type="button" className="word" onClick={() => cover(false)}>
              cover the finding, to look first
            </button>
          </p>
        </>
      )}
      {!open && (
        <div className="deeds">
          <button type="button" className="deed" onClick={() => cover(true)}>
            {stated ? 'Unfold what the file states' : 'Unfold the finding'}
          </button>
        </div>
      )}
      <Cautions />
    </>
  );
}

function markPlaces(): void {
  setState({ step: 'fit', margin: true });
  toggleMarking();
}

/** Where the search found nothing, the eye may: the way to begin by hand. */
function ByPlaces() {
  const offline = useStore((state) => state.offline);
  if (offline) return null;
  return (
    <p>
      If you see the same places on both,{' '}
      <button type="button" className="word plain" onClick={markPlaces}>
        mark pairs of places
      </button>
      , and the fit begins there.
    </p>
  );
}

const cover = (findingOpen: boolean): void =>
  act(findingOpen ? 'Finding unfolded' : 'Finding covered', (document) => ({ ...document, findingOpen }));

/** The finding as soon as it stands; null where it hangs on the surfaces. */
function FirstAnswer({ weighed }: Pick<ComparisonView, 'weighed'>) {
  return (
    <>
      {weighed && (
        <>
          <p className="finding-sentence">
            <b className="plain-answer">{weighedWords[weighed.finding]}</b>
          </p>
          <Scale judgement={weighed} />
        </>
      )}
      <p role="status">What happened to each of the two is still looked at.</p>
    </>
  );
}

/** The finding's own sentence, its plain answer large, and the state and what it rests on smaller. */
function Answer({ comparison: { judgement, stateSentence } }: { comparison: ComparisonView }) {
  if (!judgement) return null;
  const { plain, rest } = findingParts(judgement, stateSentence);
  return (
    <p className="finding-sentence">
      <b className="plain-answer">{plain}</b> <span className="finding-rest">{rest}</span>
    </p>
  );
}

/** Limits that every comparison has stand behind those of this one. */
const always = new Set<LimitCode>(['calibration', 'notShown', 'absentMark']);

function Limits({ judgement }: { judgement: Judgement }) {
  // That a file is mirrored stands above, with what helps.
  const limits = judgement.limits.filter(({ code }) => code !== 'mirroredFile');
  const own = limits.filter(({ code }) => !always.has(code));
  return (
    <>
      <h3>Limits</h3>
      <ul className="limits">
        {own.map(limitWords).map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      <details className="more-limits">
        <summary>and those of every comparison</summary>
        <ul className="limits">
          {limits
            .filter((limit) => !own.includes(limit))
            .map(limitWords)
            .map((words) => (
              <li key={words}>{words}</li>
            ))}
        </ul>
      </details>
    </>
  );
}
