import { useDocument, useStore } from '../../state/store.ts';
import { orderOf } from '../../state/work.ts';

/** The reference and every other scan whose bytes are here, for laying their legends under one another. */
export function useStackScans() {
  const scans = useDocument((document) => document.scans);
  const referenceId = useDocument((document) => document.referenceId);
  const faces = useStore((state) => state.faces);
  const reference = scans.find((scan) => scan.id === referenceId);
  const order = reference && orderOf(reference);
  if (!reference || !order) return null;
  const subjects = scans.flatMap((scan) => {
    const scanOrder = scan.id !== referenceId && faces[scan.id]?.at === 'ready' ? orderOf(scan) : null;
    return scanOrder ? [{ scan: scanOrder, name: scan.title }] : [];
  });
  if (subjects.length === 0) return null;
  const key = [order, ...subjects.map(({ scan }) => scan)].map((one) => one.key).join('\n');
  return { key, reference: { scan: order, name: reference.title }, subjects };
}
