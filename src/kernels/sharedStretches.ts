/**
 * Work by stretches on arrays that two threads see: whoever is free takes the next one. Each stretch writes to places of its own, so it
 * does not matter who does it.
 */
export interface SharedStretches {
  readonly count: number;
  readonly atOnce: number;
  /** How far stretches are taken, and how many of `count` are done. */
  readonly counters: Int32Array;
}

/** Longer than the longest stretch takes on a machine that has much else to do, ms. */
const patienceMs = 60_000;

export const sharedStretches = (count: number, atOnce: number): SharedStretches => ({
  count,
  atOnce,
  counters: new Int32Array(new SharedArrayBuffer(8)),
});

/** `work` for stretches until none is left to take; see `inStretches`. */
export function takeStretches<Job>(
  work: (job: Job, from: number, to: number) => void,
  job: Job,
  { count, atOnce, counters }: SharedStretches,
): void {
  for (;;) {
    const from = Atomics.add(counters, 0, atOnce);
    if (from >= count) return;
    const to = Math.min(count, from + atOnce);
    work(job, from, to);
    Atomics.add(counters, 1, to - from);
    Atomics.notify(counters, 1);
  }
}

export const nothingLeft = ({ count, counters }: SharedStretches): boolean => Atomics.load(counters, 0) >= count;

/** Returns when the other thread has done what it took; by then it is in the middle of one stretch at most. */
export function awaitStretches({ count, counters }: SharedStretches): void {
  let late = 0;
  for (let done = Atomics.load(counters, 1); done < count; done = Atomics.load(counters, 1)) {
    late = Atomics.wait(counters, 1, done, patienceMs) === 'timed-out' ? late + 1 : 0;
    // Once may be a machine that slept.
    if (late > 1) throw new Error('A thread does not finish what it began.');
  }
}
