import * as z from 'zod';
import type { Store } from '../../../store/database/open.ts';
import { decide } from '../../../store/decide.ts';
import { type Grouped, groupedOf } from '../../../store/grouping.ts';
import { removeScan } from '../../../store/remove.ts';
import type { Answer, Asked, Beside } from '../appServer.ts';
import type { StaticFile } from '../staticTable.ts';
import { faceOf, membersOf, pairOf, pictureOf } from './plates.ts';
import { Searching, type Verify } from './searching.ts';
import { collectionTold, groupsTold, scansTold } from './told.ts';

const id = z.number().int().positive();
const person = z.string().trim().min(1).max(200);
const text = z.string().trim().max(4000);

const decisionAsked = z.object({
  kind: z.enum(['join', 'split', 'name', 'note']),
  members: z.array(id).min(1).max(10_000),
  by: person,
  words: text,
  seen: z.number().int().min(0),
});
const removalAsked = z.object({ scan: id, by: person, words: text });
const verificationAsked = z.union([
  z.object({ query: z.string().regex(/^[0-9a-f]{64}$/), scan: id }),
  z.object({ a: id, b: id }),
]);

/** What is served of a collection, below /collection/: see docs/collection.md. Nothing of the scans themselves. */
export function collectionServer(store: Store, verify: Verify, page: StaticFile | undefined): Beside {
  const searching = new Searching(store, verify);
  let last: Grouped | null = null;
  const grouped = async (): Promise<Grouped> => {
    last = await groupedOf(store.db, last);
    return last;
  };
  return async (asked) => {
    const [, where] = /^\/collection\/(.*)$/.exec(asked.path) ?? [];
    if (where === undefined) return null;
    return asked.method === 'GET' ? shown(store, grouped, where, page) : done(store, grouped, searching, where, asked);
  };
}

async function shown(
  store: Store,
  grouped: () => Promise<Grouped>,
  where: string,
  page: StaticFile | undefined,
): Promise<Answer | null> {
  const numbers = (pattern: RegExp): number[] | undefined => pattern.exec(where)?.slice(1).map(Number);
  const picture = /^pictures\/([0-9a-f]{64})\.png$/.exec(where)?.[1];
  if (picture) return bytes('image/png', await pictureOf(store, picture));
  const face = numbers(/^faces\/(\d{1,9})$/);
  if (face) return bytes('application/octet-stream', await faceOf(store, face[0]));
  const pair = numbers(/^pairs\/(\d{1,9})-(\d{1,9})\.json$/);
  if (pair) return json(await pairOf(store, await grouped(), pair[0], pair[1]));
  const group = /^groups\/(group-\d{1,9})\.json$/.exec(where)?.[1];
  if (group) {
    const told = await membersOf(store, await grouped(), group);
    return told && json(told);
  }
  if (where === '') return page ?? null;
  if (where === 'all.json') return json(await collectionTold(store, await grouped()));
  if (where === 'scans.json') return json({ schema: 'ectype/scans/1', scans: await scansTold(store) });
  if (where === 'groups.json') return json(groupsTold(await grouped()));
  return null;
}

async function done(
  store: Store,
  grouped: () => Promise<Grouped>,
  searching: Searching,
  where: string,
  asked: Asked,
): Promise<Answer | null> {
  if (where === 'decisions') return decided(store, grouped, asked);
  if (where === 'removals') return removed(store, asked);
  if (where === 'searches') {
    const found = await searching.find(asked.body);
    return found ? json(found) : refused('This is not a face as it is kept.');
  }
  if (where !== 'verifications') return null;
  const order = inside(verificationAsked, asked.body);
  if (!order) return refused('Say what is to be compared.');
  asked.patience();
  const pair =
    'query' in order ? await searching.verified(order.query, order.scan) : await searching.compared(order.a, order.b);
  return pair ? json(pair) : json({ words: 'One of the two is no longer there; search again.' }, 410);
}

async function decided(store: Store, grouped: () => Promise<Grouped>, { body }: Asked): Promise<Answer> {
  const order = inside(decisionAsked, body);
  if (!order) return refused('A decision says what, of which objects, and who decides it.');
  const { kind, by, words, seen } = order;
  const members = [...new Set(order.members)].map(String);
  if (members.length < 2 && (kind === 'join' || kind === 'split')) return refused('Choose two objects or more.');
  if (!words && (kind === 'name' || kind === 'note')) return refused('Write the name or the note.');
  const { grouping } = await grouped();
  const concerned = grouping.groups.flatMap((group) =>
    group.members.some((one) => members.includes(one)) ? group.members : [],
  );
  const decision = { kind, members, by, words, at: new Date().toISOString() };
  const outcome = await decide(store, decision, { last: seen, concerned });
  return json(outcome, outcome.kept ? 200 : 409);
}

async function removed(store: Store, { body }: Asked): Promise<Answer> {
  const order = inside(removalAsked, body);
  if (!order) return refused('Say which scan, and who takes it out.');
  const { scan, by, words } = order;
  const there = await removeScan(store, scan, { by, words, at: new Date().toISOString() });
  return json({ removed: there }, there ? 200 : 410);
}

function inside<T>(schema: z.ZodType<T>, body: Uint8Array): T | null {
  try {
    const parsed = schema.safeParse(JSON.parse(Buffer.from(body).toString('utf8')));
    return parsed.success ? parsed.data : null;
  } catch {
    return null;
  }
}

const refused = (words: string): Answer => json({ words }, 400);

const json = (value: object, status = 200): Answer => ({
  type: 'application/json; charset=utf-8',
  bytes: Buffer.from(`${JSON.stringify(value)}\n`),
  status,
});

const bytes = (type: string, found: Uint8Array | null): Answer | null => found && { type, bytes: found };
