import { writeCsv } from '../../scan/index.ts';
import { expanded, leidenText } from '../text/index.ts';
import { attachmentWords, type Card, dateBasisWords, shapeWords } from './card.ts';

/** One line of a printed card. */
export interface CardRow {
  /** Stable key, also the CSV column. */
  readonly key: string;
  readonly label: string;
  readonly value: string;
}

const sizeWords = (size: { heightMm: number; widthMm: number } | undefined): string =>
  size ? `${size.heightMm} × ${size.widthMm} mm` : '';

const fingerWords = { present: 'present', absent: 'none seen', notJudged: 'not judged' } as const;

/** The card as label and value, in the order in which it is printed; empty values included. */
export function cardRows(card: Card): CardRow[] {
  const { object, date, scan, seal, legend } = card;
  const row = (key: string, label: string, value: string | number | undefined): CardRow => ({
    key,
    label,
    value: value === undefined ? '' : String(value),
  });
  return [
    row('repository', 'Repository', card.repository),
    row('shelfmark', 'Shelfmark', card.shelfmark),
    row('seal', 'Seal', seal && `${seal.number} of ${seal.of}`),
    row('attachment', 'Attachment', attachmentWords[card.attachment]),
    row('class', 'Object', object.class),
    row('generation', 'Copying steps from the matrix', object.generation ?? 'not known'),
    row('chain', 'Chain', object.chain.map(({ object: kind, material }) => `${kind} (${material})`).join(' → ')),
    row('owner', 'Owner', card.owner),
    row('colour', 'Colour', card.colour),
    row('shape', 'Shape', shapeWords[card.shape]),
    row('face', 'Face, height × width', sizeWords(card.face)),
    row('cake', 'Cake, height × width', sizeWords(card.cake)),
    row('measured', 'Measured', card.measured),
    row('motif', 'Motif', card.motif),
    row('legend', 'Legend', legend && leidenText(legend.items)),
    row('legendExpanded', 'Legend in full', legend && expanded(legend)),
    row('translation', 'Translation', legend?.translation?.text),
    row('back', 'Back', card.back),
    row('fingerMarks', 'Finger marks', fingerWords[card.fingerMarks]),
    row('condition', 'Condition', card.condition),
    row('repairs', 'Repairs', card.repairs),
    row('earlierMoulding', 'Earlier moulding', card.earlierMoulding),
    row('date', 'Date', date?.words),
    row('notBefore', 'Not before', date?.notBefore),
    row('notAfter', 'Not after', date?.notAfter),
    row('dateBasis', 'Dated by', date && [dateBasisWords[date.basis], date.basisWords].filter(Boolean).join(': ')),
    row('scanFile', 'Scan', scan?.file),
    row('scanSha256', 'SHA-256', scan?.sha256),
    row('scanUnit', 'Unit of the file', scan && `${scan.unit} (${scan.unitFrom})`),
    row('scanInstrument', 'Scanned with', scan?.instrument),
    row('scanOperator', 'Scanned by', scan?.operator),
    row('scanDate', 'Scanned on', scan?.date),
    row('scanSpacing', 'Point spacing', scan?.pointSpacingMm === undefined ? '' : `${scan.pointSpacingMm} mm`),
    row('scanProcessing', 'Processing', scan?.processing),
    row('describedBy', 'Described by', card.describedBy),
    row('rights', 'Rights', card.rights),
  ];
}

/** Column names, then one line a card (RFC 4180). */
export function cardsCsv(cards: readonly Card[]): string {
  const lines = cards.map((card) => cardRows(card).map((row) => row.value));
  const header = cards.length > 0 ? [cardRows(cards[0]).map((row) => row.key)] : [];
  return writeCsv([...header, ...lines]);
}
