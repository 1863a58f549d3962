import { withCollection } from '../collection/collection.ts';
import { workOn } from '../collection/doing.ts';
import { UsageError } from '../errors.ts';
import { say } from '../say.ts';
import type { Verb } from '../verb.ts';

export const worker: Verb = {
  name: 'worker',
  usage: '--in COLLECTION',
  does: 'One more worker on a collection: takes jobs until none is left. Several may run at once; on one folder on this computer, on PostgreSQL on any that sees its files. One that is killed loses at most its job.',
  options: [{ name: 'in', type: 'string', value: 'COLLECTION', help: 'a folder, or postgres://…?files=FOLDER' }],
  async run(positionals, values) {
    if (positionals.length > 0) throw new UsageError('worker takes no files; ectype add puts them on the list.');
    await withCollection(values.in, '--in', async (store) => {
      await workOn(store);
      say('no job is left');
    });
  },
};
