/**
 * Calls `work` for 0 … count − 1 in stretches. A long loop that is entered once stays in the engine's quick compilation to its end; a
 * function that is called again is compiled well in between. `work` must be a function that lives on: one made anew for each call is
 * not compiled any better.
 */
export function inStretches<Job>(
  work: (job: Job, from: number, to: number) => void,
  job: Job,
  count: number,
  atOnce = 16_384,
): void {
  for (let from = 0; from < count; from += atOnce) work(job, from, Math.min(count, from + atOnce));
}
