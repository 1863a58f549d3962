import { create } from 'zustand';
import type { CollectionTold, ScanTold } from '../../../cli/serve/collection/told.ts';
import { ask } from './ask.ts';

export type { ScanTold };
export type Told = CollectionTold;
export type GroupTold = Told['groups']['groups'][number];

export type Room =
  | { readonly at: 'tray' }
  | { readonly at: 'groups' }
  | { readonly at: 'search' }
  | { readonly at: 'group'; readonly id: string }
  | { readonly at: 'pair'; readonly a: number; readonly b: number };

interface State {
  readonly told: Told | null;
  /** Why nothing can be shown. */
  readonly trouble: string | null;
  readonly room: Room;
  /** Objects that the next decision is about. */
  readonly chosen: readonly number[];
  /** Who decides, in their own words; kept in this browser. */
  readonly by: string;
  readonly notice: string | null;
}

const byKey = 'ectype-collection-by';

export const useRooms = create<State>()(() => ({
  told: null,
  trouble: null,
  room: roomOf(location.hash),
  chosen: [],
  by: localStorage.getItem(byKey) ?? '',
  notice: null,
}));

export const { getState: roomsNow, setState: setRooms } = useRooms;

/** The room that an address names. */
export function roomOf(hash: string): Room {
  const group = /^#(group-\d+)$/.exec(hash)?.[1];
  if (group) return { at: 'group', id: group };
  const pair = /^#pair-(\d+)-(\d+)$/.exec(hash);
  if (pair) return { at: 'pair', a: Number(pair[1]), b: Number(pair[2]) };
  return { at: (['groups', 'search'] as const).find((name) => hash === `#${name}`) ?? 'tray' };
}

export const pairAddress = (a: number, b: number): string => `#pair-${Math.min(a, b)}-${Math.max(a, b)}`;

export function signAs(by: string): void {
  localStorage.setItem(byKey, by);
  setRooms({ by });
}

export function choose(scan: number): void {
  setRooms(({ chosen }) => ({
    chosen: chosen.includes(scan) ? chosen.filter((one) => one !== scan) : [...chosen, scan],
  }));
}

export const tell = (notice: string | null): void => setRooms({ notice });

/** Reads the collection as it stands now. */
export async function refresh(): Promise<void> {
  try {
    const told = await ask<Told>('all.json');
    const there = new Set(told.scans.map(({ scan }) => scan));
    setRooms(({ chosen }) => ({ told, trouble: null, chosen: chosen.filter((scan) => there.has(scan)) }));
  } catch (error) {
    setRooms({ trouble: (error as Error).message });
  }
}

/** The address names the room; what others did meanwhile is read whenever one comes back to the page. */
export function keepUpToDate(): void {
  addEventListener('hashchange', () => setRooms({ room: roomOf(location.hash) }));
  addEventListener('focus', () => void refresh());
  void refresh();
}

export const useScan = (scan: number): ScanTold | undefined =>
  useRooms(({ told }) => told?.scans.find((one) => one.scan === scan));

/** The group that an object is a member of, by its number. */
export const groupsByScan = (told: Told): ReadonlyMap<number, GroupTold> =>
  new Map(
    told.groups.groups.flatMap((group) =>
      [...group.possibleMembers, ...group.members].map(({ scan }) => [scan, group] as const),
    ),
  );
