import type { Store } from '../../store/database/open.ts';
import type { Job } from '../../store/jobs.ts';
import { type Standing, work } from '../../store/work.ts';
import { watchOnTerminal } from '../progress.ts';
import { tools } from './tools.ts';

const words: Readonly<Record<Job['kind'], string>> = {
  prepare: 'finding the face of scan',
  search: 'looking for candidates for scan',
  verify: 'verifying the pair of scans',
};

/** Works until no job is left, with progress where standard error is a terminal. */
export async function workOn(store: Store): Promise<void> {
  const watch = watchOnTerminal();
  try {
    await work(store, tools, (standing) =>
      watch.progress?.(standing.ended / Math.max(1, standing.all), wordsOf(standing)),
    );
  } finally {
    watch.done();
  }
}

function wordsOf({ doing, ended, all }: Standing): string {
  const what = doing
    ? `${words[doing.kind]} ${doing.a}${doing.b ? ` and ${doing.b}` : ''}`
    : 'waiting for other workers';
  return `${ended} of ${all} jobs; ${what}`;
}
