import { signs } from './signs.ts';
import type { Item } from './transcription.ts';

/** One place of a legend as one reader has it. */
export interface ReadPlace {
  /** Which item of the transcription. */
  readonly index: number;
  /** What was seen there: a letter, sign or mark; null where nothing could be read. */
  readonly text: string | null;
  readonly doubtful: boolean;
  /** Why nothing was read; what the reader supplied was not seen either. */
  readonly missing: 'lost' | 'illegible' | 'supplied' | null;
  readonly alongMm: number | null;
}

/**
 * What two readers have at one place: *agree* (the same letter), *agreeDoubtful* (the same, and at least one was not sure),
 * *differ* (another letter), *readByOne* (the other says that it is lost or cannot be read), *onlyOne* (the other has no place
 * there at all), *readByNeither*.
 */
export const readingVerdicts = ['agree', 'agreeDoubtful', 'differ', 'readByOne', 'onlyOne', 'readByNeither'] as const;
export type ReadingVerdict = (typeof readingVerdicts)[number];

export interface ReadPair {
  readonly verdict: ReadingVerdict;
  readonly one: ReadPlace | null;
  readonly two: ReadPlace | null;
}

export interface ComparedReadings {
  readonly pairs: readonly ReadPair[];
  readonly counts: Readonly<Record<ReadingVerdict, number>>;
  /** Of the letters that both read, the share that is the same; null where they read none in common. */
  readonly agreement: number | null;
}

interface Items {
  readonly items: readonly Item[];
}

/**
 * Costs of the alignment: another letter, a letter against a place that was not read, two places that were not read, a place that
 * one reader does not have, and the same beside a gap of unknown or estimated length, which may stand for any number.
 */
const cost = { otherLetter: 1, notRead: 0.4, neither: 0.1, alone: 0.8, aloneAtOpenGap: 0.25 } as const;

/**
 * Two readings of one legend, laid beside each other letter by letter: the alignment of least cost (Needleman and Wunsch 1970) of
 * what each reader saw. Gaps stand for so many places as their number says. Spaces, ring breaks and expansions are the reader's
 * and not the engraver's, and letters left out do not stand there: none of them takes part. Capitals and small letters, U and V, I
 * and J count as one letter. Places along the band are not used: readings of two strips, or without places, compare as well.
 */
export function compareReadings(one: Items, two: Items): ComparedReadings {
  const pairs = aligned(placesOf(one.items), placesOf(two.items));
  const counts = Object.fromEntries(readingVerdicts.map((verdict) => [verdict, 0])) as Record<ReadingVerdict, number>;
  for (const { verdict } of pairs) counts[verdict]++;
  const same = counts.agree + counts.agreeDoubtful;
  const both = same + counts.differ;
  return { pairs, counts, agreement: both === 0 ? null : same / both };
}

/** A place, and whether its gap may be longer or shorter than it says. */
type Slot = ReadPlace & { readonly open: boolean };

function placesOf(items: readonly Item[]): Slot[] {
  return items.flatMap((item, index): Slot[] => {
    if (item.kind === 'gap') {
      const missing = { index, text: null, doubtful: false, missing: item.reason, alongMm: item.alongMm ?? null };
      const open = item.quantity === null || item.about === true;
      return Array.from({ length: item.quantity ?? 1 }, () => ({ ...missing, open }));
    }
    if (item.kind !== 'letter' && item.kind !== 'sign' && item.kind !== 'mark') return [];
    const state = item.kind === 'mark' ? 'clear' : item.state;
    if (state === 'omitted') return [];
    const seen = state !== 'supplied';
    const text = item.kind === 'sign' ? signs[item.name].glyph : item.text;
    return [
      {
        ...{ index, text: seen ? text : null, doubtful: state === 'doubtful' },
        ...{ missing: seen ? null : 'supplied', alongMm: item.alongMm ?? null, open: false },
      },
    ];
  });
}

/** As legends are cut: without case, and without the letters that they do not tell apart. */
const folded = (text: string): string => text.toLocaleUpperCase('en').replaceAll('U', 'V').replaceAll('J', 'I');

function costOf(a: Slot, b: Slot): number {
  if (a.text === null && b.text === null) return cost.neither;
  if (a.text === null || b.text === null) return cost.notRead;
  return folded(a.text) === folded(b.text) ? 0 : cost.otherLetter;
}

/** Cost of a place that the other reader does not have, at a place of the other's list. */
const aloneAt = (others: readonly Slot[], at: number): number =>
  others[at - 1]?.open || others[at]?.open ? cost.aloneAtOpenGap : cost.alone;

function aligned(a: readonly Slot[], b: readonly Slot[]): ReadPair[] {
  const wide = b.length + 1;
  const least = new Float64Array((a.length + 1) * wide);
  for (let i = 0; i <= a.length; i++)
    for (let j = 0; j <= b.length; j++) {
      if (i === 0 && j === 0) continue;
      least[i * wide + j] = Math.min(
        i > 0 && j > 0 ? least[(i - 1) * wide + j - 1] + costOf(a[i - 1], b[j - 1]) : Infinity,
        i > 0 ? least[(i - 1) * wide + j] + aloneAt(b, j) : Infinity,
        j > 0 ? least[i * wide + j - 1] + aloneAt(a, i) : Infinity,
      );
    }
  const pairs: ReadPair[] = [];
  const reached = (value: number, i: number, j: number): boolean => Math.abs(least[i * wide + j] - value) < 1e-9;
  for (let i = a.length, j = b.length; i > 0 || j > 0; ) {
    if (i > 0 && j > 0 && reached(least[(i - 1) * wide + j - 1] + costOf(a[i - 1], b[j - 1]), i, j))
      pairs.push(pairOf(a[--i], b[--j]));
    else if (i > 0 && reached(least[(i - 1) * wide + j] + aloneAt(b, j), i, j)) pairs.push(pairOf(a[--i], null));
    else pairs.push(pairOf(null, b[--j]));
  }
  return pairs.reverse();
}

function pairOf(a: Slot | null, b: Slot | null): ReadPair {
  const bare = (slot: Slot | null): ReadPlace | null => {
    if (!slot) return null;
    const { open: _, ...place } = slot;
    return place;
  };
  return { verdict: verdictOf(a, b), one: bare(a), two: bare(b) };
}

function verdictOf(a: Slot | null, b: Slot | null): ReadingVerdict {
  const [one, two] = [a?.text ?? null, b?.text ?? null];
  if (one === null && two === null) return 'readByNeither';
  if (!a || !b) return 'onlyOne';
  if (one === null || two === null) return 'readByOne';
  if (folded(one) !== folded(two)) return 'differ';
  return a.doubtful || b.doubtful ? 'agreeDoubtful' : 'agree';
}
