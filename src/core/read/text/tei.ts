import { XMLParser } from 'fast-xml-parser';
import { type SignName, signNames, signs } from './signs.ts';
import type { Item, Letter, Sign, Source, SuppliedFrom, Transcription } from './transcription.ts';
import { endsWord, transcriptionSchema } from './transcription.ts';
import { escapeXml } from './xmlText.ts';

/** Bibliographic words for the TEI header. */
export interface TeiHeader {
  readonly title: string;
  readonly publication: string;
  readonly sourceDescription: string;
}

export const defaultHeader: TeiHeader = {
  title: 'Legend of a seal',
  publication: 'Unpublished working transcription.',
  sourceDescription: 'Read from a surface scan.',
};

/**
 * A transcription as a TEI document in EpiDoc's use of TEI P5: `supplied`, `unclear`, `gap`, `expan`/`abbr`/`ex`, `am`,
 * `surplus`, `hi` (ligature, reversed), `g` for signs, `lb` for a further ring, witnesses in `listWit`.
 * Elements as in the EpiDoc Guidelines; places along the band stand in a `note` because TEI has no element for them.
 * The document is complete and well-formed; spaces inside `ab` are meant.
 */
export function toTei(transcription: Transcription, header: TeiHeader = defaultHeader): string {
  const { language, translation } = transcription;
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<TEI xmlns="http://www.tei-c.org/ns/1.0">',
    '  <teiHeader>',
    '    <fileDesc>',
    `      <titleStmt><title>${escapeXml(header.title)}</title>${persons(transcription.sources)}</titleStmt>`,
    `      <publicationStmt><p>${escapeXml(header.publication)}</p></publicationStmt>`,
    `      <sourceDesc><p>${escapeXml(header.sourceDescription)}</p>${witnesses(transcription.sources)}</sourceDesc>`,
    '    </fileDesc>',
    `    <encodingDesc>${charDecl(transcription.items)}</encodingDesc>`,
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

function persons(sources: readonly Source[]): string {
  return sources
    .map((source, k) =>
      source.kind === 'person'
        ? `<respStmt><resp>conjecture</resp><name xml:id="${source.id}" n="${k + 1}">${escapeXml(source.name)}</name></respStmt>`
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
function charDecl(items: readonly Item[]): string {
  const used = signNames.filter((name) => items.some((item) => item.kind === 'sign' && item.name === name));
  if (used.length === 0) return '<p>No signs besides letters.</p>';
  const glyphs = used.map(
    (name) =>
      `<glyph xml:id="${name}"><localProp name="Name" value="${escapeXml(signs[name].words)}"/>` +
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

/** Reads what `toTei` writes. Throws RangeError for an element that a transcription does not know. */
export function fromTei(xml: string): Transcription {
  const nodes: Node[] = parser.parse(xml);
  const tei = only(nodes, 'TEI');
  const header = only(childrenOf(tei), 'teiHeader');
  const body = only(childrenOf(only(childrenOf(tei), 'text')), 'body');
  const divs = childrenOf(body).filter((node) => nameOf(node) === 'div');
  const division = (type: string): Node | undefined => divs.find((node) => attribute(node, 'type') === type);
  const edition = division('edition');
  if (!edition) throw new RangeError('The TEI document has no edition.');
  const items = itemsOfTei(childrenOf(only(childrenOf(edition), 'ab')));
  const translation = division('translation');
  const apparatus = division('apparatus');
  const note = apparatus && all(childrenOf(apparatus), 'note').find((n) => attribute(n, 'type') === 'mmAlongBand');
  const places = note ? textOf(note).split(' ') : [];
  return transcriptionSchema.parse({
    language: attribute(edition, 'xml:lang') ?? 'la',
    items: items.map((item, i) =>
      places[i] === undefined || places[i] === '-' ? item : { ...item, alongMm: Number(places[i]) },
    ),
    sources: sourcesOf(childrenOf(header)),
    ...(translation && {
      translation: {
        language: attribute(translation, 'xml:lang') ?? 'en',
        text: textOf(only(childrenOf(translation), 'p')),
      },
    }),
  });
}

type Node = Record<string, unknown>;

const parser = new XMLParser({
  preserveOrder: true,
  ignoreAttributes: false,
  attributeNamePrefix: '',
  trimValues: false,
  parseTagValue: false,
  parseAttributeValue: false,
});

const nameOf = (node: Node): string => Object.keys(node).find((key) => key !== ':@') ?? '';
const childrenOf = (node: Node): Node[] => {
  const children = node[nameOf(node)];
  return Array.isArray(children) ? children : [];
};
const attribute = (node: Node, name: string): string | undefined =>
  (node[':@'] as Record<string, string> | undefined)?.[name];

function only(nodes: readonly Node[], name: string): Node {
  const found = nodes.find((node) => nameOf(node) === name);
  if (!found) throw new RangeError(`The TEI document has no ${name}.`);
  return found;
}

const all = (nodes: readonly Node[], name: string): Node[] =>
  nodes.flatMap((node) => [...(nameOf(node) === name ? [node] : []), ...all(childrenOf(node), name)]);

const textOf = (node: Node): string =>
  nameOf(node) === '#text' ? String(node['#text']) : childrenOf(node).map(textOf).join('');

function sourcesOf(header: readonly Node[]): Source[] {
  const read = (kind: Source['kind']) => (node: Node) => ({
    at: Number(attribute(node, 'n')),
    source: { id: attribute(node, 'xml:id') ?? '', kind, name: textOf(node) },
  });
  return [
    ...all(header, 'witness').map(read('witness')),
    ...all(header, 'name')
      .filter((node) => attribute(node, 'xml:id') !== undefined)
      .map(read('person')),
  ]
    .sort((a, b) => a.at - b.at)
    .map(({ source }) => source);
}

/** What the elements around a letter say of it. */
interface Context {
  readonly state: Letter['state'];
  readonly source?: SuppliedFrom;
  readonly reversed?: true;
}

export function itemsOfTei(nodes: readonly Node[], context: Context = { state: 'clear' }): Item[] {
  return nodes.flatMap((node) => itemsOfNode(node, context));
}

function itemsOfNode(node: Node, context: Context): Item[] {
  const inside = (more: Partial<Context> = {}): Item[] => itemsOfTei(childrenOf(node), { ...context, ...more });
  switch (nameOf(node)) {
    case '#text':
      return lettersOf(String(node['#text']), context);
    case 'expan':
    case 'abbr':
    case 'seg':
      return inside();
    case 'ex':
      return [{ kind: 'expansion', text: textOf(node) }];
    case 'am':
      if (attribute(node, 'type') === 'unsolved') return [{ kind: 'expansion', text: null }];
      return [{ kind: 'mark', text: textOf(node) === '¯' ? '¯' : "'" }];
    case 'lb':
      return [{ kind: 'line' }];
    case 'gap':
      return [gapOfNode(node)];
    case 'g':
      return [signOfNode(node, context)];
    case 'unclear':
      if (context.state !== 'clear') throw new RangeError('A letter is unclear or supplied, never both.');
      return inside({ state: 'doubtful' });
    case 'surplus':
      return inside({ state: 'superfluous' });
    case 'supplied':
      return inside(suppliedOf(node));
    case 'hi':
      return attribute(node, 'rend') === 'ligature' ? tied(inside()) : inside({ reversed: true });
    default:
      throw new RangeError(`The element ${nameOf(node)} has no place in a transcription.`);
  }
}

const tied = (items: readonly Item[]): Item[] =>
  items.map((item, i) => (item.kind === 'letter' && i < items.length - 1 ? { ...item, joined: true as const } : item));

function suppliedOf(node: Node): Partial<Context> {
  if (attribute(node, 'reason') === 'omitted') return { state: 'omitted' };
  const witness = attribute(node, 'source')?.replace(/^#/, '');
  if (witness !== undefined) return { state: 'supplied', source: { from: 'witness', id: witness } };
  const person = attribute(node, 'resp')?.replace(/^#/, '');
  return { state: 'supplied', source: { from: 'conjecture', ...(person !== undefined && { id: person }) } };
}

function gapOfNode(node: Node): Item {
  const quantity = attribute(node, 'quantity');
  return {
    kind: 'gap',
    reason: attribute(node, 'reason') === 'illegible' ? 'illegible' : 'lost',
    quantity: quantity === undefined ? null : Number(quantity),
    ...(attribute(node, 'precision') === 'low' && { about: true as const }),
  };
}

function signOfNode(node: Node, { state, source }: Context): Item {
  const name = attribute(node, 'ref')?.replace(/^#/, '') as SignName;
  if (!signNames.includes(name)) throw new RangeError(`The sign "${name}" is not known.`);
  if (state === 'omitted' || state === 'superfluous') throw new RangeError('A sign is clear, doubtful or supplied.');
  return { kind: 'sign', name, state, ...(source && { source }) };
}

/** Letters of a text node: each with the accents that follow it; spaces part words, line ends are layout. */
function lettersOf(text: string, { state, source, reversed }: Context): Item[] {
  const items: Item[] = [];
  for (const [character] of text.matchAll(/\P{M}\p{M}*/gu)) {
    if (character === ' ') items.push({ kind: 'space' });
    else if (!/\s/.test(character))
      items.push({ kind: 'letter', text: character, state, ...(source && { source }), ...(reversed && { reversed }) });
  }
  return items;
}
