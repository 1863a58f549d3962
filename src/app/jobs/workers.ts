import { listener, movable, type OpenWorker, openWorker } from '../../workers/browser/openWorker.ts';
import type { Answer, FaceView, ScanOrder, Told } from '../../workers/browser/protocol.ts';
import { stopJobs } from './runner.ts';

let first: OpenWorker | null = null;
let second: OpenWorker | null = null;

/** What the worker does; it is started when it is first asked. */
export function services(): OpenWorker['services'] {
  first ??= openWorker();
  return first.services;
}

/** Stops all that runs. The workers are ended, since they cannot listen while they work; new ones start when needed. */
export function stopWork(): void {
  stopJobs();
  first?.close();
  second?.close();
  first = second = null;
  ahead.clear();
}

/** A scan that the second worker reads while the first is busy. */
interface Ahead {
  /** Null where the second worker broke off. */
  readonly answer: Promise<Answer<FaceView> | null>;
  /** Who wants to know how far it is, once somebody waits for it. */
  tell: Told;
}

const ahead = new Map<string, Ahead>();

/** Begins to read a scan in the second worker, which is started when it is first needed. */
export function readAhead(order: ScanOrder): void {
  if (ahead.has(order.key)) return;
  second ??= openWorker();
  const told = listener((fraction, doing) => one.tell(fraction, doing));
  const answer = second.services.prepare(order, null, told).catch(() => null);
  const one: Ahead = { tell: () => undefined, answer };
  ahead.set(order.key, one);
}

/** Prepares a scan, or takes it over where the second worker has begun with it. */
export async function prepared(order: ScanOrder, partner: ScanOrder | null, told: Told): Promise<Answer<FaceView>> {
  const begun = ahead.get(order.key);
  if (!begun) return services().prepare(order, partner, told);
  begun.tell = told;
  const answer = await begun.answer;
  ahead.delete(order.key);
  if (answer?.ok) {
    const moved = await second?.services.give(order.key).catch(() => null);
    if (moved) {
      await services().take(movable(moved));
      return answer;
    }
  }
  // A unit that the scan leaves open is settled with its partner, which the first worker knows.
  return services().prepare(order, partner, told);
}

export const isAhead = (key: string): boolean => ahead.has(key);
