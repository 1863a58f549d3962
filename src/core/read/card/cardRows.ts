import { writeCsv } from '../../scan/index.ts';
import { type CardLanguage, expanded, leidenText } from '../text/index.ts';
import type { Card, CardSide } from './card.ts';
import { type CardWords, cardWords, type RowName } from './words/index.ts';

/** One line of a printed card. */
export interface CardRow {
  /** Stable key, also the CSV column; rows of the second side end in 2. */
  readonly key: string;
  readonly label: string;
  readonly value: string;
}

const sizeWords = (size: { heightMm: number; widthMm: number } | undefined): string =>
  size ? `${size.heightMm} × ${size.widthMm} mm` : '';

type Row = (name: RowName, value: string | number | undefined) => CardRow;

/** The card as label and value, in the order in which it is printed; empty values included. */
export function cardRows(card: Card, language: CardLanguage = 'en'): CardRow[] {
  const w = cardWords[language];
  const { object, date, seal, betweenSides } = card;
  const row: Row = (name, value) => ({
    key: name,
    label: w.rows[name],
    value: value === undefined ? '' : String(value),
  });
  const sized = (name: 'piece' | 'surviving'): CardRow => ({
    ...row(name, sizeWords(card[name])),
    label: `${w.rows[name]}, ${w.sizeOrder}`,
  });
  const chain = object.chain
    .map(({ object: kind, material }) => `${w.classes[kind]} (${unstated.has(material) ? w.notKnown : material})`)
    .join(' → ');
  return [
    row('repository', card.repository),
    row('shelfmark', card.shelfmark),
    row('seal', seal && w.nOfM(seal.number, seal.of)),
    row('objectType', w.objectTypes[card.objectType]),
    row('attachment', w.attachments[card.attachment]),
    row('status', w.statuses[card.status]),
    row('covering', w.coverings[card.covering]),
    row('protection', w.protections[card.protection]),
    row('class', w.classes[object.class]),
    row('generation', object.generation ?? w.notKnown),
    row('chain', chain),
    ...castRows(card, w, row),
    row('links', card.links.map((link) => linkWords(link, w)).join('; ')),
    row('owner', card.owner),
    row('colour', card.colour),
    ...sideRows(card.sides[0], w, row),
    ...sideRows(card.sides[1], w, (name, value) => ({ ...row(name, value), key: `${name}2` })),
    row('turn', betweenSides?.turnDeg === undefined ? '' : `${betweenSides.turnDeg}°`),
    row('offset', millimetres(betweenSides?.offsetMm)),
    row('thickness', millimetres(betweenSides?.thicknessMm)),
    sized('piece'),
    sized('surviving'),
    row('back', card.back),
    row('fingerMarks', w.fingerMarks[card.fingerMarks]),
    row('condition', card.condition),
    row('repairs', card.repairs),
    row('earlierMoulding', card.earlierMoulding),
    row('date', date?.words),
    row('notBefore', date?.notBefore),
    row('notAfter', date?.notAfter),
    row('dateBasis', date && [w.dateBases[date.basis], date.basisWords].filter(Boolean).join(': ')),
    ...scanRows(card, w, row),
    row('describedBy', card.describedBy),
    row('rights', card.rights),
  ];
}

/** Materials that nobody stated, as the fields are filled before anybody writes. */
const unstated = new Set(['not known', 'not stated']);

const millimetres = (mm: number | undefined): string => (mm === undefined ? '' : `${mm} mm`);

const linkWords = ({ relation, words, uri }: Card['links'][number], w: CardWords): string =>
  `${w.relations[relation]}: ${words}${uri ? ` <${uri}>` : ''}`;

function castRows({ cast }: Card, w: CardWords, row: Row): CardRow[] {
  const change = cast?.changeOfSize;
  return [
    row('castMaterial', cast && w.castMaterials[cast.material]),
    row('maker', cast?.maker),
    row('makersNumber', cast?.makersNumber),
    row('changeOfSize', cast && (change ? `${change.percent} % (${change.source})` : w.notKnown)),
    row('originalAttachment', cast && w.attachments[cast.original.attachment]),
    row('originalStatus', cast && w.statuses[cast.original.status]),
  ];
}

function sideRows(side: CardSide | undefined, w: CardWords, row: Row): CardRow[] {
  const { image, legend } = side ?? {};
  const size = row('image', image && `${sizeWords(image)} (${w.imageFrom[image.from]})`);
  return [
    row('side', side && w.sides[side.side]),
    row('shape', side && w.shapes[side.shape]),
    { ...size, label: `${size.label}, ${w.sizeOrder}` },
    row('motif', side?.motif),
    row('legend', legend && leidenText(legend.items)),
    row('legendExpanded', legend && expanded(legend)),
    row('translation', legend?.translation?.text),
  ];
}

function scanRows({ scan }: Card, w: CardWords, row: Row): CardRow[] {
  return [
    row('scanFile', scan?.file),
    row('scanSha256', scan?.sha256),
    row('scanUnit', scan && `${scan.unit} (${w.unitFrom[scan.unitFrom]})`),
    row('scanInstrument', scan?.instrument),
    row('scanOperator', scan?.operator),
    row('scanDate', scan?.date),
    row('scanSpacing', millimetres(scan?.pointSpacingMm)),
    row('scanProcessing', scan?.processing),
  ];
}

/** Column names, then one line a card (RFC 4180). */
export function cardsCsv(cards: readonly Card[], language: CardLanguage = 'en'): string {
  const lines = cards.map((card) => cardRows(card, language).map((row) => row.value));
  const header = cards.length > 0 ? [cardRows(cards[0]).map((row) => row.key)] : [];
  return writeCsv([...header, ...lines]);
}
