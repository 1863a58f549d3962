export const stepNames = ['read', 'face', 'fit', 'compare', 'judge'] as const;
export type StepName = (typeof stepNames)[number];

/** What a long step is given to report on itself and to be stopped: no clock, no console, no DOM. */
export interface Watch {
  /** `fraction` of the whole job done, 0 to 1, and a short plain phrase for what is being done. */
  progress?(fraction: number, doing: string): void;
  /** A step of the pipeline begins: the caller, who has a clock, may note when. */
  step?(name: StepName): void;
  /** An AbortSignal, or anything that says whether to stop. */
  readonly signal?: { readonly aborted: boolean };
}

/** Thrown when a `Watch` said stop. */
export class Cancelled extends Error {
  constructor() {
    super('Cancelled.');
    this.name = 'Cancelled';
  }
}

/** Reports progress; throws `Cancelled` if the job was stopped. */
export function report(watch: Watch, fraction: number, doing: string): void {
  if (watch.signal?.aborted) throw new Cancelled();
  watch.progress?.(fraction, doing);
}

/** A watch for a part of the job that runs from `from` to `to` of the whole. */
export const partOf = (watch: Watch, from: number, to: number): Watch => ({
  signal: watch.signal,
  step: (name) => watch.step?.(name),
  progress: (fraction, doing) => watch.progress?.(from + fraction * (to - from), doing),
});
