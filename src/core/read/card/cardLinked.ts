import { cardLanguages, diplomatic, expanded, leidenText } from '../text/index.ts';
import type { Card, CardSide } from './card.ts';
import { type CardWords, cardWords, type RowName } from './words/index.ts';

type Linked = Record<string, unknown>;

const context = {
  dc: 'http://purl.org/dc/elements/1.1/',
  dcterms: 'http://purl.org/dc/terms/',
  crm: 'http://www.cidoc-crm.org/cidoc-crm/',
  rdfs: 'http://www.w3.org/2000/01/rdf-schema#',
  xsd: 'http://www.w3.org/2001/XMLSchema#',
} as const;

/**
 * The card as JSON-LD: Dublin Core for what library catalogues look for, CIDOC CRM for what the object is. Closed terms come in every
 * language of the card, each with its tag; what somebody wrote stays as it is.
 * Classes and properties of CRM 7.1 used: E22 Human-Made Object, E42 Identifier, E54 Dimension, E34 Inscription, E36 Visual
 * Item, E25 Human-Made Feature, E3 Condition State, E12 Production, E52 Time-Span, E57 Material, E55 Type.
 */
export function cardJsonLd(card: Card, id = '_:seal'): Linked {
  return withoutEmpty({
    '@context': context,
    '@id': id,
    '@type': 'crm:E22_Human-Made_Object',
    'dc:title': titleOf(card),
    'dc:type': `Seal ${card.object.class}`,
    'dc:identifier': [card.repository, card.shelfmark].filter(Boolean).join(', '),
    'dc:date': card.date?.words,
    'dc:description': card.sides.flatMap(({ motif }) => (motif ? [motif] : [])),
    'dc:language': legends(card)[0]?.language,
    'dc:rights': card.rights,
    'dcterms:medium': card.object.chain[card.object.chain.length - 1]?.material,
    'dcterms:extent': extentOf(card),
    'crm:P1_is_identified_by': { '@type': 'crm:E42_Identifier', 'rdfs:label': card.shelfmark },
    'crm:P2_has_type': typesOf(card),
    'crm:P50_has_current_keeper': card.repository && { '@type': 'crm:E74_Group', 'rdfs:label': card.repository },
    'crm:P45_consists_of': materialOf(card),
    'crm:P46i_forms_part_of': documentOf(card),
    'crm:P43_has_dimension': dimensionsOf(card),
    'crm:P56_bears_feature': card.sides.map((side) => sideOf(side)),
    'crm:P44_has_condition': conditionsOf(card),
    'crm:P108i_was_produced_by': productionOf(card),
    'crm:P138i_has_representation': scanOf(card),
    'crm:P130_shows_features_of': kinOf(card),
    'crm:P3_has_note': notesOf(card),
  });
}

const type = (label: unknown): Linked => ({ '@type': 'crm:E55_Type', 'rdfs:label': label });

const { en } = cardWords;

/** A closed term in every language. */
const tagged = (words: (w: CardWords) => string): Linked[] =>
  cardLanguages.map((language) => ({ '@language': language, '@value': words(cardWords[language]) }));

/** The same behind its label: "Covering: paper". */
const labelled = (name: RowName, words: (w: CardWords) => string): Linked[] =>
  tagged((w) => `${w.rows[name]}: ${words(w)}`);

const titleOf = ({ owner, object }: Card): string =>
  owner ? `Seal ${object.class} of ${owner}` : `Seal ${object.class}`;

function materialOf({ object, colour }: Card): Linked | undefined {
  const material = object.chain[object.chain.length - 1]?.material;
  if (!material && !colour) return undefined;
  return { '@type': 'crm:E57_Material', 'rdfs:label': [material, colour].filter(Boolean).join(', ') };
}

const legends = ({ sides }: Card) => sides.flatMap(({ legend }) => (legend ? [legend] : []));

const extentOf = ({ sides }: Card): string[] =>
  sides.flatMap(({ image }) =>
    image ? [`image ${image.heightMm} × ${image.widthMm} mm (${en.imageFrom[image.from]})`] : [],
  );

const typesOf = ({ object, objectType, sides }: Card): Linked[] => [
  type(`seal ${object.class}`),
  ...(objectType === 'unknown' ? [] : [type(tagged((w) => w.objectTypes[objectType]))]),
  ...sides.flatMap(({ shape }) => (shape === 'unknown' ? [] : [type(tagged((w) => w.shapes[shape]))])),
];

/** Only what was stated: a seal of which nobody said how it hangs is not said to be part of a document. */
function documentOf({ seal, attachment, status }: Card): Linked | undefined {
  if (!seal && attachment === 'unknown' && status !== 'attached') return undefined;
  const notes = (w: CardWords): string[] => [
    seal ? `${w.rows.seal} ${w.nOfM(seal.number, seal.of)}` : '',
    attachment === 'unknown' ? '' : w.attachments[attachment],
    status === 'unknown' ? '' : w.statuses[status],
  ];
  return {
    '@type': 'crm:E22_Human-Made_Object',
    'crm:P2_has_type': type('document'),
    'crm:P3_has_note': tagged((w) => notes(w).filter(Boolean).join(', ')),
  };
}

function dimensionsOf({ sides, piece, surviving, betweenSides }: Card): Linked[] {
  const of = (what: string, value: number, note?: unknown): Linked =>
    withoutEmpty({
      '@type': 'crm:E54_Dimension',
      'crm:P2_has_type': type(what),
      'crm:P90_has_value': { '@type': 'xsd:decimal', '@value': String(value) },
      'crm:P91_has_unit': { '@type': 'crm:E58_Measurement_Unit', 'rdfs:label': 'mm' },
      'crm:P3_has_note': note,
    });
  const both = (what: string, size: { heightMm: number; widthMm: number } | undefined, note?: unknown): Linked[] =>
    size ? [of(`height of ${what}`, size.heightMm, note), of(`width of ${what}`, size.widthMm, note)] : [];
  const { thicknessMm, offsetMm } = betweenSides ?? {};
  return [
    ...sides.flatMap(({ side, image }) =>
      both(
        side === 'unknown' ? 'image' : `image of the ${side}`,
        image,
        image && tagged((w) => w.imageFrom[image.from]),
      ),
    ),
    ...both('piece', piece),
    ...both('what survives', surviving),
    ...(thicknessMm === undefined ? [] : [of('thickness', thicknessMm)]),
    ...(offsetMm === undefined ? [] : [of('offset of the sides', offsetMm)]),
  ];
}

/** A side as a feature of the object, with its legend and its motif. */
function sideOf({ side, legend, motif }: CardSide): Linked {
  return withoutEmpty({
    '@type': 'crm:E25_Human-Made_Feature',
    'rdfs:label': tagged((w) => (side === 'unknown' ? w.rows.image : w.sides[side])),
    'crm:P128_carries': legend && inscriptionOf(legend),
    'crm:P65_shows_visual_item': motif && { '@type': 'crm:E36_Visual_Item', 'crm:P3_has_note': motif },
  });
}

function inscriptionOf(legend: NonNullable<CardSide['legend']>): Linked {
  return {
    '@type': 'crm:E34_Inscription',
    'crm:P72_has_language': { '@type': 'crm:E56_Language', 'rdfs:label': legend.language },
    'crm:P190_has_symbolic_content': leidenText(legend.items),
    'crm:P3_has_note': [`As it stands: ${diplomatic(legend)}`, `In full: ${expanded(legend)}`],
    ...(legend.translation && {
      'crm:P73_has_translation': {
        '@type': 'crm:E33_Linguistic_Object',
        'crm:P190_has_symbolic_content': {
          '@language': legend.translation.language,
          '@value': legend.translation.text,
        },
      },
    }),
  };
}

const kinOf = ({ links }: Card): Linked[] =>
  links.map(({ relation, words, uri }) =>
    withoutEmpty({
      '@id': uri,
      '@type': 'crm:E22_Human-Made_Object',
      'rdfs:label': words,
      'crm:P3_has_note': tagged((w) => w.relations[relation]),
    }),
  );

function conditionsOf({ condition, repairs, earlierMoulding }: Card): Linked[] {
  return [condition, repairs && `Repairs: ${repairs}`, earlierMoulding && `Earlier moulding: ${earlierMoulding}`]
    .filter((note) => note !== undefined && note !== '')
    .map((note) => ({ '@type': 'crm:E3_Condition_State', 'crm:P3_has_note': note }));
}

function productionOf({ date, object }: Card): Linked | undefined {
  const chain = object.chain.map((link) => `${link.object} (${link.material})`).join(' → ');
  if (!date && !chain) return undefined;
  return withoutEmpty({
    '@type': 'crm:E12_Production',
    'crm:P3_has_note': [
      chain && `Chain from the matrix: ${chain}`,
      object.generation !== null ? `Copying steps from the matrix: ${object.generation}` : '',
    ].filter(Boolean),
    'crm:P4_has_time-span':
      date &&
      withoutEmpty({
        '@type': 'crm:E52_Time-Span',
        'rdfs:label': date.words,
        'crm:P82a_begin_of_the_begin': date.notBefore === undefined ? undefined : yearValue(date.notBefore),
        'crm:P82b_end_of_the_end': date.notAfter === undefined ? undefined : yearValue(date.notAfter),
        'crm:P3_has_note': [...tagged((w) => w.dateBases[date.basis]), date.basisWords].filter(Boolean),
      }),
  });
}

/** xsd:gYear: at least four digits, a minus sign before Christ. */
const yearValue = (year: number): Linked => ({
  '@type': 'xsd:gYear',
  '@value': `${year < 0 ? '-' : ''}${String(Math.abs(year)).padStart(4, '0')}`,
});

function scanOf({ scan }: Card): Linked | undefined {
  if (!scan) return undefined;
  return withoutEmpty({
    '@type': 'crm:E36_Visual_Item',
    'dc:identifier': `sha256:${scan.sha256}`,
    'rdfs:label': scan.file,
    'dc:date': scan.date,
    'dc:creator': scan.operator,
    'crm:P3_has_note': [
      `unit ${scan.unit} (${scan.unitFrom})`,
      scan.instrument && `instrument: ${scan.instrument}`,
      scan.pointSpacingMm !== undefined && `point spacing ${scan.pointSpacingMm} mm`,
      scan.processing && `processing: ${scan.processing}`,
    ].filter(Boolean),
  });
}

function notesOf(card: Card): unknown[] {
  const { back, fingerMarks, describedBy, covering, protection, cast, betweenSides } = card;
  const turn = betweenSides?.turnDeg;
  return [
    ...(covering === 'unknown' ? [] : labelled('covering', (w) => w.coverings[covering])),
    ...(protection === 'unknown' ? [] : labelled('protection', (w) => w.protections[protection])),
    ...(cast ? castNotes(cast) : []),
    ...(turn === undefined ? [] : labelled('turn', () => `${turn}°`)),
    back && `${en.rows.back}: ${back}`,
    ...(fingerMarks === 'notJudged' ? [] : labelled('fingerMarks', (w) => w.fingerMarks[fingerMarks])),
    describedBy && `${en.rows.describedBy}: ${describedBy}`,
  ].filter((note) => note !== undefined && note !== '');
}

function castNotes({ material, maker, makersNumber, changeOfSize: change, original }: NonNullable<Card['cast']>) {
  return [
    ...(material === 'unknown' ? [] : labelled('castMaterial', (w) => w.castMaterials[material])),
    maker && `${en.rows.maker}: ${maker}`,
    makersNumber && `${en.rows.makersNumber}: ${makersNumber}`,
    ...(change
      ? [`${en.rows.changeOfSize}: ${change.percent} % (${change.source})`]
      : labelled('changeOfSize', (w) => w.notKnown)),
    ...(original.attachment === 'unknown'
      ? []
      : labelled('originalAttachment', (w) => w.attachments[original.attachment])),
    ...(original.status === 'unknown' ? [] : labelled('originalStatus', (w) => w.statuses[original.status])),
  ];
}

function withoutEmpty(linked: Linked): Linked {
  return Object.fromEntries(
    Object.entries(linked).filter(
      ([, value]) => value !== undefined && value !== '' && !(Array.isArray(value) && value.length === 0),
    ),
  );
}
