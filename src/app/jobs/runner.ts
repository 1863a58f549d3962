import { listener } from '../../workers/browser/openWorker.ts';
import type { Answer, Failure, Told } from '../../workers/browser/protocol.ts';
import type { Keyed } from './progress.ts';

/** Something that takes long: what is asked, a name that changes when the answer would, and who shows how it goes. */
export interface Job<T> {
  readonly key: string;
  ask(told: Told): Promise<Answer<T>>;
  show(state: Keyed<T>): void;
}

/** One for each job that runs: ends the waiting for it. */
const running = new Set<() => void>();

/** Runs one job. It never throws; progress that arrives after the result is not shown. */
export async function run<T>({ key, ask, show }: Job<T>): Promise<void> {
  let over = false;
  show({ key, at: 'working', fraction: 0, doing: 'starting' });
  const told = listener((fraction, doing) => {
    if (!over) show({ key, at: 'working', fraction, doing });
  });
  let stop = (): void => undefined;
  const stopped = new Promise<'stopped'>((resolve) => {
    stop = () => resolve('stopped');
  });
  running.add(stop);
  const result = await Promise.race([answered(ask, told), stopped]);
  running.delete(stop);
  over = true;
  if (result === 'stopped') show({ key, at: 'stopped' });
  else if (result.ok) show({ key, at: 'ready', value: result.value });
  else show({ key, at: 'failed', failure: result });
}

async function answered<T>(ask: Job<T>['ask'], told: Told): Promise<Answer<T>> {
  try {
    return await ask(told);
  } catch (error) {
    return failed(`The work on this step broke off: ${error instanceof Error ? error.message : String(error)}`);
  }
}

export const failed = (message: string): Failure => ({ ok: false, code: 'unexpected', message });

/** Runs a job of which only the outcome is shown. */
export async function runOnce<T>(ask: Job<T>['ask']): Promise<Answer<T> | 'stopped'> {
  let outcome: Answer<T> | 'stopped' = 'stopped';
  await run<T>({
    key: '',
    ask,
    show: (state) => {
      if (state.at === 'ready') outcome = { ok: true, value: state.value };
      if (state.at === 'failed') outcome = state.failure;
    },
  });
  return outcome;
}

/** Tells every job that nobody waits for its answer any longer. */
export function stopJobs(): void {
  for (const stop of [...running]) stop();
}

/** One job at a time: as soon as none runs, the next is asked for. */
export class Lane {
  /** Key of the job that runs. */
  running: string | null = null;
  // biome-ignore lint/suspicious/noExplicitAny: jobs of one lane have results of many types
  private readonly next: () => Job<any> | null;

  // biome-ignore lint/suspicious/noExplicitAny: as above
  constructor(next: () => Job<any> | null) {
    this.next = next;
  }

  async wake(): Promise<void> {
    if (this.running !== null) return;
    for (let job = this.next(); job; job = this.next()) {
      this.running = job.key;
      await run(job);
      this.running = null;
    }
  }
}

/** A lane where only the newest job waits: those between are dropped. */
export class Latest<T> {
  private waiting: Job<T> | null = null;
  private readonly lane = new Lane(() => {
    const job = this.waiting;
    this.waiting = null;
    return job;
  });

  /** Key of what was asked for last and is not over. */
  get asked(): string | null {
    return this.waiting?.key ?? this.lane.running;
  }

  want(job: Job<T>): void {
    this.waiting = job;
    void this.lane.wake();
  }
}
