import type { Selectable } from 'kysely';
import { type Decision, type Grouping, groupObjects, type Known, type Link } from '../core/collection/index.ts';
import type { ScanRow } from './catalogue.ts';
import type { Db, DecisionsTable, LinksTable } from './database/tables.ts';

/** The groups of a collection, and what they speak of; objects go by the number of their scan, as text. */
export interface Grouped {
  readonly grouping: Grouping;
  readonly scans: ReadonlyMap<string, ScanRow>;
  readonly links: readonly (Link & { readonly byTool: string })[];
  readonly decisions: readonly Decision[];
}

/** Groups what is ready. */
export async function groupedOf(db: Db): Promise<Grouped> {
  const rows = await db.selectFrom('scans').selectAll().where('state', '=', 'ready').orderBy('id').execute();
  const scans = new Map(rows.map((row) => [String(row.id), row]));
  const links = (await db.selectFrom('links').selectAll().execute()).map(linkIn);
  const known = (await db.selectFrom('known').selectAll().execute()).map(
    ({ a_id, b_id, relation }): Known => ({ a: String(a_id), b: String(b_id), relation }),
  );
  const decisions = (await db.selectFrom('decisions').selectAll().orderBy('id').execute()).map(decisionIn);
  const objects = [...scans.keys()].map((id) => ({ id }));
  return { grouping: groupObjects(objects, links, known, decisions, links.length), scans, links, decisions };
}

function linkIn(row: Selectable<LinksTable>): Link & { readonly byTool: string } {
  const { image_left_a: a, image_left_b: b } = row;
  return {
    a: String(row.a_id),
    b: String(row.b_id),
    finding: row.finding as Link['finding'],
    question: row.question as Link['question'],
    score: row.score,
    strength: row.strength as Link['strength'],
    descent: row.descent,
    imageLeft: a === null || b === null ? null : [a, b],
    state: row.state as Link['state'],
    byTool: row.by_tool,
  };
}

const decisionIn = ({ kind, members, by_whom, at, words }: Selectable<DecisionsTable>): Decision => ({
  kind,
  members: JSON.parse(members) as string[],
  by: by_whom,
  at,
  words,
});

/** Keeps what a person decided; members are numbers of scans. */
export async function addDecision(db: Db, { kind, members, by, at, words }: Decision): Promise<void> {
  await db
    .insertInto('decisions')
    .values({ kind, members: JSON.stringify(members), by_whom: by, at, words })
    .execute();
}
