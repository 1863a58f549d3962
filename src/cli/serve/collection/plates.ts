import type { Store } from '../../../store/database/open.ts';
import { getFile } from '../../../store/files.ts';
import type { Grouped } from '../../../store/grouping.ts';
import { keptDefaults, packFace, unpackFace } from '../../../store/keptFace.ts';

/** A negative leaves the collection coarser than it is kept. */
export const servedFace = { ...keptDefaults, negativeAcross: 240, negativePitchMm: 0.2 };

export async function pictureOf({ db, folder }: Store, hash: string): Promise<Uint8Array | null> {
  const known = await db.selectFrom('faces').select('picture').where('picture', '=', hash).executeTakeFirst();
  return known ? getFile(folder, 'picture', hash) : null;
}

/** The kept face of a scan, to be lit in the browser; that of a matrix or mould reduced once more. */
export async function faceOf({ db, folder }: Store, scan: number): Promise<Uint8Array | null> {
  const face = await db
    .selectFrom('faces')
    .innerJoin('scans', 'scans.id', 'scan_id')
    .select(['relief', 'sense', 'kind'])
    .where('scan_id', '=', scan)
    .executeTakeFirst();
  if (!face) return null;
  const kept = getFile(folder, 'relief', face.relief);
  const negative = face.sense === 'intaglio' || face.kind === 'matrix' || face.kind === 'mould';
  return negative ? packFace(unpackFace(kept), servedFace) : kept;
}

/** What a search found that two scans share. */
interface Shared {
  readonly turnDeg: number;
  readonly turnedOver: boolean;
  readonly mirrored: boolean;
  readonly onQuery: readonly number[];
  readonly onCandidate: readonly number[];
}

/** A pair of scans: its verified link, and the places that agree on both, in their frames in the impression's sense, mm. */
export async function pairOf({ db }: Store, { links }: Grouped, a: number, b: number) {
  const link = links.find((one) => [one.a, one.b].includes(String(a)) && [one.a, one.b].includes(String(b)));
  const rows = await db
    .selectFrom('candidates')
    .select(['scan_id', 'score', 'why'])
    .where((is) =>
      is.or([
        is.and([is('scan_id', '=', a), is('other_id', '=', b)]),
        is.and([is('scan_id', '=', b), is('other_id', '=', a)]),
      ]),
    )
    .orderBy('score', 'desc')
    .execute();
  const [best] = rows;
  if (!best) return { link: link ?? null, places: null, turnDeg: null };
  const why = JSON.parse(best.why) as Shared;
  const asked = best.scan_id === a;
  const places = asked ? { a: why.onQuery, b: why.onCandidate } : { a: why.onCandidate, b: why.onQuery };
  const proper = !why.turnedOver && !why.mirrored;
  return {
    link: link ?? null,
    places: why.onQuery && proper ? places : null,
    /** Counter-clockwise, brings b upright beside a. */
    turnDeg: proper ? (asked ? -why.turnDeg : why.turnDeg) : null,
  };
}

/**
 * The verified links within a group, and the turn of each member, degrees counter-clockwise in the impression's sense, that brings it
 * upright beside the first: by the pairs that a search laid on one another, the surest first, one after another. A matrix comes first.
 */
export async function membersOf({ db }: Store, { grouping, links, scans }: Grouped, name: string) {
  const group = grouping.groups.find(({ id }) => name === `group-${id}`);
  if (!group) return null;
  const all = [...group.members, ...group.possibleMembers.map(({ id }) => id)];
  const among = new Set(all);
  const ids = all.map(Number);
  const rows = await db
    .selectFrom('candidates')
    .select(['scan_id', 'other_id', 'score', 'why'])
    .where('scan_id', 'in', ids)
    .where('other_id', 'in', ids)
    .orderBy('score', 'desc')
    .execute();
  const turns = rows.flatMap(({ scan_id: from, other_id: to, why }) => {
    const { turnDeg, turnedOver, mirrored } = JSON.parse(why) as Shared;
    return turnedOver || mirrored || turnDeg === undefined ? [] : [{ from, to, turnDeg }];
  });
  const first = all.find((id) => scans.get(id)?.kind === 'matrix') ?? all[0];
  return {
    links: links.filter(({ a, b }) => among.has(a) && among.has(b)),
    turns: spread(Number(first), turns),
  };
}

interface Turn {
  readonly from: number;
  readonly to: number;
  readonly turnDeg: number;
}

/** Turns against the first along the surest pairs (a greatest spanning tree, Prim's); `pairs` from the surest down. */
export function spread(first: number, pairs: readonly Turn[]): Record<number, number> {
  const known = new Map([[first, 0]]);
  for (;;) {
    const next = pairs.find(({ from, to }) => known.has(from) !== known.has(to));
    if (!next) return Object.fromEntries(known);
    const { from, to, turnDeg } = next;
    if (known.has(to)) known.set(from, (known.get(to) ?? 0) + turnDeg);
    else known.set(to, (known.get(from) ?? 0) - turnDeg);
  }
}
