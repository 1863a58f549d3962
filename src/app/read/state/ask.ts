import { listener } from '../../../workers/browser/openBench.ts';
import type { Answer, Told } from '../../../workers/browser/protocol.ts';
import type { ReadingBench } from '../../../workers/browser/readingProtocol.ts';
import type { Keyed } from '../../state/store.ts';
import { getState } from '../../state/store.ts';
import { bench, whenStopped } from '../../state/work.ts';
import { type SlotName, type Slots, setRead, useRead } from './readStore.ts';

/** What is asked of the bench, and a name for it that changes when the answer would. */
export interface Question<T> {
  readonly key: string;
  ask(reading: ReadingBench, told: Told): Promise<Answer<T>>;
}

interface Line {
  running: string | null;
  next: { key: string; run(): Promise<void> } | null;
}
const lines = new Map<SlotName, Line>();

/** Where readings are worked out: in the worker, or in the page itself where a saved page has none. */
async function readingBench(): Promise<ReadingBench> {
  if (!getState().offline) return bench() as unknown as ReadingBench;
  const { openReadingHere } = await import('./readingHere.ts');
  return openReadingHere();
}

/** Asks, unless that is what was asked last. While one question runs only the newest waits: the ones between are dropped. */
export function want<N extends SlotName>(name: N, question: Question<Slots[N]>): void {
  const line = lines.get(name) ?? { running: null, next: null };
  lines.set(name, line);
  const asked = line.next?.key ?? line.running ?? useRead.getState().slots[name].state?.key;
  if (asked === question.key) return;
  line.next = { key: question.key, run: () => follow(name, question) };
  if (line.running === null) void advance(line);
}

async function advance(line: Line): Promise<void> {
  while (line.next) {
    const { key, run } = line.next;
    line.running = key;
    line.next = null;
    await run();
    line.running = null;
  }
}

async function follow<N extends SlotName>(name: N, { key, ask }: Question<Slots[N]>): Promise<void> {
  let over = false;
  const show = (state: Keyed<Slots[N]>): void => setSlot(name, state);
  show({ key, at: 'working', fraction: 0, doing: 'starting' });
  const told = listener((fraction, doing) => {
    if (!over) show({ key, at: 'working', fraction, doing });
  });
  const stop = stopping();
  const result = await Promise.race([answered(ask, told), stop.stopped]);
  stop.forget();
  over = true;
  if (result === 'stopped') show({ key, at: 'stopped' });
  else if (result.ok) show({ key, at: 'ready', value: result.value });
  else show({ key, at: 'failed', failure: result });
}

async function answered<T>(ask: Question<T>['ask'], told: Told): Promise<Answer<T>> {
  try {
    return await ask(await readingBench(), told);
  } catch (error) {
    const words = error instanceof Error ? error.message : String(error);
    return { ok: false, code: 'unexpected', message: `This could not be worked out: ${words}` };
  }
}

/** Asks once, beside the slots; 'stopped' where the worker was ended meanwhile. */
export async function askOnce<T>(ask: Question<T>['ask']): Promise<Answer<T> | 'stopped'> {
  const stop = stopping();
  const result = await Promise.race([
    answered(
      ask,
      listener(() => undefined),
    ),
    stop.stopped,
  ]);
  stop.forget();
  return result;
}

/** Resolves when the worker is ended. */
function stopping(): { readonly stopped: Promise<'stopped'>; forget(): void } {
  let tell = (): void => undefined;
  const stopped = new Promise<'stopped'>((resolve) => {
    tell = () => resolve('stopped');
  });
  whenStopped.add(tell);
  return { stopped, forget: () => whenStopped.delete(tell) };
}

function setSlot<N extends SlotName>(name: N, state: Keyed<Slots[N]>): void {
  setRead(({ slots }) => {
    const shown = state.at === 'ready' ? { key: state.key, value: state.value } : slots[name].shown;
    return { slots: { ...slots, [name]: { state, shown } } };
  });
}

/** Lets a stopped or failed question be asked again. */
export function askAgain(name: SlotName): void {
  setRead(({ slots }) => ({ slots: { ...slots, [name]: { ...slots[name], state: null } } }));
}
