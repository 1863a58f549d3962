import { scaleEnd } from '../../core/compare/index.ts';
import { comparisonKey } from '../../core/session.ts';
import type { ComparisonView, FaceView } from '../../workers/browser/protocol.ts';
import { keyOf, scanById } from './document.ts';
import { givenIn } from './given.ts';
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

/** The two faces on the plate, and their comparison where it is done. */
export function usePair(): Pair {
  const referenceId = useDocument((document) => document.referenceId);
  const subjectId = useDocument((document) => document.subjectId);
  const reference = useFace(referenceId);
  const subject = useFace(subjectId);
  const wanted = useStore(({ history: { present }, faces }) => {
    const [a, b] = [scanById(present, referenceId), scanById(present, subjectId)];
    return a && b ? comparisonKey(keyOf(a), keyOf(b), givenIn(present, faces[a.id])) : '';
  });
  const comparison = useStore(({ comparison: c, held, opened }) => {
    if (c?.at === 'ready' && c.key === wanted) return c.value;
    // What a file states gives way to what is worked out here.
    if (opened && opened.key === wanted && c?.key !== wanted) return opened;
    // While the same pair is measured again with something else put by hand, the last measurement stays on the plate.
    const last = held && pairOf(held.key) === pairOf(wanted) ? held : opened;
    return last && wanted !== '' && pairOf(last.key) === pairOf(wanted) ? last : undefined;
  });
  return { reference: comparison?.reference ?? reference, subject: comparison?.subject ?? subject, comparison };
}

/** Why the comparison on the plate is not the one that the document asks for; null where it is, or where there is none. */
export function useStale(): { at: 'working' } | { at: 'halted'; words: string; canTry: boolean } | null {
  const { comparison } = usePair();
  const state = useStore(({ comparison: c }) => c);
  // What a file states has words of its own.
  if (comparison?.stated) return null;
  // A comparison of the same key without its judgement is new: the rest of it is on its way.
  const onItsWay = comparison?.judgement !== null || state?.at === 'working' || state?.at === 'ready';
  if (!comparison || (comparison.key === state?.key && onItsWay)) return null;
  if (state?.at === 'failed') return { at: 'halted', words: state.failure.message, canTry: true };
  if (state?.at === 'stopped') return { at: 'halted', words: 'Stopped.', canTry: true };
  if (state?.at === 'working') return { at: 'working' };
  return { at: 'halted', words: 'Bring the original scans in to measure again.', canTry: false };
}

const pairOf = (key: string): string => key.split('\n').slice(0, 2).join('\n');

/** End of the colour scale, mm: what the user set, or what the core takes for every picture of these differences. */
export function useRangeMm(): number {
  const set = useDocument((document) => document.view.rangeMm);
  const { comparison } = usePair();
  return set ?? roundRange(comparison);
}

export function roundRange(comparison: ComparisonView | undefined): number {
  const difference = comparison?.difference;
  if (!difference) return 0.2;
  const known = ends.get(difference) ?? scaleEnd(difference);
  ends.set(difference, known);
  return known;
}

/** Worked out once for each comparison. */
const ends = new WeakMap<object, number>();
