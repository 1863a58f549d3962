import { useEffect } from 'react';
import { getState } from '../../state/store.ts';
import { alternate, changeNow, chooseChange, setChange, turnDates } from './changeStore.ts';

/** Keys that would change what the room does not show. */
const elsewhere = new Set(['e', 'o', 'x', 'r', 'p', 'k']);

/** The keys of the room; those of lamp and plate work as everywhere. */
export function useChangeKeys(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const target = event.target as HTMLElement;
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (target.closest('input, textarea, select, dialog[open]')) return;
      if (taken(event.key)) event.preventDefault();
    };
    addEventListener('keydown', onKey, true);
    return () => removeEventListener('keydown', onKey, true);
  }, []);
}

function taken(key: string): boolean {
  if (key === 't') turnByHand();
  else if (key === 'Escape' && getState().presenting === null) {
    alternate(false);
    chooseChange(null);
  } else return elsewhere.has(key.toLowerCase());
  return true;
}

/** Whoever turns the leaf by hand has it rest. */
export function turnByHand(): void {
  if (changeNow().alternating) setChange({ alternating: false });
  turnDates();
}
