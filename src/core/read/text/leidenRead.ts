import type { LeidenPrint } from './leidenPrint.ts';
import { dotBelow, isReserved, superscripts, tie, turned } from './reserved.ts';
import { type SignName, signOfGlyph } from './signs.ts';
import type { Gap, Item, Letter, Sign, Source, SuppliedFrom, Transcription } from './transcription.ts';

/** Reads what `toLeiden` prints. Throws RangeError with the place where a sign is not understood. */
export function fromLeiden({ text, apparatus }: LeidenPrint): Transcription {
  const notes = readApparatus(apparatus);
  const items = itemsOfLeiden(text, notes.numbered);
  const placed = items.map((item, i) => {
    const along = notes.places[i];
    return along === undefined || along === null ? item : ({ ...item, alongMm: along } as Item);
  });
  const { language, sources, translation } = notes;
  return { language, items: placed, sources, ...(translation && { translation }) };
}

interface Notes {
  language: string;
  sources: Source[];
  numbered: SuppliedFrom[];
  places: (number | null)[];
  translation?: Transcription['translation'];
}

function readApparatus(lines: readonly string[]): Notes {
  const notes: Notes = { language: 'la', sources: [], numbered: [], places: [] };
  const value = (entry: string, key: string): string | undefined =>
    entry.startsWith(key) ? entry.slice(key.length) : undefined;
  for (const entry of lines) {
    const language = value(entry, 'language: ');
    const translation = /^translation \(([^)]+)\): (.*)$/s.exec(entry);
    const places = value(entry, 'mm along the band: ');
    if (language !== undefined) notes.language = language;
    else if (translation) notes.translation = { language: translation[1], text: JSON.parse(translation[2]) };
    else if (places !== undefined) notes.places = places.split(' ').map((v) => (v === '-' ? null : Number(v)));
    else readSource(entry, notes);
  }
  return notes;
}

function readSource(entry: string, notes: Notes): void {
  const source = /^(witness|person) ([A-Za-z0-9-]+): (".*")$/s.exec(entry);
  const numbered = /^(\d+) (?:from ([A-Za-z0-9-]+)|conjecture(?: by ([A-Za-z0-9-]+))?)$/.exec(entry);
  if (source) notes.sources.push({ id: source[2], kind: source[1] as Source['kind'], name: JSON.parse(source[3]) });
  else if (numbered)
    notes.numbered[Number(numbered[1]) - 1] =
      numbered[2] !== undefined
        ? { from: 'witness', id: numbered[2] }
        : { from: 'conjecture', ...(numbered[3] !== undefined && { id: numbered[3] }) };
  else throw new RangeError(`The apparatus line "${entry}" is not understood.`);
}

/**
 * Items of a text in Leiden signs, as typed or printed. `numbered[k]` is what a superscript k + 1 stands for; a bracket
 * without a number is conjecture. Throws RangeError where a sign is not understood.
 */
export function itemsOfLeiden(text: string, numbered: readonly SuppliedFrom[] = []): Item[] {
  const reader = new Reader([...text], numbered);
  while (!reader.done) reader.step();
  return reader.items;
}

class Reader {
  readonly items: Item[] = [];
  private at = 0;
  private readonly characters: readonly string[];
  private readonly numbered: readonly SuppliedFrom[];

  constructor(characters: readonly string[], numbered: readonly SuppliedFrom[]) {
    this.characters = characters;
    this.numbered = numbered;
  }

  get done(): boolean {
    return this.at >= this.characters.length;
  }

  private get next(): string | undefined {
    return this.characters[this.at];
  }

  step(): void {
    const c = this.next as string;
    if (c === ' ') this.push({ kind: 'space' });
    else if (c === '|') this.push({ kind: 'line' });
    else if (c === "'" || c === '¯') this.push({ kind: 'mark', text: c });
    else if (c === '(') this.expansion();
    else if (c === '[') this.bracket();
    else if (c === '<') this.run('>', 'omitted');
    else if (c === '{') this.run('}', 'superfluous');
    else if (c === '.') this.traces();
    else this.items.push(this.glyph('clear'));
  }

  private push(item: Item): void {
    this.items.push(item);
    this.at++;
  }

  private fail(): never {
    throw new RangeError(
      `The sign "${this.next ?? 'end'}" at place ${this.at + 1} of "${this.characters.join('')}" is not understood.`,
    );
  }

  private until(end: string): string {
    const stop = this.characters.indexOf(end, this.at);
    if (stop < 0) this.fail();
    const inside = this.characters.slice(this.at, stop).join('');
    this.at = stop + 1;
    return inside;
  }

  private expansion(): void {
    this.at++;
    const inside = this.until(')');
    this.items.push({ kind: 'expansion', text: inside === '---' ? null : inside });
  }

  private bracket(): void {
    const start = this.at;
    this.at++;
    const inside = this.until(']');
    const gap = gapOf(inside, 'lost');
    if (gap) {
      this.items.push(gap);
      return;
    }
    this.at = start;
    this.run(']', 'supplied');
  }

  /** Letters and signs to a closing bracket, then a source number and a tie to the next letter. */
  private run(end: string, state: Letter['state']): void {
    this.at++;
    const first = this.items.length;
    while (this.next !== end) {
      if (this.done) this.fail();
      this.items.push(this.glyph(state));
    }
    if (this.items.length === first) this.fail();
    this.at++;
    let number = '';
    while (this.next !== undefined && superscripts.includes(this.next)) {
      number += superscripts.indexOf(this.next);
      this.at++;
    }
    if (state === 'supplied') {
      const source = number === '' ? ({ from: 'conjecture' } as const) : this.numbered[Number(number) - 1];
      if (!source) throw new RangeError(`The apparatus has no source ${number}.`);
      for (let i = first; i < this.items.length; i++) this.items[i] = { ...this.items[i], source } as Item;
    } else if (number !== '') this.fail();
    this.tied(this.items.length - 1);
  }

  private tied(index: number): void {
    const last = this.items[index];
    if (this.next !== tie || last.kind !== 'letter') return;
    this.items[index] = { ...last, joined: true };
    this.at++;
  }

  private glyph(state: Letter['state']): Item {
    const c = this.next;
    if (c === undefined) this.fail();
    const name: SignName | undefined = signOfGlyph(c);
    if (name === undefined && (isReserved(c) || /\p{M}/u.test(c))) this.fail();
    this.at++;
    let text = c;
    let reversed = false;
    let doubtful = false;
    let joined = false;
    while (this.next !== undefined && /\p{M}/u.test(this.next)) {
      if (this.next === dotBelow) doubtful = true;
      else if (this.next === turned) reversed = true;
      else if (this.next === tie) joined = true;
      else text += this.next;
      this.at++;
    }
    const sure = doubtful ? 'doubtful' : state;
    if (doubtful && state !== 'clear') throw new RangeError('A letter is doubtful or supplied, never both.');
    if (name !== undefined) return { kind: 'sign', name, state: signState(sure) };
    return {
      kind: 'letter',
      text,
      state: sure,
      ...(joined && { joined: true as const }),
      ...(reversed && { reversed: true as const }),
    };
  }

  private traces(): void {
    const rest = this.characters.slice(this.at).join('');
    const known = /^\.(---|c\. \d+)\./.exec(rest) ?? /^\.+/.exec(rest);
    const text = known?.[0] ?? '';
    const gap = gapOf(known?.[1] ?? text, 'illegible');
    if (!gap) this.fail();
    this.items.push(gap);
    this.at += [...text].length;
  }
}

function signState(state: Letter['state']): Sign['state'] {
  if (state === 'clear' || state === 'doubtful' || state === 'supplied') return state;
  throw new RangeError('A sign is clear, doubtful or supplied.');
}

function gapOf(inside: string, reason: Gap['reason']): Gap | null {
  if (inside === '---') return { kind: 'gap', reason, quantity: null };
  if (/^\.+$/.test(inside)) return { kind: 'gap', reason, quantity: inside.length };
  const about = /^c\. ([1-9]\d*)$/.exec(inside);
  return about ? { kind: 'gap', reason, quantity: Number(about[1]), about: true } : null;
}
