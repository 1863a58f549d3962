import { escapeXml } from '../../scan/index.ts';
import { teiOfItems } from '../text/index.ts';
import type { Card, CardSide } from './card.ts';
import { en } from './words/en.ts';

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
    ...card.sides.flatMap(decoration),
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
  const { object, seal } = card;
  const chain = object.chain.map((link) => `${link.object} (${link.material})`).join(' → ');
  const generation = object.generation === null ? 'not known' : String(object.generation);
  return [
    `${sentence([
      seal ? `seal ${seal.number} of ${seal.of}` : '',
      `attachment: ${en.attachments[card.attachment]}`,
      `status: ${en.statuses[card.status]}`,
      `covering: ${en.coverings[card.covering]}`,
      `protection: ${en.protections[card.protection]}`,
      `object type: ${en.objectTypes[card.objectType]}`,
      card.colour ?? '',
    ])}`,
    `Chain from the matrix: ${escapeXml(chain || 'not known')}; copying steps: ${generation}.`,
    ...castParagraph(card),
    ...card.links.map(
      ({ relation, words, uri }) =>
        `${capital(en.relations[relation])}: ${uri ? `<ref target="${escapeXml(uri)}">${escapeXml(words)}</ref>` : escapeXml(words)}.`,
    ),
    ...card.sides.flatMap(sideParagraphs),
    ...sizeParagraph(card),
    ...(card.owner ? [`Owner: ${escapeXml(card.owner)}.`] : []),
    ...(card.back ? [`Back: ${escapeXml(card.back)}`] : []),
    ...(card.fingerMarks === 'notJudged' ? [] : [`Finger marks on the back: ${card.fingerMarks}.`]),
  ];
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const sentence = (parts: readonly string[]): string => `${capital(parts.filter(Boolean).map(escapeXml).join('; '))}.`;

function castParagraph({ cast }: Card): string[] {
  if (!cast) return [];
  const { changeOfSize: change, original } = cast;
  return [
    sentence([
      `cast of: ${en.castMaterials[cast.material]}`,
      cast.maker ? `maker: ${cast.maker}` : '',
      cast.makersNumber ? `maker's number: ${cast.makersNumber}` : '',
      `change of size: ${change ? `${change.percent} % (${change.source})` : 'not known'}`,
      `the original's attachment: ${en.attachments[original.attachment]}, status: ${en.statuses[original.status]}`,
    ]),
  ];
}

function sideParagraphs({ side, shape, image, legend }: CardSide): string[] {
  const name = capital(side === 'unknown' ? 'image' : en.sides[side]);
  const size = image ? ` ${dimensions('image', image)} (${escapeXml(en.imageFrom[image.from])})` : '';
  const paragraphs = [`${name}: shape ${en.shapes[shape]}.${size}`];
  if (legend)
    paragraphs.push(
      `Legend: <seg type="legend" xml:lang="${legend.language}" xml:space="preserve">${teiOfItems(legend.items)}</seg>`,
    );
  if (legend?.translation)
    paragraphs.push(
      `<seg type="translation" xml:lang="${legend.translation.language}">${escapeXml(legend.translation.text)}</seg>`,
    );
  return paragraphs;
}

function sizeParagraph({ piece, surviving, betweenSides }: Card): string[] {
  const { turnDeg, offsetMm, thicknessMm } = betweenSides ?? {};
  const parts = [
    piece ? dimensions('piece', piece) : '',
    surviving ? dimensions('surviving', surviving) : '',
    thicknessMm === undefined
      ? ''
      : `<dimensions type="thickness" unit="mm"><depth>${thicknessMm}</depth></dimensions>`,
    turnDeg === undefined ? '' : `Turn between the tops of the sides: ${turnDeg}°.`,
    offsetMm === undefined ? '' : `Offset of the sides: ${offsetMm} mm.`,
  ].filter(Boolean);
  return parts.length > 0 ? [parts.join(' ')] : [];
}

const decoration = ({ motif }: CardSide): string[] =>
  motif ? [`        <decoNote><p>${escapeXml(motif)}</p></decoNote>`] : [];

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
  const basis = [en.dateBases[date.basis], date.basisWords].filter(Boolean).join(': ');
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
