import { helping, listener, movable, type OpenWorker, openWorker } from '../../workers/browser/openWorker.ts';
import type { Answer, FaceView, ScanOrder, Told } from '../../workers/browser/protocol.ts';
import { stopJobs } from './runner.ts';

interface Both {
  readonly first: OpenWorker;
  /** Reads scans ahead, and does parts of what the first compares. */
  readonly second: OpenWorker;
}

let opened: Both | null = null;

function both(): Both {
  if (opened) return opened;
  opened = { first: openWorker(), second: openWorker() };
  helping(opened.first, opened.second);
  return opened;
}

/** What the worker does; it is started when it is first asked. */
export const services = (): OpenWorker['services'] => both().first.services;

/** Stops all that runs. The workers are ended, since they cannot listen while they work; new ones start when needed. */
export function stopWork(): void {
  stopJobs();
  opened?.first.close();
  opened?.second.close();
  opened = null;
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

/** Begins to read a scan in the second worker. */
export function readAhead(order: ScanOrder): void {
  if (ahead.has(order.key)) return;
  const told = listener((fraction, doing) => one.tell(fraction, doing));
  const answer = both()
    .second.services.prepare(order, null, told)
    .catch(() => null);
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
    const moved = await opened?.second.services.give(order.key).catch(() => null);
    if (moved) {
      await services().take(movable(moved));
      return answer;
    }
  }
  // A unit that the scan leaves open is settled with its partner, which the first worker knows.
  return services().prepare(order, partner, told);
}

export const isAhead = (key: string): boolean => ahead.has(key);
