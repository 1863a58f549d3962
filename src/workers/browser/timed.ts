import type { Watch } from '../../core/geometry/index.ts';

/** Milliseconds at which a job's progress first reached each of `marks`, and at which it began. */
export interface Clocked {
  readonly watch: Watch;
  /** Seconds between the begin, each mark and now. */
  seconds(): number[];
}

/** A watch that also notes when each share of the whole was reached. */
export function clocked(watch: Watch, marks: readonly number[]): Clocked {
  const begin = performance.now();
  const reached: number[] = [];
  return {
    watch: {
      ...watch,
      progress(fraction, doing) {
        while (reached.length < marks.length && fraction >= marks[reached.length]) reached.push(performance.now());
        watch.progress?.(fraction, doing);
      },
    },
    seconds() {
      const now = performance.now();
      const times = [begin, ...marks.map((_, i) => reached[i] ?? now), now];
      return times.slice(1).map((time, i) => (time - times[i]) / 1000);
    },
  };
}
