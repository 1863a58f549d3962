import type { WearState } from '../../../src/core/condition/types.ts';
import { type WearMap, wearStates } from '../../../src/core/condition/wear/labels.ts';
import type { Row } from '../table.ts';

/** What truly became of the surface. */
export const trueCauses = ['sound', 'worn', 'notFilled', 'lost', 'other'] as const;
export type TrueCause = (typeof trueCauses)[number];

/** Cells by true cause (row) and label (column). */
export type LabelCounts = Readonly<Record<TrueCause, Readonly<Record<WearState, number>>>>;

/**
 * Every labelled cell against the cause of the nearest vertex of the subject's face within 1.6 cells; cells without one are left out: a
 * hole of the scan has no cause. `vertices` visits x, y in the reference's face frame, mm; null takes no part.
 */
export function labelCounts(
  map: WearMap,
  vertices: (visit: (x: number, y: number, cause: TrueCause | null) => void) => void,
): LabelCounts {
  const { width, height, pitch, left, top, turned, labels } = map;
  const nearest = new Float32Array(labels.length).fill(1.6);
  const causes = new Int8Array(labels.length).fill(-1);
  vertices((x, y, cause) => {
    if (cause === null) return;
    const c = ((turned ? -x : x) - left) / pitch;
    const r = (top - y) / pitch;
    for (let row = Math.max(0, Math.ceil(r - 1.6)); row <= Math.min(height - 1, r + 1.6); row++)
      for (let col = Math.max(0, Math.ceil(c - 1.6)); col <= Math.min(width - 1, c + 1.6); col++) {
        const i = row * width + col;
        const away = Math.hypot(col - c, row - r);
        if (away >= nearest[i]) continue;
        nearest[i] = away;
        causes[i] = trueCauses.indexOf(cause);
      }
  });
  const counts = emptyCounts();
  labels.forEach((label, i) => {
    if (label > 0 && causes[i] >= 0) counts[trueCauses[causes[i]]][wearStates[label - 1]]++;
  });
  return counts;
}

const emptyCounts = (): Record<TrueCause, Record<WearState, number>> => {
  const row = (): Record<WearState, number> =>
    Object.fromEntries(wearStates.map((state) => [state, 0])) as Record<WearState, number>;
  return Object.fromEntries(trueCauses.map((cause) => [cause, row()])) as Record<TrueCause, Record<WearState, number>>;
};

export function addedCounts(list: readonly LabelCounts[]): LabelCounts {
  const sum = emptyCounts();
  for (const counts of list)
    for (const cause of trueCauses) for (const state of wearStates) sum[cause][state] += counts[cause][state];
  return sum;
}

const shown: readonly WearState[] = ['sharp', 'lower', 'lost', 'blurred', 'added', 'clogged'];

/** The matrix in shares of each true cause, and precision and recall of each label that names one. */
export function labelRows(counts: LabelCounts): Row[] {
  const of = (cause: TrueCause): number => shown.reduce((sum, state) => sum + counts[cause][state], 0);
  const percent = (part: number, all: number): string => (all > 0 ? `${((100 * part) / all).toFixed(1)} %` : 'none');
  const matrix = trueCauses.map((cause) => ({
    what: `cells truly ${cause} (${of(cause)}) labelled`,
    floor: '',
    measured: shown.map((state) => `${state} ${percent(counts[cause][state], of(cause))}`).join(', '),
  }));
  const rate = (state: WearState, truly: readonly TrueCause[]): Row => {
    const sum = (causes: readonly TrueCause[]): number => causes.reduce((all, cause) => all + counts[cause][state], 0);
    const all = truly.reduce((cells, cause) => cells + of(cause), 0);
    return {
      what: `label ${state}, of cells truly ${truly.join(' or ')}: precision, recall`,
      floor: '0.6',
      measured: `${percent(sum(truly), sum(trueCauses))}, ${percent(sum(truly), all)}`,
    };
  };
  return [...matrix, rate('lower', ['worn', 'notFilled']), rate('lost', ['lost'])];
}
