import type { Store } from '../../store/database/open.ts';
import { waitingScans } from '../../store/jobList.ts';
import type { Job } from '../../store/jobs.ts';
import { type Standing, work } from '../../store/work.ts';
import { watchOnTerminal } from '../progress.ts';
import { warn } from '../say.ts';
import { placeTold } from './placeTold.ts';
import { tools } from './tools.ts';

const words: Readonly<Record<Job['kind'], string>> = {
  prepare: 'finding the face of scan',
  search: 'looking for candidates for scan',
  verify: 'verifying the pair of scans',
};

/** Works until no job is left, with progress where standard error is a terminal; of a few new scans it is said there where they stand, as soon as they do. */
export async function workOn(store: Store): Promise<void> {
  const watch = watchOnTerminal();
  const tell = placeTold(store, await waitingScans(store.db), warn);
  try {
    await work(store, tools, async (standing) => {
      await tell(standing);
      watch.progress?.(standing.ended / Math.max(1, standing.all), wordsOf(standing));
    });
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
