import { type PreparedScan, prepareScan } from '../../core/pipeline.ts';
import { candidateWords } from '../../core/report/words/index.ts';
import type { ScanRow } from '../../store/catalogue.ts';
import type { Store } from '../../store/database/open.ts';
import { fileAt } from '../../store/files.ts';
import { packFace, unpackFace } from '../../store/keptFace.ts';
import { type Candidate, SearchTable, searchDefaults } from '../../store/search.ts';
import { keptFace } from '../../store/steps.ts';
import { type VerifiedPair, verifiedPair } from '../../store/verifiedPair.ts';
import { withCollection } from '../collection/collection.ts';
import { tools } from '../collection/tools.ts';
import { UsageError } from '../errors.ts';
import { scanInput } from '../files.ts';
import { namedFiles, numberFrom, readingOptions, textOf } from '../options.ts';
import { planOutputs } from '../output/outputs.ts';
import { watchOnTerminal } from '../progress.ts';
import { say, sayJson } from '../say.ts';
import type { Verb } from '../verb.ts';

export const find: Verb = {
  name: 'find',
  usage: 'SCAN --in COLLECTION',
  does: 'Candidates for this image in a collection, best first, and then each of them verified. A candidate is what a search puts forward, no more.',
  options: [
    { name: 'in', type: 'string', value: 'COLLECTION', help: 'a folder, or postgres://…?files=FOLDER' },
    { name: 'json', type: 'string', value: 'FILE', help: 'write the candidates there as well (- for standard output)' },
    {
      name: 'want',
      type: 'string',
      value: 'COUNT',
      help: `candidates, at most (${searchDefaults.want} where not stated)`,
    },
    { name: 'not-verified', type: 'boolean', help: 'list the candidates and stop' },
    ...readingOptions.filter(({ name }) => name !== 'repeat'),
  ],
  async run(positionals, values) {
    if (positionals.length !== 1) throw new UsageError('find takes one scan file.');
    const want = numberFrom(textOf(values.want), '--want') ?? searchDefaults.want;
    if (!Number.isInteger(want) || want < 1 || want > 1000)
      throw new UsageError('--want takes a whole number from 1 to 1000.');
    const json = textOf(values.json);
    const outputs = planOutputs({ json, inputs: [...positionals, ...namedFiles(values)] });
    const tell = json === '-' ? () => undefined : say;
    await withCollection(values.in, '--in', async (store) => {
      const prepared = await prepareScan(scanInput(positionals[0], values));
      const listed = await candidatesOf(store, prepared, want);
      tell(listed.length > 0 ? listed.map(lineOf).join('\n') : 'nothing in the collection is like this face');
      const verified = values['not-verified'] ? listed : await verifyAll(store, prepared, listed, tell);
      const record = {
        schema: 'ectype/candidates/1',
        file: prepared.scan.name,
        sha256: prepared.scan.sha256,
        candidates: verified,
      };
      const text = `${JSON.stringify(record, null, 2)}\n`;
      if (json !== undefined && json !== '-') outputs.file(json, text);
      await outputs.write();
      if (json === '-') sayJson(text.trimEnd());
    });
  },
};

/** A candidate with what the catalogue says of it. */
interface Listed extends Omit<Candidate, 'id'> {
  readonly place: number;
  readonly scan: number;
  readonly shelfmark: string;
  readonly kind: string;
  readonly file: string;
  /** The picture's file in the collection. */
  readonly picture: string;
  readonly documentDate: string | null;
  readonly verified?: VerifiedPair;
}

async function candidatesOf(store: Store, { face, scan }: PreparedScan, want: number): Promise<Listed[]> {
  const table = new SearchTable(store, tools.search);
  const found = await table.candidates(tools.search.index(face), undefined, want + 1);
  const listed: Listed[] = [];
  for (const { id, ...why } of found) {
    const row = await store.db
      .selectFrom('scans')
      .innerJoin('faces', 'faces.scan_id', 'scans.id')
      .selectAll('scans')
      .select(['faces.picture', 'faces.source'])
      .where('scans.id', '=', id)
      .executeTakeFirstOrThrow();
    // The very file that is asked with answers nothing.
    if (row.source !== scan.sha256)
      listed.push(listedAs(row, fileAt(store.folder, 'picture', row.picture), why, listed.length + 1));
  }
  return listed.slice(0, want);
}

const listedAs = (row: ScanRow, picture: string, why: Omit<Candidate, 'id'>, place: number): Listed => ({
  place,
  scan: row.id,
  shelfmark: row.shelfmark,
  kind: row.kind,
  file: row.path,
  picture,
  documentDate: row.document_date,
  ...why,
});

const lineOf = ({ place, shelfmark, kind, score, why }: Listed): string =>
  `${String(place).padStart(3)}  ${score.toFixed(1).padStart(6)}  ${shelfmark} (${kind}): ${candidateWords(why)}`;

/** Each candidate compared with the query, told as it comes. */
async function verifyAll(
  store: Store,
  prepared: PreparedScan,
  listed: readonly Listed[],
  tell: (line: string) => void,
): Promise<Listed[]> {
  const query = unpackFace(packFace(prepared));
  const done: Listed[] = [];
  for (const one of listed) {
    const watch = watchOnTerminal();
    const result = verifiedPair(await keptFace(store, one.scan), query, tools.tool, watch);
    watch.done();
    tell(
      `${String(one.place).padStart(3)}  ${result.finding}${result.strength === 'none' ? '' : ` (${result.strength})`}  ${one.shelfmark}: ${result.sentence}`,
    );
    done.push({ ...one, verified: result });
  }
  return done;
}
