import type { ComparisonView, FaceView } from '../../workers/browser/protocol.ts';
import { keyOf, scanById } from './document.ts';
import { useDocument, useStore } from './store.ts';

/** The prepared face of a scan, as long as it is there; while it is worked on again, the last one stays on the plate. */
export function useFace(id: string | null): FaceView | undefined {
  return useStore((state) => {
    const face = id === null ? undefined : state.faces[id];
    return face?.at === 'ready' ? face.value : undefined;
  });
}

export interface Pair {
  readonly reference: FaceView | undefined;
  readonly subject: FaceView | undefined;
  readonly comparison: ComparisonView | undefined;
}

/** The two faces on the plate, and their comparison where it is done and up to date. */
export function usePair(): Pair {
  const referenceId = useDocument((document) => document.referenceId);
  const subjectId = useDocument((document) => document.subjectId);
  const reference = useFace(referenceId);
  const subject = useFace(subjectId);
  const wanted = useDocument((document) => {
    const [a, b] = [scanById(document, referenceId), scanById(document, subjectId)];
    return a && b ? `${keyOf(a)}\n${keyOf(b)}` : '';
  });
  const comparison = useStore(({ comparison: c }) => (c?.at === 'ready' && c.key === wanted ? c.value : undefined));
  return { reference: comparison?.reference ?? reference, subject: comparison?.subject ?? subject, comparison };
}

/**
 * End of the colour scale, mm: what the user set, or a round number above 95 % of the differences and well above
 * their level of detection.
 */
export function useRangeMm(): number {
  const set = useDocument((document) => document.view.rangeMm);
  const { comparison } = usePair();
  return set ?? roundRange(comparison);
}

export function roundRange(comparison: ComparisonView | undefined): number {
  const difference = comparison?.difference;
  if (!difference) return 0.2;
  const { p95Mm } = difference.whole;
  const level = difference.levelOfDetectionMm;
  const least = Math.max(Number.isFinite(p95Mm) ? p95Mm : 0, Number.isFinite(level) ? 2.5 * level : 0);
  return [0.05, 0.1, 0.2, 0.3, 0.5, 1, 2].find((range) => range >= least) ?? 5;
}
