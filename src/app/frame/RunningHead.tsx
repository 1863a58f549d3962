import { steps } from '../state/document.ts';
import { useAtDoor } from '../state/door.ts';
import { redo, setState, undo, useStore } from '../state/store.ts';
import { numerals, stepWords } from './stepWords.ts';

/** Where a collection is served beside the app, its page says so. */
const collection = document.querySelector<HTMLMetaElement>('meta[name="collection"]')?.content;

/** The line above the plate: the steps of the job as a table of contents, and the few things that concern the whole. */
export function RunningHead() {
  const step = useStore((state) => state.step);
  const atDoor = useAtDoor();
  return (
    <header className="running-head">
      <h1>Ectype</h1>
      <nav aria-label="Steps">
        <ol>
          {steps.map((name, i) => (
            <li key={name}>
              <button
                type="button"
                className="word sc"
                aria-current={step === name ? 'step' : undefined}
                onClick={() => setState({ step: name, margin: true })}
              >
                <span className="numeral">{numerals[i]}</span>
                {stepWords[name]}
              </button>
            </li>
          ))}
          <li className="beside-steps">
            <button
              type="button"
              className="word sc"
              title="One object on two dates: what changed"
              aria-current={step === 'change' ? 'step' : undefined}
              onClick={() => setState({ step: 'change', margin: true })}
            >
              {stepWords.change}
            </button>
          </li>
        </ol>
      </nav>
      <div className="aside">
        {collection && (
          <a className="word" href={collection}>
            collection
          </a>
        )}
        {!atDoor && <WholeWords />}
        {!atDoor && <SchemeWord />}
        <button type="button" className="word" onClick={() => setState({ keysShown: true })}>
          keys
        </button>
      </div>
    </header>
  );
}

/** What concerns the work as a whole; at the front door there is none yet. */
function WholeWords() {
  const margin = useStore((state) => state.margin);
  const past = useStore((state) => state.history.past.at(-1)?.words);
  const future = useStore((state) => state.history.future[0]?.words);
  return (
    <>
      <button type="button" className="word" disabled={!past} title={past} onClick={undo}>
        undo
      </button>
      <button type="button" className="word" disabled={!future} title={future} onClick={redo}>
        redo
      </button>
      <button type="button" className="word" aria-pressed={margin} onClick={() => setState({ margin: !margin })}>
        margin
      </button>
    </>
  );
}

function SchemeWord() {
  const scheme = useStore((state) => state.scheme);
  const next = { system: 'dark', dark: 'light', light: 'system' } as const;
  const words = { system: 'ground: as the system', dark: 'ground: ink', light: 'ground: paper' };
  return (
    <button type="button" className="word" onClick={() => setState({ scheme: next[scheme] })}>
      {words[scheme]}
    </button>
  );
}
