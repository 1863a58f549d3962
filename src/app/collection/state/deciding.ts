import { create } from 'zustand';
import { objectLabel } from '../../../core/report/words/index.ts';
import { send } from './ask.ts';
import { refresh, roomsNow, setRooms, tell } from './rooms.ts';

export type Kind = 'join' | 'split' | 'name' | 'note';

export interface Order {
  readonly kind: Kind;
  readonly members: readonly number[];
  readonly words: string;
}

interface Outcome {
  readonly kept: boolean;
  readonly newer?: readonly {
    readonly kind: Kind;
    readonly members: readonly string[];
    readonly by: string;
    readonly at: string;
    readonly words: string;
  }[];
  readonly gone?: readonly string[];
}

/** A decision that did not know of another, and that other: the person sees both and chooses. */
export interface Conflict {
  readonly mine: Order;
  readonly newer: NonNullable<Outcome['newer']>;
  readonly gone: readonly string[];
}

export const useConflict = create<{ readonly conflict: Conflict | null }>()(() => ({ conflict: null }));
export const endConflict = (): void => useConflict.setState({ conflict: null });

/** Signs and sends a decision; true where it was kept. What others decided meanwhile on these objects is put beside it first. */
export async function decide(order: Order): Promise<boolean> {
  const { by, told } = roomsNow();
  if (!told) return false;
  if (by.trim() === '') {
    tell('Say who decides: put your name beside it.');
    return false;
  }
  try {
    const { value } = await send<Outcome>('decisions', { ...order, by, seen: told.seen });
    await refresh();
    if (value.kept) {
      tell(null);
      endConflict();
      return true;
    }
    useConflict.setState({ conflict: { mine: order, newer: value.newer ?? [], gone: value.gone ?? [] } });
  } catch (error) {
    tell((error as Error).message);
  }
  return false;
}

/** Takes scans out of the collection, signed. */
export async function takeOut(scans: readonly number[], words: string): Promise<void> {
  const { by } = roomsNow();
  if (by.trim() === '') return tell('Say who takes them out: put your name beside it.');
  try {
    for (const scan of scans) await send('removals', { scan, by, words });
    setRooms({ chosen: [] });
    tell(null);
  } catch (error) {
    tell((error as Error).message);
  }
  await refresh();
}

/** An object by its number, as words; its number alone where it is gone. */
export function labelOf(scan: number): string {
  const found = roomsNow().told?.scans.find((one) => one.scan === scan);
  return found ? objectLabel(found) : `object ${scan}, which is no longer there`;
}
