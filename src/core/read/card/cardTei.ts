import { escapeXml } from '../../scan/index.ts';
import { teiOfItems } from '../text/index.ts';
import { attachmentWords, type Card, dateBasisWords, shapeWords } from './card.ts';

/**
 * The card as a TEI manuscript description with `sealDesc` (TEI P5, module msdescription): one `seal`, its sizes in
 * `dimensions`, the legend with EpiDoc's elements, condition, origin date, and the scan as a surrogate. A fragment to be put
 * into a TEI document's `sourceDesc`.
 */
export function cardTei(card: Card): string {
  return [
    '<msDesc xmlns="http://www.tei-c.org/ns/1.0">',
    `  <msIdentifier>${element('repository', card.repository)}<idno>${escapeXml(card.shelfmark)}</idno></msIdentifier>`,
    '  <physDesc>',
    '    <sealDesc>',
    `      <seal type="${card.object.class}"${card.seal ? ` n="${card.seal.number}"` : ''}>`,
    ...sealParagraphs(card).map((content) => `        <p>${content}</p>`),
    ...(card.motif ? [`        <decoNote><p>${escapeXml(card.motif)}</p></decoNote>`] : []),
    '      </seal>',
    ...conditions(card).map((content) => `      <condition><p>${escapeXml(content)}</p></condition>`),
    '    </sealDesc>',
    '  </physDesc>',
    ...origin(card),
    ...surrogate(card),
    '</msDesc>',
    '',
  ].join('\n');
}

const element = (name: string, text: string | undefined): string =>
  text === undefined ? '' : `<${name}>${escapeXml(text)}</${name}>`;

function sealParagraphs(card: Card): string[] {
  const { object, seal, legend } = card;
  const place = seal ? `Seal ${seal.number} of ${seal.of}, ` : '';
  const chain = object.chain.map((link) => `${link.object} (${link.material})`).join(' → ');
  const generation = object.generation === null ? 'not known' : String(object.generation);
  const paragraphs = [
    `${place}${attachmentWords[card.attachment]}; ${shapeWords[card.shape]}${card.colour ? `, ${escapeXml(card.colour)}` : ''}.`,
    `Chain from the matrix: ${escapeXml(chain || 'not known')}; copying steps: ${generation}.`,
    `${dimensions('face', card.face)}${card.cake ? dimensions('cake', card.cake) : ''} Measured: ${escapeXml(card.measured)}.`,
  ];
  if (card.owner) paragraphs.push(`Owner: ${escapeXml(card.owner)}.`);
  if (legend)
    paragraphs.push(
      `Legend: <seg type="legend" xml:lang="${legend.language}" xml:space="preserve">${teiOfItems(legend.items)}</seg>`,
    );
  if (legend?.translation)
    paragraphs.push(
      `<seg type="translation" xml:lang="${legend.translation.language}">${escapeXml(legend.translation.text)}</seg>`,
    );
  if (card.back) paragraphs.push(`Back: ${escapeXml(card.back)}`);
  if (card.fingerMarks !== 'notJudged') paragraphs.push(`Finger marks on the back: ${card.fingerMarks}.`);
  return paragraphs;
}

const dimensions = (kind: string, size: { heightMm: number; widthMm: number }): string =>
  `<dimensions type="${kind}" unit="mm"><height>${size.heightMm}</height><width>${size.widthMm}</width></dimensions>`;

const conditions = ({ condition, repairs, earlierMoulding }: Card): string[] =>
  [condition, repairs && `Repairs: ${repairs}`, earlierMoulding && `Earlier moulding: ${earlierMoulding}`].filter(
    (text): text is string => typeof text === 'string' && text !== '',
  );

function origin({ date }: Card): string[] {
  if (!date) return [];
  const year = (value: number): string => `${value < 0 ? '-' : ''}${String(Math.abs(value)).padStart(4, '0')}`;
  const from = date.notBefore === undefined ? '' : ` notBefore="${year(date.notBefore)}"`;
  const to = date.notAfter === undefined ? '' : ` notAfter="${year(date.notAfter)}"`;
  const basis = [dateBasisWords[date.basis], date.basisWords].filter(Boolean).join(': ');
  return [
    `  <history><origin><p><origDate${from}${to}>${escapeXml(date.words)}</origDate> (${escapeXml(basis)})</p></origin></history>`,
  ];
}

function surrogate({ scan }: Card): string[] {
  if (!scan) return [];
  const parts = [
    `Scan ${scan.file}, SHA-256 ${scan.sha256}, unit ${scan.unit} (${scan.unitFrom})`,
    scan.instrument,
    scan.operator,
    scan.date,
    scan.pointSpacingMm === undefined ? undefined : `point spacing ${scan.pointSpacingMm} mm`,
    scan.processing,
  ].filter(Boolean);
  return [`  <additional><surrogates><p>${escapeXml(parts.join('; '))}.</p></surrogates></additional>`];
}
