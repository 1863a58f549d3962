import type { Selectable } from 'kysely';
import {
  type Decision,
  type Grouping,
  groupObjects,
  type Known,
  type Link,
  regroup,
} from '../core/collection/index.ts';
import type { ScanRow } from './catalogue.ts';
import type { Db, DecisionsTable, LinksTable } from './database/tables.ts';

/** The groups of a collection, and what they speak of; objects go by the number of their scan, as text. */
export interface Grouped {
  readonly grouping: Grouping;
  readonly scans: ReadonlyMap<string, ScanRow>;
  readonly links: readonly (Link & { readonly byTool: string })[];
  readonly known: readonly Known[];
  readonly decisions: readonly Decision[];
}

/** Groups what is ready. From an earlier result only what lies about new or changed objects is worked out; the outcome is the same. */
export async function groupedOf(db: Db, before: Grouped | null = null): Promise<Grouped> {
  const rows = await db.selectFrom('scans').selectAll().where('state', '=', 'ready').orderBy('id').execute();
  const scans = new Map(rows.map((row) => [String(row.id), row]));
  const links = (await db.selectFrom('links').selectAll().execute()).map(linkIn);
  const known = (await db.selectFrom('known').selectAll().execute()).map(
    ({ a_id, b_id, relation }): Known => ({ a: String(a_id), b: String(b_id), relation }),
  );
  const decisions = (await db.selectFrom('decisions').selectAll().orderBy('id').execute()).map(decisionIn);
  const objects = [...scans.keys()].map((id) => ({ id }));
  const now = { scans, links, known, decisions };
  const all = [objects, links, known, decisions, links.length] as const;
  const grouping = before ? regroup(before.grouping, changedObjects(before, now), ...all) : groupObjects(...all);
  return { grouping, ...now };
}

/** Objects that came or went, or that a link, relation or decision names which came, went or changed. */
function changedObjects(before: Grouped, now: Omit<Grouped, 'grouping'>): string[] {
  const changed = new Set<string>();
  const differ = <T>(old: readonly T[], fresh: readonly T[], names: (one: T) => readonly string[]): void => {
    const [was, is] = [old, fresh].map((list) => new Map(list.map((one) => [JSON.stringify(one), one])));
    for (const [key, one] of [...was, ...is])
      if (!(was.has(key) && is.has(key))) for (const id of names(one)) changed.add(id);
  };
  differ([...before.scans.keys()], [...now.scans.keys()], (id) => [id]);
  differ(before.links, now.links, ({ a, b }) => [a, b]);
  differ(before.known, now.known, ({ a, b }) => [a, b]);
  differ(before.decisions, now.decisions, ({ members }) => members);
  // Who was tied by way of an object that is gone has lost that way.
  for (const { members, possibleMembers } of before.grouping.groups) {
    const all = [...members, ...possibleMembers.map(({ id }) => id)];
    if (all.some((id) => !now.scans.has(id))) for (const id of all) changed.add(id);
  }
  return [...changed];
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
    ...(row.places !== null && { places: row.places }),
  };
}

export const decisionIn = ({ kind, members, by_whom, at, words }: Selectable<DecisionsTable>): Decision => ({
  kind,
  members: JSON.parse(members) as string[],
  by: by_whom,
  at,
  words,
});
