import { setTimeout as wait } from 'node:timers/promises';
import { OutputError } from '../cli/output/errors.ts';
import { isProcessAlive, thisProcess } from '../cli/output/lock.ts';
import { ScanError } from '../core/scan/index.ts';
import type { Store } from './database/open.ts';
import { countJobs } from './jobList.ts';
import { endJob, freeJobs, type Job, jobDefaults, takeJob } from './jobs.ts';
import { addRounds, lockScans } from './rounds.ts';
import { doJob, Memory, type Tools } from './steps.ts';

/** How many jobs there are and how many of them are ended. */
export interface Standing {
  readonly ended: number;
  readonly all: number;
  readonly doing: Job | null;
}

/** Between two looks at a queue where others still work, ms. */
const pauseMs = 100;

/** Between two counts of the list while there is work, ms. */
const countedEveryMs = 1000;

/**
 * Takes and does jobs until none is left, those that others hold included. What was taken when the process ends is free for
 * the next: on this computer at once, on another when its lease lapses. Throws where the collection cannot be written.
 */
export async function work(
  store: Store,
  tools: Tools,
  tell: (standing: Standing) => void | Promise<void> = () => undefined,
): Promise<void> {
  const worker = nameOfWorker();
  const memory = new Memory(store, tools.search);
  let standing: Standing = { ended: 0, all: 0, doing: null };
  let counted = Number.NEGATIVE_INFINITY;
  for (;;) {
    const job = await takeJob(store, worker);
    // Counting a long list takes longer than a short job.
    if (!job || performance.now() - counted > countedEveryMs) {
      standing = await standingOf(store);
      counted = performance.now();
    }
    await tell({ ...standing, doing: job });
    if (job) await doOne(store, memory, job, worker, tools);
    else if (standing.ended === standing.all) return;
    else {
      await freeJobs(store.db, isGone);
      await wait(pauseMs);
    }
  }
}

async function doOne(store: Store, memory: Memory, job: Job, worker: string, tools: Tools): Promise<void> {
  let refused: string;
  try {
    if (job.tries > jobDefaults.mostTries)
      refused = `it ended the program ${jobDefaults.mostTries} times and was given up; ectype add --again tries it once more`;
    else {
      await endJob(store, job, worker, await doJob(store, memory, job, tools));
      return;
    }
  } catch (error) {
    // A full disk is not the scan's fault: the job is free again when this process has ended.
    if (error instanceof OutputError) throw error;
    refused = wordsOf(error);
  }
  await endJob(store, job, worker, (trx) => refuse(store, trx, job, refused), refused);
}

type Trx = Parameters<Parameters<typeof endJob>[3]>[0];

async function refuse(store: Store, trx: Trx, { kind, a, b }: Job, words: string): Promise<void> {
  if (kind === 'prepare')
    await trx.updateTable('scans').set({ state: 'failed', error: words }).where('id', '=', a).execute();
  if (kind !== 'verify') return;
  await lockScans(store, trx, [a, b]);
  for (const id of [a, b]) await addRounds(trx, id);
}

function wordsOf(error: unknown): string {
  if (error instanceof ScanError && error.unitChoice)
    return `the unit cannot be told from the file; write ${error.unitChoice.units.join(' or ')} in the column unit`;
  return error instanceof Error ? error.message : String(error);
}

async function standingOf({ db }: Store): Promise<Standing> {
  const counts = await countJobs(db);
  const sum = (states: readonly string[]): number =>
    counts.filter(({ state }) => states.includes(state)).reduce((total, { count }) => total + count, 0);
  const ended = sum(['done', 'failed']);
  return { ended, all: ended + sum(['waiting', 'taken']), doing: null };
}

/** A worker's name tells its computer and process. */
const nameOfWorker = (): string => JSON.stringify(thisProcess());

function isGone(worker: string): boolean {
  return !isProcessAlive(JSON.parse(worker));
}
