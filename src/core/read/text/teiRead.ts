import { XMLParser } from 'fast-xml-parser';
import { type SignName, signNames } from './signs.ts';
import {
  type Item,
  type Letter,
  type Source,
  type SuppliedFrom,
  type Transcription,
  transcriptionSchema,
} from './transcription.ts';

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

/** Who read the legend, as `toTei` names the reader; null where nobody is named. */
export function readerOfTei(xml: string): string | null {
  const header = only(childrenOf(only(parser.parse(xml), 'TEI')), 'teiHeader');
  const named = all(childrenOf(header), 'name').find((node) => attribute(node, 'type') === 'reader');
  return named ? textOf(named) : null;
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
