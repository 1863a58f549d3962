import { strFromU8 } from 'fflate';
import type { Budget } from '../admission/budget.ts';
import { ScanError } from '../error.ts';

/** A description without its points is a page or two; many times that is something else. */
const longestDescription = 1 << 20;
const mostElements = 20_000;
/** A list entry keeps a text and its place in a list, bytes. */
const entryBytes = 48;

const letter = { less: 0x3c, greater: 0x3e, slash: 0x2f, colon: 0x3a };

/** A tag: from its first byte to the one behind its end. */
interface Place {
  readonly from: number;
  readonly to: number;
}

/** The points that stand in main.xml itself. */
export interface InlineList {
  /** The first `most` entries: values between semicolons, empty where there is no point. */
  read(most: number): string[];
}

/**
 * Takes the list of points out of main.xml, so that only a short text goes through the XML parser: a parser makes an
 * object of every element, and a list has millions. Throws `tooLarge` where what is left is no description any more.
 */
export function splitDataList(xml: Uint8Array, budget: Budget): { rest: Uint8Array; list?: InlineList } {
  const start = elementNamed(xml, 'DataList', 0, false, mostElements);
  const end = start && closingBefore(xml, 'DataList', xml.length, start.to);
  if (!start || !end) return { rest: short(xml) };
  const rest = new Uint8Array(start.to + xml.length - end.from);
  rest.set(xml.subarray(0, start.to));
  rest.set(xml.subarray(end.from), start.to);
  const body = xml.subarray(start.to, end.from);
  return { rest: short(rest), list: { read: (most) => entriesOf(body, most, budget) } };
}

function short(xml: Uint8Array): Uint8Array {
  let elements = 0;
  for (const byte of xml.length > longestDescription ? [] : xml) if (byte === letter.less) elements++;
  if (xml.length <= longestDescription && elements <= mostElements) return xml;
  throw tooLong();
}

const tooLong = (): ScanError =>
  new ScanError('tooLarge', 'the description (main.xml) of the X3P file is far too long; export the file again.');

function entriesOf(body: Uint8Array, most: number, budget: Budget): string[] {
  const out: string[] = [];
  let at = 0;
  while (out.length < most) {
    const start = elementNamed(body, 'Datum', at, false);
    if (!start) break;
    budget.bytes(entryBytes);
    const empty = body[start.to - 2] === letter.slash;
    const end = empty ? start : elementNamed(body, 'Datum', start.to, true);
    if (!end) throw new ScanError('truncated', 'the list of points in the X3P file is cut short; export it again.');
    out.push(empty ? '' : strFromU8(body.subarray(start.to, end.from), true).trim());
    at = end.to;
  }
  return out;
}

/** The last closing tag of this name, looked for from the end, as hardly anything follows a list. */
function closingBefore(xml: Uint8Array, name: string, from: number, downTo: number): Place | undefined {
  let tags = 0;
  for (let at = xml.lastIndexOf(letter.less, from); at >= downTo; at = xml.lastIndexOf(letter.less, at - 1)) {
    if (++tags > mostElements) throw tooLong();
    const next = xml.indexOf(letter.less, at + 1);
    const found = elementNamed(xml.subarray(0, next < 0 ? xml.length : next), name, at, true);
    if (found) return found;
  }
  return undefined;
}

/** The next tag of this name, of any name space. Throws `tooLarge` where more than `mostTags` tags come before it. */
function elementNamed(
  xml: Uint8Array,
  name: string,
  from: number,
  closing: boolean,
  mostTags = Number.POSITIVE_INFINITY,
): Place | undefined {
  let tags = 0;
  for (let at = xml.indexOf(letter.less, from); at >= 0; at = xml.indexOf(letter.less, at + 1)) {
    if (++tags > mostTags) throw tooLong();
    if ((xml[at + 1] === letter.slash) !== closing) continue;
    const first = at + (closing ? 2 : 1);
    let last = first;
    // A name is short: a tag that goes on and on is not this one.
    while (last < first + 64 && isNameByte(xml[last])) last++;
    const colon = xml.subarray(first, last).lastIndexOf(letter.colon);
    if (!sameName(xml, first + colon + 1, last, name)) continue;
    const to = xml.indexOf(letter.greater, last);
    return to < 0 ? undefined : { from: at, to: to + 1 };
  }
  return undefined;
}

const isNameByte = (byte: number | undefined): boolean =>
  byte !== undefined && byte > 32 && byte !== letter.greater && byte !== letter.slash;

function sameName(xml: Uint8Array, from: number, to: number, name: string): boolean {
  if (to - from !== name.length) return false;
  for (let i = 0; i < name.length; i++) if (xml[from + i] !== name.charCodeAt(i)) return false;
  return true;
}
