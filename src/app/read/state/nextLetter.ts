/** Usual widths of capitals and signs against the letters' height, without the space between; what is not listed is of middling width. */
const widths: Readonly<Record<string, number>> = {
  ...{ I: 0.2, J: 0.3, 1: 0.3, '·': 0.15, ':': 0.15, '⁝': 0.15, "'": 0.15, '✠': 0.6, '×': 0.6, '*': 0.6 },
  ...{ M: 0.85, W: 1, N: 0.7, O: 0.7, Q: 0.7, C: 0.65, G: 0.68, D: 0.68, H: 0.7, A: 0.68, V: 0.62, U: 0.65 },
};
const middling = 0.58;
/** Space from letter to letter where none can be seen, and between words. */
const between = 0.2;
const wordSpace = 0.4;

export const widthOf = (text: string): number => widths[text] ?? widths[text.normalize('NFD')[0]] ?? middling;

/** The relief along a strip, and how high its letters are. */
export interface Ink {
  /** Amount of relief by column, mm; null where it is not known. */
  readonly columns: ArrayLike<number> | null;
  readonly pitchMm: number;
  readonly letterMm: number;
}

interface Run {
  readonly from: number;
  readonly to: number;
}

/**
 * Where a letter is likely to stand that follows another, mm along the strip: the middle of the next run of columns with relief
 * on them, parted from the letter before by columns without. A run much wider than the letter holds several, and the first
 * part of it is taken; pieces much narrower than the letter are joined; between words a pellet is passed over.
 * Without relief: half of both widths and the usual space on.
 */
export function placeAfter(ink: Ink, beforeMm: number, before: string, text: string, spaced = false): number {
  const { columns, pitchMm, letterMm } = ink;
  const step = (widthOf(before) + widthOf(text)) / 2 + between + (spaced ? wordSpace : 0);
  const expected = beforeMm + step * letterMm;
  if (!columns) return expected;
  const level = 0.4 * usualInk(columns);
  const at = beforeMm / pitchMm;
  // As wide as this legend's own letters are, against what is usual.
  const high = (letterMm / pitchMm) * wideness(columns, level, letterMm / pitchMm);
  // The rest of the letter before ends where relief does, or where it must.
  let from = Math.round(at + 0.44 * widthOf(before) * high);
  const latest = Math.round(at + (0.55 * widthOf(before) + 0.12) * high);
  while (from < latest && columns[from] > level) from++;
  const wanted = widthOf(text) * high;
  let run = nextRun(columns, from, level, at + 2.2 * high);
  if (run && spaced && run.to - run.from < 0.3 * high && wanted > 0.4 * high)
    run = nextRun(columns, run.to + 1, level, at + 3 * high) ?? run;
  while (run && run.to - run.from < 0.55 * wanted) {
    const more = nextRun(columns, run.to + 1, level, run.from + 1.2 * wanted);
    if (!more || more.from - run.to > 0.14 * high) break;
    run = { from: run.from, to: more.to };
  }
  if (!run) return Math.min(expected, (columns.length - 1) * pitchMm);
  const width = run.to - run.from;
  const middle = width > 1.5 * wanted + 0.2 * high ? run.from + wanted / 2 : (run.from + run.to) / 2;
  return middle * pitchMm;
}

/** Middle width of the runs that may be one letter, against the middling width of a letter; between ¾ and 1½. */
function wideness(columns: ArrayLike<number>, level: number, high: number): number {
  const found: number[] = [];
  for (
    let run = nextRun(columns, 0, level, columns.length);
    run;
    run = nextRun(columns, run.to + 1, level, columns.length)
  ) {
    const width = (run.to - run.from) / high;
    if (width > 0.35 && width < 1.4) found.push(width);
  }
  if (found.length < 4) return 1;
  found.sort((p, q) => p - q);
  return Math.min(1.5, Math.max(0.75, found[found.length >> 1] / (middling + 0.06)));
}

/** The next columns with relief on them that begin before `latest`; gaps of a hair are passed over. */
function nextRun(columns: ArrayLike<number>, start: number, level: number, latest: number): Run | null {
  let from = start;
  while (from < columns.length && columns[from] <= level) from++;
  if (from >= Math.min(columns.length, latest)) return null;
  let to = from;
  while (to + 1 < columns.length && (columns[to + 1] > level || columns[to + 2] > level)) to++;
  return { from, to };
}

/** What columns with letters on them usually have: seven of ten have less. */
function usualInk(columns: ArrayLike<number>): number {
  const sorted = Float64Array.from(columns).sort();
  return sorted[Math.floor(0.7 * (sorted.length - 1))];
}
