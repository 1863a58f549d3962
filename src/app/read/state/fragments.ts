import { useDocument } from '../../state/store.ts';
import { useRead } from './readStore.ts';
import { useStackScans } from './useStackScans.ts';

/** What is laid together as fragments: the reference, the scans chosen (all others at first), and whether any is simulated. */
export function useFragments() {
  const stack = useStackScans();
  const chosen = useRead((state) => state.pieces);
  const simulated = useDocument((document) => document.scans.some((scan) => scan.simulated === true));
  if (!stack) return null;
  const pieces = stack.subjects.filter(({ scan: { key } }) => chosen === null || chosen.includes(key));
  return { ...stack, pieces, simulated };
}
