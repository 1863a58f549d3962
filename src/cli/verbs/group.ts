import type { Decision } from '../../core/collection/index.ts';
import type { Store } from '../../store/database/open.ts';
import { decide } from '../../store/decide.ts';
import { groupedOf } from '../../store/grouping.ts';
import { countJobs } from '../../store/jobList.ts';
import { withCollection } from '../collection/collection.ts';
import { groupRecord } from '../collection/groupRecord.ts';
import { groupTable, groupWords } from '../collection/groupWords.ts';
import { acceptedStatements, statementsJsonLd, statementsTei } from '../collection/statements.ts';
import { UsageError } from '../errors.ts';
import { textOf, type Values } from '../options.ts';
import { planOutputs } from '../output/outputs.ts';
import { say, sayJson } from '../say.ts';
import type { Verb } from '../verb.ts';

const deciding = ['join', 'split', 'name', 'note'] as const;

export const group: Verb = {
  name: 'group',
  usage: '--in COLLECTION [--json FILE]',
  does: 'Groups of one matrix or faithful copies of it, from the verified pairs of a collection, with descent of casts. Decisions by hand are signed, dated, kept and respected by later runs.',
  options: [
    { name: 'in', type: 'string', value: 'COLLECTION', help: 'a folder, or postgres://…?files=FOLDER' },
    { name: 'json', type: 'string', value: 'FILE', help: 'write the groups there as well (- for standard output)' },
    { name: 'csv', type: 'string', value: 'FILE', help: 'one row for each object' },
    { name: 'jsonld', type: 'string', value: 'FILE', help: 'accepted pairs as attributed statements' },
    { name: 'tei', type: 'string', value: 'FILE', help: 'the same as TEI relations' },
    {
      name: 'join',
      type: 'string',
      value: 'SHELFMARK;SHELFMARK;…',
      help: 'decide that these are of one matrix; accepts the pairs among them',
    },
    { name: 'split', type: 'string', value: 'SHELFMARK;SHELFMARK;…', help: 'decide that no two of these are' },
    { name: 'name', type: 'string', value: 'SHELFMARK', help: 'name the group of this object, by --words' },
    { name: 'note', type: 'string', value: 'SHELFMARK;…', help: 'put a note, --words, with the group of these' },
    { name: 'by', type: 'string', value: 'NAME', help: 'who decides' },
    { name: 'words', type: 'string', value: 'TEXT', help: 'why, or the name or the note' },
  ],
  async run(positionals, values) {
    if (positionals.length > 0)
      throw new UsageError('group takes no files; ectype add brings them into the collection.');
    const [json, csv, jsonld, tei] = ['json', 'csv', 'jsonld', 'tei'].map((name) => textOf(values[name]));
    const outputs = planOutputs({ json, files: [csv, jsonld, tei] });
    await withCollection(values.in, '--in', async (store) => {
      const decision = await decisionFrom(store, values);
      if (decision) await decide(store, decision);
      const grouped = await groupedOf(store.db);
      const record = groupRecord(grouped);
      const statements = acceptedStatements(grouped);
      const text = `${JSON.stringify(record, null, 2)}\n`;
      if (json !== undefined && json !== '-') outputs.file(json, text);
      if (csv !== undefined) outputs.file(csv, groupTable(record));
      if (jsonld !== undefined) outputs.file(jsonld, statementsJsonLd(statements));
      if (tei !== undefined) outputs.file(tei, statementsTei(statements));
      await outputs.write();
      if (json === '-') sayJson(text.trimEnd());
      else say([groupWords(record), ...(await unfinished(store))].join('\n'));
    });
  },
};

/** Says where the groups rest on a part of the work only. */
async function unfinished({ db }: Store): Promise<string[]> {
  const left = (await countJobs(db)).filter(({ state }) => state === 'waiting' || state === 'taken');
  const count = left.reduce((sum, each) => sum + each.count, 0);
  return count > 0
    ? ['', `${count} jobs are not done yet: more may be tied. ectype worker --in COLLECTION goes on with them.`]
    : [];
}

/** What the options decide, or null. */
async function decisionFrom(store: Store, values: Values): Promise<Decision | null> {
  const stated = deciding.filter((kind) => values[kind] !== undefined);
  if (stated.length === 0) {
    if (values.by !== undefined || values.words !== undefined)
      throw new UsageError('--by and --words belong to a decision: --join, --split, --name or --note.');
    return null;
  }
  if (stated.length > 1) throw new UsageError(`--${stated.join(' and --')}: decide one thing at a time.`);
  const [kind] = stated;
  const by = textOf(values.by)?.trim();
  if (!by) throw new UsageError(`--${kind}: say who decides it with --by NAME.`);
  const words = textOf(values.words)?.trim() ?? '';
  if (!words && (kind === 'name' || kind === 'note')) throw new UsageError(`--${kind}: give it with --words TEXT.`);
  const members = await scansNamed(store, String(values[kind]).split(';'), kind);
  if (members.length < 2 && (kind === 'join' || kind === 'split'))
    throw new UsageError(`--${kind}: name two objects or more, separated by semicolons.`);
  return { kind, members, by, at: new Date().toISOString(), words };
}

async function scansNamed({ db }: Store, names: readonly string[], kind: string): Promise<string[]> {
  const ids: string[] = [];
  for (const name of names.map((each) => each.trim()).filter(Boolean)) {
    const rows = await db.selectFrom('scans').select('id').where('shelfmark', '=', name).execute();
    if (rows.length === 0) throw new UsageError(`--${kind}: no object of the collection has the shelfmark "${name}".`);
    ids.push(...rows.map(({ id }) => String(id)));
  }
  return ids;
}
