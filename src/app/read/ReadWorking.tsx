import { Progress } from '../frame/Progress.tsx';
import { askAgain } from './state/ask.ts';
import { type SlotName, useRead } from './state/readStore.ts';

const words: Readonly<Record<SlotName, string>> = {
  bands: 'The legend',
  face: 'The face',
  strip: 'The strip',
  stack: 'The strips',
  back: 'The back',
  legible: 'The places',
  fragments: 'The fragments',
};
const names: readonly SlotName[] = ['bands', 'stack', 'strip', 'legible', 'back', 'fragments', 'face'];

/** What the room is waiting for, and a way to stop it; what could not be done, in a sentence. */
export function ReadWorking() {
  const slots = useRead((state) => state.slots);
  const leaf = useRead((state) => state.leaf);
  const relevant = names.filter((name) =>
    leaf === 'card' ? name === 'face' : name === leaf || !(name === 'back' || name === 'fragments'),
  );
  const working = relevant.find((name) => slots[name].state?.at === 'working');
  const ended = relevant.find((name) => ['stopped', 'failed'].includes(slots[name].state?.at ?? ''));
  const state = working && slots[working].state;
  if (working && state?.at === 'working') {
    // What is there already only changes: no word about it while a lamp is moved.
    if (slots[working].shown && (working === 'face' || working === 'strip')) return null;
    return <Progress what={words[working]} doing={state.doing.toLowerCase()} fraction={state.fraction} />;
  }
  if (!ended) return null;
  const last = slots[ended].state;
  return (
    <div className="working">
      <p role="alert">
        {last?.at === 'failed' ? last.failure.message : `${words[ended]} was stopped.`}{' '}
        <button type="button" className="word plain" onClick={() => askAgain(ended)}>
          try again
        </button>
      </p>
    </div>
  );
}
