import { objectLabel, provisionalWords } from '../../core/report/words/index.ts';
import type { Store } from '../../store/database/open.ts';
import { type Grouped, groupedOf } from '../../store/grouping.ts';
import type { Job } from '../../store/jobs.ts';
import type { Standing } from '../../store/work.ts';
import { groupRecord } from './groupRecord.ts';

/** Of so many new scans at most the place is told as soon as it stands. */
const mostTold = 5;

/**
 * Says of each new scan, once, in which group it stands as soon as a verified pair puts it there, while the rest is still verified. Called before
 * every job with how the work stands.
 */
export function placeTold(store: Store, added: readonly number[], say: (line: string) => void) {
  const open = new Set(added.length > mostTold ? [] : added);
  let before: Grouped | null = null;
  let last: Job | null = null;
  return async ({ doing }: Standing): Promise<void> => {
    const ended = last;
    last = doing;
    if (ended?.kind !== 'verify' || !(open.has(ended.a) || open.has(ended.b))) return;
    before = await groupedOf(store.db, before);
    const { groups } = groupRecord(before);
    for (const group of groups) {
      const all = [...group.members, ...group.possibleMembers];
      for (const one of all.filter(({ scan }) => open.has(scan))) {
        open.delete(one.scan);
        const others = all.filter(({ scan }) => scan !== one.scan).map(objectLabel);
        say(provisionalWords(objectLabel(one), group, others));
      }
    }
  };
}
