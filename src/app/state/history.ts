/** What has been done: for undo and redo. `merge` names acts that count as one while they follow each other. */
export interface History<T> {
  readonly past: ReadonlyArray<Act<T>>;
  readonly present: T;
  readonly future: ReadonlyArray<Act<T>>;
  readonly merge: string | null;
}

interface Act<T> {
  readonly words: string;
  /** The other state: before the act in `past`, after it in `future`. */
  readonly state: T;
}

const mostActs = 200;

export const historyOf = <T>(present: T): History<T> => ({ past: [], present, future: [], merge: null });

/** Adds an act; one with the same `merge` as the last only changes the present. */
export function acted<T>(history: History<T>, next: T, words: string, merge: string | null = null): History<T> {
  if (next === history.present) return history;
  if (merge !== null && merge === history.merge) return { ...history, present: next, future: [] };
  const past = [...history.past, { words, state: history.present }].slice(-mostActs);
  return { past, present: next, future: [], merge };
}

/** Ends a run of merged acts: the next one stands alone. */
export const settled = <T>(history: History<T>): History<T> =>
  history.merge === null ? history : { ...history, merge: null };

export function undone<T>(history: History<T>): History<T> {
  const last = history.past.at(-1);
  if (!last) return history;
  const future = [{ words: last.words, state: history.present }, ...history.future];
  return { past: history.past.slice(0, -1), present: last.state, future, merge: null };
}

export function redone<T>(history: History<T>): History<T> {
  const next = history.future[0];
  if (!next) return history;
  const past = [...history.past, { words: next.words, state: history.present }];
  return { past, present: next.state, future: history.future.slice(1), merge: null };
}
