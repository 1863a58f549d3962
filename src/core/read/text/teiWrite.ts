import { escapeXml } from '../../scan/index.ts';
import type { CardLanguage } from './languages.ts';
import { signNames, signs } from './signs.ts';
import { type TeiWords, teiWords } from './teiWords.ts';
import {
  endsWord,
  type Item,
  type Letter,
  type Sign,
  type Source,
  type SuppliedFrom,
  type Transcription,
} from './transcription.ts';

/** Bibliographic words for the TEI header; what is left out is said in general, in its language. */
export interface TeiHeader {
  readonly title?: string;
  readonly publication?: string;
  readonly sourceDescription?: string;
  /** Who read the legend. */
  readonly reader?: string | undefined;
  /** Of the human words; English where not stated. */
  readonly language?: CardLanguage;
}

/**
 * A transcription as a TEI document in EpiDoc's use of TEI P5: `supplied`, `unclear`, `gap`, `expan`/`abbr`/`ex`, `am`,
 * `surplus`, `hi` (ligature, reversed), `g` for signs, `lb` for a further ring, witnesses in `listWit`.
 * Elements as in the EpiDoc Guidelines; places along the band stand in a `note` because TEI has no element for them.
 * The document is complete and well-formed; spaces inside `ab` are meant.
 */
export function toTei(transcription: Transcription, header: TeiHeader = {}): string {
  const w = teiWords[header.language ?? 'en'];
  const { language, translation } = transcription;
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<TEI xmlns="http://www.tei-c.org/ns/1.0">',
    `  <teiHeader xml:lang="${header.language ?? 'en'}">`,
    '    <fileDesc>',
    `      <titleStmt><title>${escapeXml(header.title ?? w.title)}</title>${reader(header, w)}${persons(transcription.sources, w)}</titleStmt>`,
    `      <publicationStmt><p>${escapeXml(header.publication ?? w.publication)}</p></publicationStmt>`,
    `      <sourceDesc><p>${escapeXml(header.sourceDescription ?? w.source)}${witnesses(transcription.sources)}</p></sourceDesc>`,
    '    </fileDesc>',
    `    <encodingDesc>${charDecl(transcription.items, w)}</encodingDesc>`,
    '  </teiHeader>',
    '  <text>',
    '    <body>',
    `      <div type="edition" xml:lang="${language}" xml:space="preserve"><ab>${teiOfItems(transcription.items)}</ab></div>`,
    ...(translation
      ? [`      <div type="translation" xml:lang="${translation.language}"><p>${escapeXml(translation.text)}</p></div>`]
      : []),
    ...placesNote(transcription.items),
    '    </body>',
    '  </text>',
    '</TEI>',
  ];
  return `${lines.join('\n')}\n`;
}

const reader = ({ reader: name }: TeiHeader, w: TeiWords): string =>
  name ? `<respStmt><resp>${w.transcription}</resp><name type="reader">${escapeXml(name)}</name></respStmt>` : '';

function persons(sources: readonly Source[], w: TeiWords): string {
  return sources
    .map((source, k) =>
      source.kind === 'person'
        ? `<respStmt><resp>${w.conjecture}</resp><name xml:id="${source.id}" n="${k + 1}">${escapeXml(source.name)}</name></respStmt>`
        : '',
    )
    .join('');
}

function witnesses(sources: readonly Source[]): string {
  const list = sources
    .map((source, k) =>
      source.kind === 'witness'
        ? `<witness xml:id="${source.id}" n="${k + 1}">${escapeXml(source.name)}</witness>`
        : '',
    )
    .join('');
  return list === '' ? '' : `<listWit>${list}</listWit>`;
}

/** What the signs that are used look like. */
function charDecl(items: readonly Item[], w: TeiWords): string {
  const used = signNames.filter((name) => items.some((item) => item.kind === 'sign' && item.name === name));
  if (used.length === 0) return `<p>${w.noSigns}</p>`;
  const glyphs = used.map(
    (name) =>
      `<glyph xml:id="${name}"><localProp name="Name" value="${escapeXml(w.signs[name])}"/>` +
      `<mapping type="print">${escapeXml(signs[name].glyph)}</mapping></glyph>`,
  );
  return `<charDecl>${glyphs.join('')}</charDecl>`;
}

function placesNote(items: readonly Item[]): string[] {
  const places = items.map((item) => ('alongMm' in item && item.alongMm !== undefined ? String(item.alongMm) : '-'));
  if (places.every((place) => place === '-')) return [];
  return [`      <div type="apparatus"><p><note type="mmAlongBand">${places.join(' ')}</note></p></div>`];
}

/** The content of `ab`: words with expansions become `expan`, everything else follows in order. */
export function teiOfItems(items: readonly Item[]): string {
  let out = '';
  for (let i = 0; i < items.length; ) {
    if (endsWord(items[i])) {
      out += single(items[i]);
      i++;
      continue;
    }
    let end = i;
    while (end < items.length && !endsWord(items[end])) end++;
    out += word(items.slice(i, end));
    i = end;
  }
  return out;
}

function single(item: Item): string {
  if (item.kind === 'space') return ' ';
  if (item.kind === 'line') return '<lb/>';
  return item.kind === 'sign' ? inState(item, `<g ref="#${item.name}"/>`) : '';
}

function word(items: readonly Item[]): string {
  if (!items.some((item) => item.kind === 'expansion' || item.kind === 'mark')) return letters(items);
  const solved = items.some((item) => item.kind === 'expansion' && item.text !== null);
  let out = '';
  for (let i = 0; i < items.length; ) {
    const item = items[i];
    if (item.kind === 'expansion') {
      // An unsolved abbreviation beside a solved one is marked, so that it is not taken for nothing.
      out += item.text === null ? '<am type="unsolved"/>' : `<ex>${escapeXml(item.text)}</ex>`;
      i++;
      continue;
    }
    let end = i;
    while (end < items.length && items[end].kind !== 'expansion') end++;
    out += `<abbr>${letters(items.slice(i, end))}</abbr>`;
    i = end;
  }
  return solved ? `<expan>${out}</expan>` : `<seg type="abbreviated">${out}</seg>`;
}

/** Letters, gaps and marks; letters in ligature stand within one `hi`. */
function letters(items: readonly Item[]): string {
  let out = '';
  for (let i = 0; i < items.length; ) {
    let end = i;
    if (goesOn(items, i)) {
      while (goesOn(items, end)) end++;
      out += `<hi rend="ligature">${states(items.slice(i, end + 1))}</hi>`;
    } else {
      while (end + 1 < items.length && !goesOn(items, end + 1)) end++;
      out += states(items.slice(i, end + 1));
    }
    i = end + 1;
  }
  return out;
}

/** Is this letter in one with the next? */
function goesOn(items: readonly Item[], i: number): boolean {
  const item = items[i];
  return item?.kind === 'letter' && item.joined === true && items[i + 1]?.kind === 'letter';
}

/** Neighbours of one state within one element. */
function states(items: readonly Item[]): string {
  let out = '';
  for (let i = 0; i < items.length; ) {
    const item = items[i];
    if (item.kind !== 'letter') {
      out += item.kind === 'gap' ? gap(item) : item.kind === 'mark' ? `<am>${item.text}</am>` : '';
      i++;
      continue;
    }
    let end = i;
    let inside = '';
    while (end < items.length && sameState(item, items[end])) inside += character(items[end++] as Letter);
    out += inState(item, inside);
    i = end;
  }
  return out;
}

const sameState = (a: Letter, b: Item): boolean =>
  b.kind === 'letter' && a.state === b.state && a.source?.from === b.source?.from && a.source?.id === b.source?.id;

const character = ({ text, reversed }: Letter): string =>
  reversed ? `<hi rend="reversed">${escapeXml(text)}</hi>` : escapeXml(text);

function inState({ state, source }: Letter | Sign, inside: string): string {
  if (state === 'doubtful') return `<unclear>${inside}</unclear>`;
  if (state === 'omitted') return `<supplied reason="omitted">${inside}</supplied>`;
  if (state === 'superfluous') return `<surplus>${inside}</surplus>`;
  if (state === 'supplied') return `<supplied reason="lost"${sourceAttributes(source)}>${inside}</supplied>`;
  return inside;
}

function sourceAttributes(source: SuppliedFrom | undefined): string {
  if (source?.from === 'witness') return ` evidence="external" source="#${source.id}"`;
  return ` evidence="conjecture"${source?.id === undefined ? '' : ` resp="#${source.id}"`}`;
}

function gap({ reason, quantity, about }: Extract<Item, { kind: 'gap' }>): string {
  const size = quantity === null ? 'extent="unknown"' : `quantity="${quantity}"${about ? ' precision="low"' : ''}`;
  return `<gap reason="${reason}" ${size} unit="character"/>`;
}
