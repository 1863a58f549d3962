import { dirname, join, resolve } from 'node:path';
import { writeCsv } from '../../core/scan/index.ts';
import { addScans, failedScans } from '../../store/catalogue.ts';
import type { Store } from '../../store/database/open.ts';
import { failedJobs, tryAgain } from '../../store/jobList.ts';
import type { Manifest, RowError } from '../../store/manifest.ts';
import { withCollection } from '../collection/collection.ts';
import { workOn } from '../collection/doing.ts';
import { UsageError } from '../errors.ts';
import { manifestAt } from '../manifest.ts';
import { textOf } from '../options.ts';
import { planOutputs } from '../output/outputs.ts';
import { say, sayJson } from '../say.ts';
import type { Verb } from '../verb.ts';

export const add: Verb = {
  name: 'add',
  usage: 'MANIFEST.csv --to COLLECTION',
  does: 'Catalogues and indexes many scans and verifies what is like one another. MANIFEST.csv has the columns file, shelfmark, kind, and as wanted seal, side, material, unit, scale_uncertainty, instrument, document_date, cast_of, sides_of, scan_of; files lie relative to it. Can be stopped at any time and gone on with by the same command. Rows that cannot be used are listed in COLLECTION/errors.csv.',
  options: [
    {
      name: 'to',
      type: 'string',
      value: 'COLLECTION',
      help: 'a folder, made where there is none, or postgres://…?files=FOLDER',
    },
    { name: 'json', type: 'string', value: 'FILE', help: 'write what was done there as well (- for standard output)' },
    {
      name: 'again',
      type: 'boolean',
      help: 'try again what was given up, because it failed or ended the program too often',
    },
    { name: 'only-list', type: 'boolean', help: 'put the scans on the list and leave the work to ectype worker' },
  ],
  async run(positionals, values) {
    if (positionals.length !== 1) throw new UsageError('add takes one manifest, a CSV file.');
    const [path] = positionals;
    const manifest = manifestAt(path);
    const json = textOf(values.json);
    await withCollection(values.to, '--to', async (store) => {
      const outputs = planOutputs({ files: [join(store.folder, 'errors.csv')], json, inputs: [path] });
      const { errors, ...counts } = await addScans(store, manifest.rows, dirname(path));
      if (values.again) await tryAgain(store.db);
      if (!values['only-list']) await workOn(store);
      const all = [...manifest.errors, ...errors, ...(await errorsOf(store, manifest, path))];
      all.sort((a, b) => a.line - b.line);
      outputs.file(join(store.folder, 'errors.csv'), errorsTable(all));
      const record = { schema: 'ectype/added/1', collection: store.folder, scans: counts, errors: all };
      const text = `${JSON.stringify(record, null, 2)}\n`;
      if (json !== undefined && json !== '-') outputs.file(json, text);
      await outputs.write();
      if (json === '-') sayJson(text.trimEnd());
      else say(summary(counts, all, store));
    });
  },
};

/** Scans of the collection that cannot be used, with their rows in this manifest (0 where an earlier one brought them), and jobs that failed. */
async function errorsOf(store: Store, { rows }: Manifest, path: string): Promise<RowError[]> {
  const stated = new Map(rows.map((row) => [resolve(dirname(path), row.file as string), row]));
  const scans = (await failedScans(store.db)).map((scan): RowError => {
    const { line = 0, file = scan.path } = stated.get(scan.path) ?? {};
    return {
      line,
      file: file as string,
      words: `${line ? `row ${line}, ` : ''}${scan.shelfmark}: ${withStop(scan.error ?? '')}`,
    };
  });
  const jobs = (await failedJobs(store.db)).map(({ kind, a, b, error }) => ({
    line: 0,
    file: '',
    words: `${kind} of scan ${a}${b ? ` and ${b}` : ''} failed: ${withStop(error)}`,
  }));
  return [...scans, ...jobs];
}

const withStop = (text: string): string => (text.endsWith('.') ? text : `${text}.`);

const errorsTable = (errors: readonly RowError[]): string =>
  writeCsv([['row', 'file', 'error'], ...errors.map(({ line, file, words }) => [line || '', file, words])]);

function summary(
  { added, changed, unchanged }: { added: number; changed: number; unchanged: number },
  errors: readonly RowError[],
  { folder }: Store,
): string {
  const lines = [`${added} ${added === 1 ? 'scan' : 'scans'} added, ${changed} made anew, ${unchanged} as they were`];
  if (errors.length > 0) lines.push(`${errors.length} errors, in ${join(folder, 'errors.csv')}:`);
  const shown = errors.slice(0, 10).map(({ words }) => words);
  if (errors.length > shown.length) shown.push(`and ${errors.length - shown.length} more`);
  return [...lines, ...shown].join('\n');
}
