import { writeFileSync } from 'node:fs';
import { notWritten } from './errors.ts';
import type { Content } from './filesList.ts';
import { type Place, statOf } from './place.ts';
import { isStream } from './refuse.ts';
import { type Made, type Staged, stage, toDisk } from './staging.ts';

/** All aside, then all in place; a signal or an error before that takes everything away again. */
export async function writeAll(made: ReadonlyMap<Place, Made>): Promise<void> {
  const undo: Array<() => void> = [];
  const takeBack = (): void => {
    for (const each of undo.splice(0).reverse()) each();
  };
  const forget = onSignal(takeBack);
  let at = '';
  try {
    const staged: Array<readonly [Place, Staged]> = [];
    for (const [place, content] of made) {
      at = place.stated;
      if (!(content instanceof Map) && isStreamAt(place)) writeFileSync(place.path, content as Content);
      else staged.push([place, await stage(place, content, undo)]);
    }
    // From here to the end of the loop nothing else runs: a signal waits.
    for (const [place, each] of staged) {
      at = place.stated;
      each.put();
    }
    for (const [place, each] of staged) {
      each.clear();
      await toDisk(place.parent);
    }
  } catch (error) {
    throw notWritten(at, error);
  } finally {
    takeBack();
    forget();
  }
}

const isStreamAt = (place: Place): boolean => {
  const stat = statOf(place.path);
  return stat !== null && isStream(stat);
};

/** Calls `takeBack` when the run is told to stop, and then stops as it would have; the function that comes back ends that. */
function onSignal(takeBack: () => void): () => void {
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
  const stop = (signal: NodeJS.Signals): void => {
    forget();
    takeBack();
    process.kill(process.pid, signal);
  };
  const forget = (): void => {
    for (const signal of signals) process.off(signal, stop);
  };
  for (const signal of signals) process.on(signal, stop);
  return forget;
}
