import { dotBelow, superscripts, tie, turned } from './reserved.ts';
import { signs } from './signs.ts';
import type { Gap, Item, Letter, Sign, SuppliedFrom, Transcription } from './transcription.ts';

/**
 * A legend in print by the Leiden conventions, and what stands in its apparatus.
 *
 *   [...]  three letters lost          [c. 4]  about four            [---]  an unknown number
 *   ...    traces of three letters     .c. 4.  of about four         .---.  of an unknown number
 *   Ạ      doubtful (dot below)        [ABC]¹  supplied, source 1 in the apparatus
 *   <N>    left out by the engraver    {R}     cut too often         S(igillum)  abbreviation solved, S(---) unsolved
 *   A͡E     ligature                    N⃖      cut the wrong way round (own mark)     |  next ring or line
 * Source: van Groningen, Mnemosyne 59, 1932 (Leiden conventions), as EpiDoc restates them; from memory.
 */
export interface LeidenPrint {
  readonly text: string;
  /** Witnesses and persons, what each source number stands for, languages, translation and places, one a line. */
  readonly apparatus: readonly string[];
}

export function toLeiden(transcription: Transcription): LeidenPrint {
  const numbers = new Numbering();
  const text = printItems(transcription.items, numbers);
  const apparatus = transcription.sources.map(
    (source) => `${source.kind} ${source.id}: ${JSON.stringify(source.name)}`,
  );
  apparatus.push(...numbers.list.map((source, k) => `${k + 1} ${sourceWords(source)}`));
  apparatus.push(`language: ${transcription.language}`);
  const { translation } = transcription;
  if (translation) apparatus.push(`translation (${translation.language}): ${JSON.stringify(translation.text)}`);
  const places = transcription.items.map((item) => ('alongMm' in item ? (item.alongMm ?? null) : null));
  if (places.some((place) => place !== null))
    apparatus.push(`mm along the band: ${places.map((place) => place ?? '-').join(' ')}`);
  return { text, apparatus };
}

/** The text alone, for a caption or a table; sources are numbered but not named. */
export const leidenText = (items: readonly Item[]): string => printItems(items, new Numbering());

class Numbering {
  readonly list: SuppliedFrom[] = [];
  of(source: SuppliedFrom): number {
    const at = this.list.findIndex((known) => sameSource(known, source));
    if (at >= 0) return at + 1;
    this.list.push(source);
    return this.list.length;
  }
}

const sameSource = (a: SuppliedFrom | undefined, b: SuppliedFrom | undefined): boolean =>
  a?.from === b?.from && a?.id === b?.id;

function sourceWords({ from, id }: SuppliedFrom): string {
  if (from === 'witness') return `from ${id}`;
  return id === undefined ? 'conjecture' : `conjecture by ${id}`;
}

const brackets = { supplied: ['[', ']'], omitted: ['<', '>'], superfluous: ['{', '}'] } as const;

function printItems(items: readonly Item[], numbers: Numbering): string {
  let out = '';
  items.forEach((item, i) => {
    const before = items[i - 1];
    const after = items[i + 1];
    if (item.kind === 'letter' || item.kind === 'sign') {
      const pair = brackets[item.state as keyof typeof brackets];
      if (pair && !sameRun(before, item)) out += pair[0];
      const closes = pair !== undefined && !sameRun(item, after);
      out += glyphs(item, !closes);
      if (closes) {
        out += pair[1];
        if (item.source) out += [...String(numbers.of(item.source))].map((d) => superscripts[Number(d)]).join('');
        if (item.kind === 'letter' && item.joined) out += tie;
      }
    } else out += plain(item);
  });
  return out;
}

/** Do two neighbours stand within one pair of brackets? */
function sameRun(a: Item | undefined, b: Item | undefined): boolean {
  if (!a || !b || (a.kind !== 'letter' && a.kind !== 'sign') || (b.kind !== 'letter' && b.kind !== 'sign'))
    return false;
  return a.state === b.state && sameSource(a.source, b.source);
}

function glyphs(item: Letter | Sign, tieInside: boolean): string {
  const doubtful = item.state === 'doubtful' ? dotBelow : '';
  if (item.kind === 'sign') return signs[item.name].glyph + doubtful;
  return item.text + (item.reversed ? turned : '') + doubtful + (item.joined && tieInside ? tie : '');
}

function plain(item: Exclude<Item, Letter | Sign>): string {
  if (item.kind === 'space') return ' ';
  if (item.kind === 'line') return '|';
  if (item.kind === 'mark') return item.text;
  if (item.kind === 'expansion') return `(${item.text ?? '---'})`;
  return gapText(item);
}

function gapText({ reason, quantity, about }: Gap): string {
  const inside = quantity === null ? '---' : about ? `c. ${quantity}` : '.'.repeat(quantity);
  if (reason === 'lost') return `[${inside}]`;
  return quantity !== null && !about ? inside : `.${inside}.`;
}
