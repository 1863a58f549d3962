import { type Document, onlyOpening, type Room } from './document.ts';
import { useDocument, useStore } from './store.ts';

/** The front door stands open as long as nothing of one's own lies there: before the demonstration is laid out, and while it lies alone. */
export const isAtDoor = (step: Room, document: Document): boolean =>
  step === 'door' && (document.scans.length === 0 || onlyOpening(document));

export function useAtDoor(): boolean {
  const step = useStore((state) => state.step);
  return useDocument((document) => isAtDoor(step, document));
}

/** Whether the lamp follows the hand: at the front door and in the seminar. */
export const lampInHand = ({ step, presenting }: { step: Room; presenting: number | null }): boolean =>
  step === 'door' || presenting !== null;
