import {
  endsWord,
  type Gap,
  type Item,
  isLetterText,
  itemsOfLeiden,
  type Letter,
  type LetterState,
  type Sign,
  type SignName,
  type SuppliedFrom,
  signOfGlyph,
  signs,
  type Transcription,
} from '../../../core/read/index.ts';

/** Where the next letter goes: before which item of the list, and where on the strip, mm along it. */
export interface Pen {
  readonly at: number;
  readonly alongMm: number;
  /** It went on by itself: where the next letter stands is told better once it is known which it is. */
  readonly auto?: true;
}

/** A transcription after an act, and where the pen stands then. */
export interface Penned {
  readonly transcription: Transcription;
  readonly pen: Pen;
}

type Placed = Letter | Sign | Gap;
const isPlaced = (item: Item | undefined): item is Placed =>
  item?.kind === 'letter' || item?.kind === 'sign' || item?.kind === 'gap';

/** First and last place (exclusive) of a ring's items: rings are parted by `line` items, outermost first. */
export function ringSpan(items: readonly Item[], ring: number): [number, number] {
  let from = 0;
  for (let k = 0; k < ring; k++) {
    const next = items.findIndex((item, i) => i >= from && item.kind === 'line');
    if (next < 0) return [items.length, items.length];
    from = next + 1;
  }
  const end = items.findIndex((item, i) => i >= from && item.kind === 'line');
  return [from, end < 0 ? items.length : end];
}

/** The list with so many ring breaks that the ring has a place in it. */
export function withRing(items: readonly Item[], ring: number): readonly Item[] {
  const breaks = items.filter((item) => item.kind === 'line').length;
  const missing = Math.max(0, ring - breaks);
  return missing === 0 ? items : [...items, ...Array.from({ length: missing }, (): Item => ({ kind: 'line' }))];
}

/** The pen where the hand points: behind the last item of the ring that stands before that place. */
export function penAt(items: readonly Item[], ring: number, alongMm: number): Pen {
  const [from, to] = ringSpan(items, ring);
  let at = from;
  for (let i = from; i < to; i++) {
    const item = items[i];
    if (isPlaced(item) && (item.alongMm ?? 0) > alongMm) break;
    at = i + 1;
  }
  return { at, alongMm: rounded(alongMm) };
}

/** Keeps the pen within its ring after the list was changed by somebody else: an undo, another ring. */
export function penWithin(items: readonly Item[], ring: number, pen: Pen): Pen {
  const [from, to] = ringSpan(items, ring);
  return pen.at >= from && pen.at <= to ? pen : { ...pen, at: Math.min(to, Math.max(from, pen.at)) };
}

const rounded = (mm: number): number => Math.round(mm * 100) / 100;

/** Puts an item at the pen and moves the pen on to where the next is likely to stand. */
function put(transcription: Transcription, pen: Pen, item: Item, nextMm: number): Penned {
  const items = [...transcription.items.slice(0, pen.at), item, ...transcription.items.slice(pen.at)];
  return { transcription: { ...transcription, items }, pen: { at: pen.at + 1, alongMm: rounded(nextMm), auto: true } };
}

/**
 * One key of plain writing: a letter (capitals, as legends are cut), a sign, a space, an abbreviation mark, or null where
 * the key writes nothing. `nextMm`: where on the strip the next letter is likely to stand.
 */
export function written(transcription: Transcription, pen: Pen, key: string, nextMm: number): Penned | null {
  const alongMm = rounded(pen.alongMm);
  if (key === ' ') return put(transcription, pen, { kind: 'space' }, pen.alongMm);
  if (key === "'") return put(transcription, pen, { kind: 'mark', text: "'", alongMm }, pen.alongMm);
  const name = signKeys[key] ?? signOfGlyph(key);
  if (name) return signed(transcription, pen, name, nextMm);
  const text = key.toLocaleUpperCase('en');
  if ([...key].length !== 1 || !/[\p{L}\p{N}]/u.test(key) || !isLetterText(text)) return null;
  return put(transcription, pen, { kind: 'letter', text, state: 'clear', alongMm }, nextMm);
}

/** Signs that few keyboards have, on keys that legends do not need. */
export const signKeys: Readonly<Record<string, SignName>> = { ',': 'pellet', ';': 'threePellets' };

/** What stands before the pen, as far as it has a place: its place, what it is, and whether a space lies between. */
export function standsBefore(
  items: readonly Item[],
  ring: number,
  at: number,
  advanceMm: number,
): { readonly mm: number; readonly text: string; readonly spaced: boolean } | null {
  const [from] = ringSpan(items, ring);
  let spaced = false;
  for (let i = at - 1; i >= from; i--) {
    const item = items[i];
    if (item.kind === 'space') spaced = true;
    if (!isPlaced(item)) continue;
    if (item.alongMm === undefined) return null;
    const further = item.kind === 'gap' ? ((item.quantity ?? 1) - 1) * advanceMm : 0;
    const text = item.kind === 'letter' ? item.text : item.kind === 'sign' ? signs[item.name].glyph : 'E';
    return { mm: item.alongMm + further, text, spaced };
  }
  return null;
}

/** A text in Leiden signs put in at the pen, its letters placed one after another. Throws RangeError for a sign it does not know. */
export function pasted(transcription: Transcription, pen: Pen, text: string, nextMm: (mm: number) => number): Penned {
  let { alongMm } = pen;
  const items = itemsOfLeiden(text.replace(/\s+/g, ' ').trim()).map((item): Item => {
    if (item.kind === 'mark') return { ...item, alongMm: rounded(alongMm) };
    if (!isPlaced(item)) return item;
    const placed = { ...item, alongMm: rounded(alongMm) };
    const count = item.kind === 'gap' ? (item.quantity ?? 2) : 1;
    for (let k = 0; k < count; k++) alongMm = nextMm(alongMm);
    return placed;
  });
  const list = [...transcription.items.slice(0, pen.at), ...items, ...transcription.items.slice(pen.at)];
  return {
    transcription: { ...transcription, items: list },
    pen: { at: pen.at + items.length, alongMm: rounded(alongMm) },
  };
}

export const signed = (transcription: Transcription, pen: Pen, name: SignName, nextMm: number): Penned =>
  put(transcription, pen, { kind: 'sign', name, state: 'clear', alongMm: rounded(pen.alongMm) }, nextMm);

/** One letter more that is lost, or of which traces are left; neighbouring ones are counted together. */
export function missed(transcription: Transcription, pen: Pen, reason: Gap['reason'], nextMm: number): Penned {
  const before = transcription.items[pen.at - 1];
  if (before?.kind !== 'gap' || before.reason !== reason || before.quantity === null)
    return put(transcription, pen, { kind: 'gap', reason, quantity: 1, alongMm: rounded(pen.alongMm) }, nextMm);
  const items = replaced(transcription.items, pen.at - 1, { ...before, quantity: before.quantity + 1 });
  return { transcription: { ...transcription, items }, pen: { ...pen, alongMm: rounded(nextMm), auto: true } };
}

/** The gap before the pen with its number exact, estimated or unknown. */
export function counted(transcription: Transcription, at: number, how: 'exact' | 'about' | 'unknown'): Transcription {
  const gap = transcription.items[at - 1];
  if (gap?.kind !== 'gap') return transcription;
  const { about: _about, ...bare } = gap;
  const quantity = how === 'unknown' ? null : (gap.quantity ?? 1);
  return withItem(transcription, at - 1, { ...bare, quantity, ...(how === 'about' && { about: true as const }) });
}

/** The letter (or sign) before the pen in another state; the same state again makes it clear. */
export function stated(
  transcription: Transcription,
  at: number,
  state: LetterState,
  source: SuppliedFrom,
): Transcription {
  const item = transcription.items[at - 1];
  if (item?.kind !== 'letter' && item?.kind !== 'sign') return transcription;
  if (item.kind === 'sign' && (state === 'omitted' || state === 'superfluous')) return transcription;
  const { source: _source, ...bare } = item;
  const next = item.state === state ? 'clear' : state;
  return withItem(transcription, at - 1, { ...bare, state: next, ...(next === 'supplied' && { source }) } as Item);
}

/** In one with the next letter, or cut the wrong way round: on and off. */
export function turned(transcription: Transcription, at: number, what: 'joined' | 'reversed'): Transcription {
  const item = transcription.items[at - 1];
  if (item?.kind !== 'letter') return transcription;
  const { [what]: was, ...bare } = item;
  return withItem(transcription, at - 1, was ? bare : { ...bare, [what]: true });
}

/** What the letters before the pen stand for and do not write; empty takes it away, null leaves it unsolved. */
export function expandedAt(transcription: Transcription, pen: Pen, text: string | null): Penned {
  const { items } = transcription;
  const there = items[pen.at - 1]?.kind === 'expansion';
  const words = text === null ? null : text.trim();
  const item: Item[] = words === '' ? [] : [{ kind: 'expansion', text: words }];
  const start = there ? pen.at - 1 : pen.at;
  const next = [...items.slice(0, start), ...item, ...items.slice(pen.at)];
  return { transcription: { ...transcription, items: next }, pen: { ...pen, at: start + item.length } };
}

/** Takes away the item before the pen (or behind it); the pen goes to where it stood. */
export function erased(transcription: Transcription, pen: Pen, ring: number, behind = false): Penned {
  const [from, to] = ringSpan(transcription.items, ring);
  const index = behind ? pen.at : pen.at - 1;
  if (index < from || index >= to) return { transcription, pen };
  const item = transcription.items[index];
  const gapLeft = item.kind === 'gap' && item.quantity !== null && item.quantity > 1 && !behind;
  const items = gapLeft
    ? replaced(transcription.items, index, { ...item, quantity: (item.quantity ?? 2) - 1 })
    : transcription.items.filter((_, i) => i !== index);
  const alongMm = isPlaced(item) && !gapLeft ? (item.alongMm ?? pen.alongMm) : pen.alongMm;
  return { transcription: { ...transcription, items }, pen: { at: behind || gapLeft ? pen.at : index, alongMm } };
}

/** The pen one item on or back within its ring, standing where that item stands. */
export function penMoved(items: readonly Item[], ring: number, pen: Pen, by: -1 | 1, advanceMm: number): Pen {
  const [from, to] = ringSpan(items, ring);
  const at = Math.min(to, Math.max(from, pen.at + by));
  if (at === pen.at) return { at, alongMm: rounded(Math.max(0, pen.alongMm + by * advanceMm)) };
  const next = items.slice(at, to).find(isPlaced);
  if (next?.alongMm !== undefined) return { at, alongMm: next.alongMm };
  const last = items.slice(from, at).filter(isPlaced).at(-1);
  if (last?.alongMm === undefined) return { at, alongMm: rounded(pen.alongMm) };
  return { at, alongMm: rounded(last.alongMm + advanceMm), auto: true };
}

/** The item moved along the strip. */
export function moved(transcription: Transcription, index: number, alongMm: number): Transcription {
  const item = transcription.items[index];
  if (!item || item.kind === 'space' || item.kind === 'line' || item.kind === 'expansion') return transcription;
  return withItem(transcription, index, { ...item, alongMm: rounded(alongMm) });
}

/** Every place of a ring taken through `place`: for a strip that begins elsewhere or is longer. */
export function replacedPlaces(items: readonly Item[], ring: number, place: (mm: number) => number): readonly Item[] {
  const [from, to] = ringSpan(items, ring);
  return items.map((item, i) =>
    i >= from && i < to && 'alongMm' in item && item.alongMm !== undefined
      ? { ...item, alongMm: rounded(place(item.alongMm)) }
      : item,
  );
}

/** First and last place (exclusive) of the word before the pen. */
export function wordBefore(items: readonly Item[], at: number): [number, number] {
  let from = at;
  while (from > 0 && !endsWord(items[from - 1])) from--;
  let to = at;
  while (to < items.length && !endsWord(items[to])) to++;
  return [from, to];
}

/**
 * The word before the pen as a suggestion has it, given in Leiden signs: letters that are there keep their place and state,
 * only expansions are put in. Unchanged where the letters do not agree.
 */
export function solved(transcription: Transcription, pen: Pen, suggestion: string): Penned {
  const [from, to] = wordBefore(transcription.items, pen.at);
  const there = transcription.items.slice(from, to).filter((item) => item.kind !== 'expansion');
  const out: Item[] = [];
  let next = 0;
  for (const item of itemsOfLeiden(suggestion)) {
    if (item.kind === 'expansion') {
      // The mark of abbreviation stands before what it stands for.
      if (there[next]?.kind === 'mark') out.push(there[next++]);
      out.push(item);
    } else if (there[next]?.kind === 'letter') out.push(there[next++]);
    else return { transcription, pen };
  }
  out.push(...there.slice(next));
  const items = [...transcription.items.slice(0, from), ...out, ...transcription.items.slice(to)];
  return { transcription: { ...transcription, items }, pen: { ...pen, at: from + out.length } };
}

const replaced = (items: readonly Item[], index: number, item: Item): Item[] =>
  items.map((old, i) => (i === index ? item : old));
const withItem = (transcription: Transcription, index: number, item: Item): Transcription => ({
  ...transcription,
  items: replaced(transcription.items, index, item),
});
