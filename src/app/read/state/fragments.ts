import { useDocument } from '../../state/store.ts';
import { languageOf } from './card.ts';
import { useScanId } from './current.ts';
import { useRead } from './readStore.ts';
import { useStackScans } from './useStackScans.ts';

/** What is laid together as fragments: the reference, the scans chosen (all others at first), whether any is simulated, and the card's language. */
export function useFragments() {
  const stack = useStackScans();
  const chosen = useRead((state) => state.pieces);
  const simulated = useDocument((document) => document.scans.some((scan) => scan.simulated === true));
  const id = useScanId();
  const language = useDocument(({ read }) => languageOf((id === null ? undefined : read.cards[id]) ?? {}));
  if (!stack) return null;
  const pieces = stack.subjects.filter(({ scan: { key } }) => chosen === null || chosen.includes(key));
  return { ...stack, pieces, simulated, language };
}
