import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { XMLParser } from 'fast-xml-parser';

interface Declared {
  readonly name: string;
  readonly children: readonly string[];
  readonly attributes: ReadonlyArray<{ readonly name: string }>;
}

/** Every element of TEI P5 with the children and attributes that its schema lets it have, as an editor's package carries them. */
const declared = new Map<string, { children: ReadonlySet<string>; attributes: ReadonlySet<string> }>(
  (
    JSON.parse(
      readFileSync(
        createRequire(import.meta.url)
          .resolve('@jinntec/jinn-codemirror')
          .replace(/index\.js$/, 'dist/tei.json'),
        'utf8',
      ),
    ) as { elements: Declared[] }
  ).elements.map(({ name, children, attributes }) => [
    name,
    { children: new Set(children), attributes: new Set(attributes.map((each) => each.name)) },
  ]),
);

/**
 * Orders and counts that the list above does not have, of the elements that are written here: expressions over the names of children, each followed
 * by a space. Source: the content models of the TEI P5 Guidelines' element specifications.
 */
const contents: Readonly<Record<string, RegExp>> = {
  TEI: /^teiHeader (text )+$/,
  teiHeader: /^fileDesc (encodingDesc |profileDesc |xenoData )*(revisionDesc )?$/,
  fileDesc: /^titleStmt (editionStmt )?(extent )?publicationStmt (seriesStmt )*(notesStmt )?(sourceDesc )+$/,
  titleStmt: /^(title )+(author |editor |respStmt |funder |sponsor )*$/,
  respStmt: /^((resp )+((name|persName|orgName) )+|((name|persName|orgName) )+(resp )+)(note )*$/,
  sourceDesc: /^((p |ab )+|(bibl |listBibl |msDesc |listWit |list |listPerson )+)$/,
  encodingDesc: /^(p |ab |charDecl |editorialDecl |projectDesc )+$/,
  charDecl: /^(desc )?((char|glyph) )+$/,
  listWit: /^(head )?(witness |listWit )+$/,
  text: /^(front )?(body |group )(back )?$/,
  body: /^(head )?((p |ab )+|(div )+)$/,
  div: /^(head )?(p |ab |note |listBibl )+$/,
  msDesc: /^msIdentifier (head )*((p |ab )+|(msContents )?(physDesc )?(history )?(additional )?(msPart )*)$/,
  msIdentifier: /^(country )?(settlement )?(institution )?(repository )?(collection )*(idno )?(altIdentifier )*$/,
  physDesc: /^(p )*(objectDesc )?(decoDesc )?(bindingDesc )?(sealDesc )?(accMat )?$/,
  sealDesc: /^((p |ab )+|(summary )?(decoNote |seal |condition )+)$/,
  seal: /^(p |ab |decoNote )+$/,
  condition: /^(p |ab )*$/,
  history: /^((p |ab )+|(summary )?(origin )?(provenance )*(acquisition )?)$/,
  additional: /^(adminInfo )?(surrogates )?(listBibl )?$/,
  dimensions: /^(?!.*(height|width|depth).*\1)(height |width |depth |dim )*$/,
  gap: /^(desc )?$/,
  lb: /^$/,
  g: /^$/,
};
/** Elements whose text is layout alone. */
const withoutText = new Set([
  ...[
    'TEI',
    'teiHeader',
    'fileDesc',
    'titleStmt',
    'respStmt',
    'sourceDesc',
    'encodingDesc',
    'charDecl',
    'listWit',
    'text',
  ],
  ...['body', 'div', 'msDesc', 'msIdentifier', 'physDesc', 'sealDesc', 'seal', 'history', 'additional', 'dimensions'],
  ...['publicationStmt', 'glyph', 'surrogates', 'gap', 'lb', 'g'],
]);

type Node = Record<string, unknown>;
const parser = new XMLParser({
  ...{ preserveOrder: true, ignoreAttributes: false, attributeNamePrefix: '', trimValues: false },
  ...{ parseTagValue: false, parseAttributeValue: false },
});

/** What is wrong with a document of TEI P5 by its schema: unknown elements, children and attributes out of place, wrong orders, values of a wrong type. */
export function teiFaults(xml: string): string[] {
  const faults: string[] = [];
  const ids = new Set<string>();
  const references: string[] = [];
  const visit = (node: Node): void => {
    const name = Object.keys(node).find((key) => key !== ':@') as string;
    const children = (node[name] as Node[]).filter((child) => !('#comment' in child));
    const known = declared.get(name);
    if (!known) {
      faults.push(`${name} is no element of TEI P5`);
      return;
    }
    for (const [attribute, value] of Object.entries((node[':@'] ?? {}) as Record<string, string>)) {
      if (attribute === 'xmlns') continue;
      if (!known.attributes.has(attribute)) faults.push(`${name} has no attribute ${attribute}`);
      faults.push(...valueFaults(name, attribute, value));
      if (attribute === 'xml:id') {
        if (ids.has(value)) faults.push(`two elements are called ${value}`);
        ids.add(value);
      }
      if (value.startsWith('#')) references.push(value.slice(1));
    }
    const names = children.flatMap((child) =>
      '#text' in child ? [] : [Object.keys(child).find((key) => key !== ':@')],
    );
    for (const child of names)
      if (!known.children.has(child as string)) faults.push(`${child} has no place in ${name}`);
    const order = contents[name];
    if (order && !order.test(names.map((each) => `${each} `).join('')))
      faults.push(`${name} has its parts in a wrong order or number: ${names.join(' ')}`);
    if (withoutText.has(name) && children.some((child) => '#text' in child && String(child['#text']).trim() !== ''))
      faults.push(`${name} holds text`);
    for (const child of children) if (!('#text' in child)) visit(child);
  };
  for (const root of parser.parse(xml) as Node[]) if (!('?xml' in root) && !('#text' in root)) visit(root);
  // Signs of a fragment are declared by the document it goes into.
  const whole = xml.includes('<TEI ');
  for (const each of references) if (whole && !ids.has(each)) faults.push(`nothing is called ${each}`);
  return faults;
}

/** Datatypes of the attributes that are written here (TEI P5, chapter 1.4.2): enumerated, probability and temporal values, pointers, names. */
const types: ReadonlyArray<readonly [RegExp, RegExp]> = [
  [/^(type|unit|reason|evidence|precision|rend)$/, /^[\p{L}_][\p{L}\p{N}._-]*( [\p{L}_][\p{L}\p{N}._-]*)*$/u],
  [/^xml:id$/, /^[\p{L}_][\p{L}\p{N}._-]*$/u],
  [/^xml:lang$/, /^[a-z]{2,3}(-[A-Za-z0-9]+)*$/],
  [/^(notBefore|notAfter)$/, /^-?\d{4,}(-\d\d(-\d\d)?)?$/],
  [/^quantity$/, /^\d+(\.\d+)?$/],
  [/^(ref|source|resp|target)$/, /^\S+$/],
  [/^xml:space$/, /^preserve$/],
];
const valueFaults = (name: string, attribute: string, value: string): string[] =>
  types.some(([which, takes]) => which.test(attribute) && !takes.test(value))
    ? [`${name} has ${attribute}="${value}", which is not of its type`]
    : [];
