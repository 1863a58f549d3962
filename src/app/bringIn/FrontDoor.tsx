import { useEffect, useState } from 'react';
import type { Step } from '../state/document.ts';
import { useAtDoor } from '../state/door.ts';
import { act, setState, useStore } from '../state/store.ts';
import { ChooseFiles } from './ChooseFiles.tsx';
import { LeftWork } from './LeftWork.tsx';
import { layDatedSamples, layPair, type SampleDates, type SampleList, type SamplePair, sampleList } from './samples.ts';
import './bringIn.css';

interface Question {
  readonly asks: string;
  readonly story: string;
  readonly step: Step;
  /** The samples that answer it; none: those that lie there. */
  readonly pair?: SamplePair;
  /** Whether the finding is unfolded. */
  readonly told?: boolean;
  /** Another story behind the same question: one object on two dates. */
  readonly dates?: string;
}

const questions: readonly Question[] = [
  {
    asks: 'Was this pressed from this matrix?',
    story: 'A priory’s matrix, and wax that may come from it: see the answer, and why.',
    step: 'finding',
    told: true,
  },
  {
    asks: 'What does it say?',
    story: 'A small seal whose legend is read letter by letter under a moving light.',
    step: 'read',
    pair: { reference: 'odric-matrix.glb', subject: 'odric-impression.ply' },
  },
  {
    asks: 'What has happened to it?',
    story: 'A worn and broken impression beside its matrix: what lies lower, is lost, is cut.',
    step: 'compare',
    pair: { reference: 'averholt-matrix.glb', subject: 'averholt-impression-worn.glb' },
    dates: 'Or one seal scanned twice, years apart: what changed between the two.',
  },
];

/** The three questions that can be asked here, each with a story behind it, and the one place for what is one's own. */
export function FrontDoor() {
  // A page that is a saved comparison by itself has no other samples beside it.
  const offline = useStore((state) => state.offline);
  const opening = useAtDoor() && !offline;
  const [list, setList] = useState<SampleList>({ samples: [] });
  useEffect(() => {
    if (opening) void sampleList().then(setList);
  }, [opening]);
  if (!opening) return null;
  const there = ({ pair }: Question): boolean =>
    !pair || [pair.reference, pair.subject].every((file) => list.samples.some((sample) => sample.file === file));
  return (
    <div className="front-door">
      <ul>
        {questions.filter(there).map((question) => (
          <li key={question.asks}>
            <button type="button" className="question-door" onClick={() => void ask(question)}>
              <b>{question.asks}</b>
              <span>{question.story}</span>
            </button>
            {question.dates && list.dates?.[0] && (
              <button
                type="button"
                className="question-door other-story"
                onClick={() => void layDatedSamples((list.dates as SampleDates[])[0])}
              >
                <span>{question.dates}</span>
              </button>
            )}
          </li>
        ))}
      </ul>
      <div className="drop-place">
        <p>Or drop scans of your own anywhere on this page: two are compared, one is read.</p>
        <div className="deeds">
          <ChooseFiles quiet />
        </div>
        <p className="soft">Nothing leaves this computer. What lies here is simulated.</p>
      </div>
      <LeftWork />
    </div>
  );
}

async function ask({ step, pair, told }: Question): Promise<void> {
  if (pair) await layPair(pair);
  if (told) act('Question asked', (document) => ({ ...document, findingOpen: true }));
  setState({ step });
}
