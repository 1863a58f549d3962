import * as Comlink from 'comlink';
import type { Told } from './protocol.ts';
import type { WholeBench } from './readingProtocol.ts';

export interface OpenBench {
  readonly bench: Comlink.Remote<WholeBench>;
  /** Stops whatever runs, at once; the bench cannot be used afterwards. */
  close(): void;
}

/** Starts the worker that does the work. The only place that names the worker's file. */
export function openBench(): OpenBench {
  const worker = new Worker(new URL('./bench.ts', import.meta.url), { type: 'module', name: 'bench' });
  return { bench: Comlink.wrap<WholeBench>(worker), close: () => worker.terminate() };
}

/** A progress listener that can travel to the worker. */
export const listener = (told: Told): Told => Comlink.proxy(told);
