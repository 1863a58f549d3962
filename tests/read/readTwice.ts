import type { Item, ReadPair } from '../../src/core/read/index.ts';

/** A generator of numbers in [0, 1) (xorshift32, Marsaglia 2003). */
function chance(seed: number): () => number {
  let state = seed | 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

const letters = 'ABCDEFGHILMNOPQRSTVXZ';
interface Read {
  readonly items: Item[];
  /** Which letter of the legend each item is, −1 for none. */
  readonly from: number[];
}

/** One reader: of the letters outside a stretch nobody reads, 4 in 100 misread, 3 left out, 2 put in, 6 marked as illegible; one stretch lost, its length unknown in one of three. */
function readOnce(legend: string, roll: () => number): Read {
  const items: Item[] = [];
  const from: number[] = [];
  const [start, long] = [Math.floor(roll() * legend.length), 2 + Math.floor(roll() * 4)];
  const add = (item: Item, k: number): void => {
    items.push(item);
    from.push(k);
  };
  const letter = (text: string): Item => ({ kind: 'letter', text, state: 'clear' });
  const other = (): string => letters[Math.floor(roll() * letters.length)];
  const unknown = roll() < 1 / 3;
  [...legend].forEach((text, k) => {
    if (k >= start && k < start + long) {
      if (k === start)
        add({ kind: 'gap', reason: 'lost', quantity: unknown ? null : Math.min(long, legend.length - start) }, -1);
      return;
    }
    const what = roll();
    if (what < 0.04) add(letter(other()), k);
    else if (what < 0.1) add({ kind: 'gap', reason: 'illegible', quantity: 1 }, -1);
    else if (what >= 0.13) add(letter(text), k);
    if (roll() < 0.02) add(letter(other()), -1);
  });
  return { items, from };
}

/** `count` legends of 20 to 40 letters, each read twice: letters of the first reader that stand beside their own partner, or alone where the second has none. */
export function readTwice(
  count: number,
  seed: number,
  pair: (one: readonly Item[], two: readonly Item[]) => readonly ReadPair[],
): { letters: number; right: number } {
  const roll = chance(seed);
  const words =
    'SIGILLVM IOHANNIS DE COMVNITATIS CIVITATIS CLERICI PRIORIS ECCLESIE MAGISTRI ROBERTI WILLELMI THOME'.split(' ');
  const total = { letters: 0, right: 0 };
  for (let n = 0; n < count; n++) {
    let legend = '';
    while (legend.length < 24) legend += words[Math.floor(roll() * words.length)];
    const [a, b] = [readOnce(legend, roll), readOnce(legend, roll)];
    for (const { one, two } of pair(a.items, b.items)) {
      if (one?.text == null) continue;
      total.letters++;
      const k = a.from[one.index];
      const its = k < 0 ? -1 : b.from.indexOf(k);
      // Without a partner a letter may stand alone or at a gap.
      if (its >= 0 ? two?.index === its : two?.text == null) total.right++;
    }
  }
  return total;
}
