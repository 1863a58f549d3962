import type { WearState } from '../../../src/core/condition/types.ts';
import { type WearMap, wearStates } from '../../../src/core/condition/wear/labels.ts';
import type { Row } from '../table.ts';

/** What truly became of the surface. */
export const trueCauses = ['sound', 'worn', 'notFilled', 'lost', 'other'] as const;
export type TrueCause = (typeof trueCauses)[number];

/** So near, in cells, a vertex speaks for a cell; and so far off there is none (docs/condition.md). */
const near = 0.75;
const gone = 1.6;

/** Cells by true cause (row) and label (column). */
export type LabelCounts = Readonly<Record<TrueCause, Readonly<Record<WearState, number>>>>;

/**
 * Every labelled cell against the cause of the nearest vertex of the subject's face within `near` cells. A cell with no vertex of the scan within
 * `gone` has no surface: lost. What lies between is left out: the last vertex before a break does not speak for the gap. `vertices` visits
 * x, y in the reference's face frame, mm; null: of the scan, not of the face.
 */
export function labelCounts(
  map: WearMap,
  vertices: (visit: (x: number, y: number, cause: TrueCause | null) => void) => void,
): LabelCounts {
  const { width, height, pitch, left, top, turned, labels } = map;
  const nearest = new Float32Array(labels.length).fill(near);
  const surface = new Uint8Array(labels.length);
  const causes = new Int8Array(labels.length).fill(-1);
  vertices((x, y, cause) => {
    const c = ((turned ? -x : x) - left) / pitch;
    const r = (top - y) / pitch;
    for (let row = Math.max(0, Math.ceil(r - gone)); row <= Math.min(height - 1, r + gone); row++)
      for (let col = Math.max(0, Math.ceil(c - gone)); col <= Math.min(width - 1, c + gone); col++) {
        const i = row * width + col;
        const away = Math.hypot(col - c, row - r);
        if (away > gone) continue;
        surface[i] = 1;
        if (cause === null || away >= nearest[i]) continue;
        nearest[i] = away;
        causes[i] = trueCauses.indexOf(cause);
      }
  });
  const counts = emptyCounts();
  labels.forEach((label, i) => {
    const cause = causes[i] >= 0 ? trueCauses[causes[i]] : surface[i] ? null : 'lost';
    if (label > 0 && cause) counts[cause][wearStates[label - 1]]++;
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
  const of = (cause: TrueCause): number => cellsOf(counts, cause);
  const matrix = trueCauses.map((cause) => ({
    what: `cells truly ${cause} (${of(cause)}) labelled`,
    floor: '',
    measured: shown.map((state) => `${state} ${percent(counts[cause][state], of(cause))}`).join(', '),
  }));
  return [...matrix, labelRate(counts, 'lower', ['worn', 'notFilled']), labelRate(counts, 'lost', ['lost'])];
}

const cellsOf = (counts: LabelCounts, cause: TrueCause): number =>
  shown.reduce((sum, state) => sum + counts[cause][state], 0);

const percent = (part: number, all: number): string => (all > 0 ? `${((100 * part) / all).toFixed(1)} %` : 'none');

/** Precision and recall of a label, of cells of these causes. */
export function labelRate(
  counts: LabelCounts,
  state: WearState,
  truly: readonly TrueCause[],
  what = `label ${state}, of cells truly ${truly.join(' or ')}`,
): Row {
  const sum = (causes: readonly TrueCause[]): number => causes.reduce((all, cause) => all + counts[cause][state], 0);
  const all = truly.reduce((cells, cause) => cells + cellsOf(counts, cause), 0);
  return {
    what: `${what}: precision, recall`,
    floor: '0.6',
    measured: `${percent(sum(truly), sum(trueCauses))}, ${percent(sum(truly), all)}`,
  };
}
