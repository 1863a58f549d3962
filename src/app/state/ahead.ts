import { listener, movable, type OpenBench, openBench } from '../../workers/browser/openBench.ts';
import type { Answer, FaceView, ScanOrder, Told } from '../../workers/browser/protocol.ts';

/** A scan that a second worker reads while the first is busy. */
interface Ahead {
  /** Null where the second worker broke off. */
  readonly answer: Promise<Answer<FaceView> | null>;
  /** Who wants to know how far it is, once somebody waits for it. */
  tell: Told;
}

let second: OpenBench | null = null;
const ahead = new Map<string, Ahead>();

export const aheadOf = (key: string): Ahead | undefined => ahead.get(key);

/** Begins to read a scan in the second worker, which is started when it is first needed. */
export function readAheadOf(order: ScanOrder): void {
  if (ahead.has(order.key)) return;
  second ??= openBench();
  const one: Ahead = {
    tell: () => undefined,
    answer: second.bench
      .prepare(
        order,
        null,
        listener((fraction, doing) => one.tell(fraction, doing)),
      )
      .catch(() => null),
  };
  ahead.set(order.key, one);
}

/** Moves what the second worker has read to the first; false where it is not there. */
export async function handOver(key: string, to: OpenBench['bench']): Promise<boolean> {
  ahead.delete(key);
  const moved = await second?.bench.give(key).catch(() => null);
  if (!moved) return false;
  await to.take(movable(moved));
  return true;
}

/** Ends the second worker and whatever it reads. */
export function forgetAhead(): void {
  ahead.clear();
  second?.close();
  second = null;
}
