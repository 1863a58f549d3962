import { byName, doubtWords, namesOf, sizeWords } from '../../core/report/words/index.ts';
import type { ComparisonView } from '../../workers/browser/protocol.ts';
import { Wear } from '../finding/Wear.tsx';
import { Fit } from '../fit/Fit.tsx';
import { number, percent } from '../look/numbers.ts';
import { onlyOpening } from '../state/document.ts';
import { usePair } from '../state/select.ts';
import { setState, useDocument, useStore } from '../state/store.ts';
import { Again } from './Again.tsx';
import { FromFile } from './FromFile.tsx';
import { Landmarks } from './Landmarks.tsx';
import { Marks } from './Marks.tsx';
import { Section } from './Section.tsx';
import { LaySection } from './SectionEnds.tsx';
import './compare.css';

/** What the eye should go through before the finding: size, differences, marks, a section where one is drawn. */
export function Compare() {
  const { comparison } = usePair();
  const line = useDocument((document) => document.view.section);
  const open = useDocument((document) => document.findingOpen);
  if (!comparison) return <Fit />;
  const { fit, difference, judgement, stated } = comparison;
  const measuring = fit.found && !difference && !judgement && !stated;
  return (
    <>
      <BackToDoor />
      <FromFile />
      <Again />
      {[...fit.doubts.map(doubtWords), ...(stated?.doubts ?? [])].map((doubt) => (
        <p key={doubt} className="doubt">
          {doubt}
        </p>
      ))}
      <Section />
      {!line && <LaySection />}
      {measuring && <p role="status">Depth differences are being measured.</p>}
      {difference && <Differences difference={difference} stated={stated?.size} />}
      <Marks />
      <Landmarks />
      {(judgement || stated) && <Wear zones={judgement?.wear.zones ?? stated?.zones ?? []} />}
      <div className="deeds">
        <button type="button" className="deed" onClick={() => setState({ step: 'finding' })}>
          {open ? 'To the finding' : 'On to the finding'}
        </button>
      </div>
    </>
  );
}

/** As long as only the demonstration lies here. */
function BackToDoor() {
  const offline = useStore((state) => state.offline);
  const opening = useDocument(onlyOpening) && !offline;
  if (!opening) return null;
  return (
    <p className="soft">
      What lies here is simulated.{' '}
      <button type="button" className="word plain" onClick={() => setState({ step: 'door', handLamp: null })}>
        back to the three questions
      </button>
    </p>
  );
}

/** Sentences about reference and subject, told of what the two are. */
function useNamed(): (words: string) => string {
  const { reference, subject, comparison } = usePair();
  const judgement = comparison?.judgement;
  if (!reference || !subject) return (words) => words;
  const names = namesOf({ reference, subject, judgement: judgement ?? { rolesConfidence: 1 } });
  return (words) => byName(words, names);
}

interface DifferencesProps {
  readonly difference: NonNullable<ComparisonView['difference']>;
  /** What a saved file says of the size. */
  readonly stated: readonly string[] | undefined;
}

function Differences({ difference, stated = [] }: DifferencesProps) {
  const { whole, size, levelOfDetectionMm } = difference;
  const named = useNamed();
  return (
    <>
      <h3>Depth differences</h3>
      <p className="num">
        Median {number(whole.medianMm, 3)} mm; half of them within {number(whole.madMm, 3)} mm of it, 95 % within{' '}
        {number(whole.p95Mm, 2)} mm of zero. Below {number(levelOfDetectionMm, 3)} mm nothing is measurable.{' '}
        {percent(whole.coveredFraction)} of the image on a is compared.
      </p>
      <h3>Size</h3>
      {[...size.reading.map(sizeWords), ...stated].map((line, i) => (
        <p key={line} className={i === 0 ? 'num' : 'soft'}>
          {named(line)}
          {i === 0 && ` Across ${number(size.x, 4)}, along ${number(size.y, 4)}, in depth ${number(size.depth, 3)}.`}
        </p>
      ))}
    </>
  );
}
