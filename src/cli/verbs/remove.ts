import type { ScanRow } from '../../store/catalogue.ts';
import type { Store } from '../../store/database/open.ts';
import { removeScan } from '../../store/remove.ts';
import { withCollection } from '../collection/collection.ts';
import { UsageError } from '../errors.ts';
import { textOf } from '../options.ts';
import { say } from '../say.ts';
import type { Verb } from '../verb.ts';

export const remove: Verb = {
  name: 'remove',
  usage: 'SHELFMARK --in COLLECTION --by NAME',
  does: 'Takes one scan out of a collection, with its face, candidates and verified pairs. Its file is not touched; that it was taken out, by whom, when and why is kept. What others had it verified for goes on to their next candidates, by ectype worker. Adding its file again brings it back.',
  options: [
    { name: 'in', type: 'string', value: 'COLLECTION', help: 'a folder, or postgres://…?files=FOLDER' },
    { name: 'by', type: 'string', value: 'NAME', help: 'who takes it out' },
    { name: 'words', type: 'string', value: 'TEXT', help: 'why' },
    { name: 'file', type: 'string', value: 'FILE', help: 'which one, where several scans have this shelfmark' },
  ],
  async run(positionals, values) {
    if (positionals.length !== 1) throw new UsageError('remove takes one shelfmark.');
    const by = textOf(values.by)?.trim() ?? '';
    if (!by) throw new UsageError('say who takes it out with --by NAME.');
    const words = textOf(values.words)?.trim() ?? '';
    await withCollection(values.in, '--in', async (store) => {
      const scan = await scanNamed(store, positionals[0], values.file);
      await removeScan(store, scan.id, { by, at: new Date().toISOString(), words });
      say(`${scan.shelfmark} is taken out; its file ${scan.path} stays where it is.`);
    });
  },
};

async function scanNamed({ db }: Store, shelfmark: string, file: string | boolean | undefined): Promise<ScanRow> {
  const named = await db.selectFrom('scans').selectAll().where('shelfmark', '=', shelfmark).orderBy('id').execute();
  const found = typeof file === 'string' ? named.filter(({ path }) => path.endsWith(file)) : named;
  if (found.length === 1) return found[0];
  if (named.length === 0) throw new UsageError(`no object of the collection has the shelfmark "${shelfmark}".`);
  const files = named.map(({ path }) => path).join('; ');
  throw new UsageError(`"${shelfmark}" is the shelfmark of ${named.length} scans; say which with --file: ${files}.`);
}
