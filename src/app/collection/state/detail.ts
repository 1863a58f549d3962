import { useEffect, useState } from 'react';
import { ask } from './ask.ts';
import { groupsByScan, useRooms } from './rooms.ts';

/** What links a group, and how its members lie. */
export interface Detail {
  readonly links: ReadonlyArray<{
    readonly a: string;
    readonly b: string;
    readonly finding: string;
    readonly strength: string;
    readonly score: number | null;
  }>;
  /** By scan: the turn, degrees counter-clockwise, that brings a member upright beside the first. */
  readonly turns: Readonly<Record<string, number>>;
}

export function useDetail(id: string | undefined): Detail | null {
  const told = useRooms((state) => state.told);
  const [detail, setDetail] = useState<Detail | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is known of a group may change with the collection
  useEffect(() => {
    let wanted = true;
    if (id === undefined) setDetail(null);
    else
      ask<Detail>(`groups/${id}.json`)
        .then((found) => wanted && setDetail(found))
        .catch(() => wanted && setDetail(null));
    return () => {
      wanted = false;
    };
  }, [id, told]);
  return detail;
}

/** The turn that brings a scan upright as the sheet of its group shows it; 0 where it is in none. */
export function useUpright(scan: number): number {
  const id = useRooms(({ told }) => (told ? groupsByScan(told).get(scan)?.id : undefined));
  return useDetail(id)?.turns[scan] ?? 0;
}
