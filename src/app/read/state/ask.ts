import type { Answer, Told } from '../../../workers/browser/protocol.ts';
import type { ReadingServices } from '../../../workers/browser/readingProtocol.ts';
import type { Keyed } from '../../jobs/progress.ts';
import { Latest, runOnce } from '../../jobs/runner.ts';
import { services } from '../../jobs/workers.ts';
import { getState } from '../../state/store.ts';
import { type SlotName, type Slots, setRead, useRead } from './readStore.ts';

/** What is asked of the worker, and a name for it that changes when the answer would. */
export interface Question<T> {
  readonly key: string;
  ask(reading: ReadingServices, told: Told): Promise<Answer<T>>;
}

const lanes = new Map<SlotName, Latest<unknown>>();

/** Where readings are worked out: in the worker, or in the page itself where a saved page has none. */
async function readingServices(): Promise<ReadingServices> {
  if (!getState().offline) return services() as unknown as ReadingServices;
  const { openReadingHere } = await import('./readingHere.ts');
  return openReadingHere();
}

/** Asks, unless that is what was asked last. While one question runs only the newest waits. */
export function want<N extends SlotName>(name: N, { key, ask }: Question<Slots[N]>): void {
  const lane = (lanes.get(name) ?? new Latest<Slots[N]>()) as Latest<Slots[N]>;
  lanes.set(name, lane as Latest<unknown>);
  const asked = lane.asked ?? useRead.getState().slots[name].state?.key;
  if (asked === key) return;
  lane.want({
    key,
    ask: async (told) => ask(await readingServices(), told),
    show: (state) => setSlot(name, state),
  });
}

/** Asks once, beside the slots; 'stopped' where the worker was ended meanwhile. */
export const askOnce = <T>(ask: Question<T>['ask']): Promise<Answer<T> | 'stopped'> =>
  runOnce(async (told) => ask(await readingServices(), told));

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
