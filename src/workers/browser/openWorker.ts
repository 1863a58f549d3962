import * as Comlink from 'comlink';
import { arraysIn } from './arraysIn.ts';
import type { Told } from './protocol.ts';
import type { WorkerServices } from './readingProtocol.ts';

export interface OpenWorker {
  readonly services: Comlink.Remote<WorkerServices>;
  /** Stops whatever runs, at once; the services cannot be used afterwards. */
  close(): void;
}

/** Workers that were started before anybody asked for one. */
const waiting: Worker[] = [];

/** Starts the worker that does the work. The only place that names the worker's file. */
const start = (): Worker =>
  new Worker(new URL('./comparisonWorker.ts', import.meta.url), { type: 'module', name: 'comparison' });

/** Starts workers while the page's own script is still being read. */
export function warmWorkers(count: number): void {
  for (let i = 0; i < count; i++) waiting.push(start());
}

export function openWorker(): OpenWorker {
  const worker = waiting.shift() ?? start();
  return { services: Comlink.wrap<WorkerServices>(worker), close: () => worker.terminate() };
}

/** On two processors the engine compiles for the first worker beside it, and a second one that must compile the same only adds to that. */
const processors = 3;

/** From now on the second does parts of what the first compares, where there are processors to spare. */
export function helping(first: OpenWorker, second: OpenWorker): void {
  if (navigator.hardwareConcurrency < processors) return;
  const { port1, port2 } = new MessageChannel();
  void second.services.helpAt(Comlink.transfer(port2, [port2]));
  void first.services.helpedBy(Comlink.transfer(port1, [port1]));
}

/** A function of the page that can travel to the worker. */
export const called = <T extends object>(callback: T): T => Comlink.proxy(callback) as T;
/** A progress listener that can travel to the worker. */
export const listener = (told: Told): Told => called(told);
/** A plain object whose arrays move with it. */
export const movable = <T>(value: T): T => Comlink.transfer(value, arraysIn(value));
