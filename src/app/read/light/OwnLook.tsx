import { useState } from 'react';
import { type LookInput, parseLook } from '../../../core/read/index.ts';
import { download } from '../../state/download.ts';
import { settle, useDocument } from '../../state/store.ts';
import { actOnRead } from '../state/acts.ts';
import { useLook, useLooks } from '../state/current.ts';
import { freeName, withLamp } from '../state/looks.ts';
import { draws, fieldOf, type Step, type StepKind, stepKinds, withField } from './stepKinds.ts';

/** A look of the user's own: begun from one that is there, changed step by step, kept with the comparison. */
export function OwnLook() {
  const own = useDocument((document) => document.read.looks);
  const lamp = useDocument((document) => document.read.lamp);
  const looks = useLooks();
  const [strip, face] = [useLook('strip'), useLook('face')];
  const edited = own.find(({ name }) => name === strip.name) ?? own.find(({ name }) => name === face.name);
  const begin = (): void => {
    const look = { ...withLamp(strip, lamp), name: freeName(`${strip.name}, changed`, looks) };
    actOnRead('Look of your own', { looks: [...own, look], stripLook: look.name, faceLook: look.name, lamp: null });
  };
  return (
    <>
      <h3>Look</h3>
      {edited ? (
        <Editor look={edited} />
      ) : (
        <p className="seats">
          <button type="button" className="word plain" onClick={begin}>
            change “{strip.name}” into one of your own
          </button>
        </p>
      )}
    </>
  );
}

function Editor({ look }: { look: LookInput }) {
  const document = useDocument((now) => now.read);
  const put = (next: LookInput, words = 'Look changed', merge: string | null = null): void => {
    const renamed = (name: string): string => (name === look.name ? next.name : name);
    const looks = document.looks.map((one) => (one.name === look.name ? next : one));
    const uses = { stripLook: renamed(document.stripLook), faceLook: renamed(document.faceLook) };
    actOnRead(words, { looks, ...uses, lamp: null }, merge);
  };
  const setStep = (index: number, step: Step): void =>
    put({ ...look, steps: look.steps.map((one, i) => (i === index ? step : one)) }, 'Look changed', `step ${index}`);
  const without = (index: number): void => put({ ...look, steps: look.steps.filter((_, i) => i !== index) });
  const earlier = (index: number): void => {
    const steps = [...look.steps];
    steps.splice(index - 1, 2, steps[index], steps[index - 1]);
    put({ ...look, steps });
  };
  const remove = (): void =>
    actOnRead('Look put away', {
      looks: document.looks.filter((one) => one.name !== look.name),
      stripLook: document.stripLook === look.name ? 'Faint legend' : document.stripLook,
      faceLook: document.faceLook === look.name ? 'Raking light' : document.faceLook,
    });
  const others = new Set(document.looks.map(({ name }) => name).filter((name) => name !== look.name));
  return (
    <>
      <input
        type="text"
        aria-label="Name of the look"
        value={look.name}
        onChange={(event) =>
          event.target.value !== '' &&
          !others.has(event.target.value) &&
          put({ ...look, name: event.target.value }, 'Look renamed', 'look name')
        }
        onBlur={settle}
      />
      <ol className="look-steps">
        {look.steps.map((step, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: steps have no names and keep their place
          <li key={i}>
            <StepForm
              step={step}
              first={i === 0}
              alone={look.steps.length === 1}
              onSet={(next) => setStep(i, next)}
              onEarlier={() => earlier(i)}
              onRemove={() => without(i)}
            />
          </li>
        ))}
      </ol>
      <p className="seats">
        <select
          className="look-select"
          aria-label="Add a step"
          value=""
          onChange={(event) =>
            put({ ...look, steps: [...look.steps, stepKinds[event.target.value as StepKind].first] })
          }
        >
          <option value="" disabled>
            add a step
          </option>
          {Object.entries(stepKinds).map(([kind, { words }]) => (
            <option key={kind} value={kind}>
              {words}
            </option>
          ))}
        </select>
        <button type="button" className="word" onClick={remove}>
          put it away
        </button>
      </p>
      <AsJson look={look} onSet={(next) => put(next)} />
    </>
  );
}

interface StepFormProps {
  readonly step: Step;
  readonly first: boolean;
  readonly alone: boolean;
  onSet(step: Step): void;
  onEarlier(): void;
  onRemove(): void;
}

function StepForm({ step, first, alone, onSet, onEarlier, onRemove }: StepFormProps) {
  const { words, fields } = stepKinds[step.do];
  const share = draws(step) && !first ? [{ name: 'share', label: 'share, 0 to 1', step: 0.05, min: 0 }] : [];
  return (
    <>
      <p className="look-step-head">
        <span>{words}</span>
        <button type="button" className="word" disabled={first} onClick={onEarlier}>
          earlier
        </button>
        <button type="button" className="word" disabled={alone} onClick={onRemove}>
          leave out
        </button>
      </p>
      <div className="read-fields">
        {[...fields, ...share].map(({ name, label, step: by, min }) => (
          <label key={name}>
            <span>{label}</span>
            <input
              type="number"
              step={by}
              min={min}
              value={fieldOf(step, name) ?? ''}
              placeholder="as usual"
              onChange={(event) => {
                const next = withField(step, name, Number(event.target.value));
                if (event.target.value !== '' && isValid(next)) onSet(next);
              }}
              onBlur={settle}
            />
          </label>
        ))}
      </div>
    </>
  );
}

function isValid(step: Step): boolean {
  try {
    parseLook({ name: 'one', steps: [step] });
    return true;
  } catch {
    return false;
  }
}

/** The look as it is kept, to be carried elsewhere or written by hand. */
function AsJson({ look, onSet }: { look: LookInput; onSet(look: LookInput): void }) {
  const text = JSON.stringify(look, null, 1);
  const [draft, setDraft] = useState<string | null>(null);
  const [fault, setFault] = useState('');
  const take = (): void => {
    try {
      onSet(parseLook(JSON.parse(draft ?? text)) as LookInput);
      setDraft(null);
      setFault('');
    } catch (error) {
      setFault(error instanceof SyntaxError ? 'This is not JSON.' : (error as Error).message);
    }
  };
  return (
    <details className="apparatus">
      <summary>As JSON</summary>
      <textarea
        rows={8}
        aria-label="The look as JSON"
        aria-invalid={fault !== ''}
        value={draft ?? text}
        onChange={(event) => setDraft(event.target.value)}
      />
      {fault && <p className="fault">{fault}</p>}
      <p className="seats">
        <button type="button" className="word plain" disabled={draft === null} onClick={take}>
          take this
        </button>
        <button
          type="button"
          className="word plain"
          onClick={() => download(new Blob([text], { type: 'application/json' }), 'look.json')}
        >
          save as a file
        </button>
      </p>
    </details>
  );
}
