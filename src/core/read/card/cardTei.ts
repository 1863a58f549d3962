import { capital, escapeXml } from '../../scan/index.ts';
import { type CardLanguage, teiOfItems } from '../text/index.ts';
import type { Card, CardSide } from './card.ts';
import { type CardWords, cardWords, type RowName } from './words/index.ts';

/**
 * The card as a TEI manuscript description with `sealDesc` (TEI P5, module msdescription): one `seal`, its sizes in
 * `dimensions`, the legend with EpiDoc's elements, condition, origin date, and the scan as a surrogate; labels and closed terms in
 * one language. A fragment to be put into a TEI document's `sourceDesc`.
 */
export function cardTei(card: Card, language: CardLanguage = 'en'): string {
  const w = cardWords[language];
  return [
    `<msDesc xmlns="http://www.tei-c.org/ns/1.0" xml:lang="${language}">`,
    `  <msIdentifier>${element('repository', card.repository)}<idno>${escapeXml(card.shelfmark)}</idno></msIdentifier>`,
    '  <physDesc>',
    '    <sealDesc>',
    `      <seal type="${card.object.class}"${card.seal ? ` n="${card.seal.number}"` : ''}>`,
    ...sealParagraphs(card, w).map((content) => `        <p>${content}</p>`),
    ...card.sides.flatMap(decoration),
    '      </seal>',
    ...conditions(card, w).map((content) => `      <condition><p>${content}</p></condition>`),
    '    </sealDesc>',
    '  </physDesc>',
    ...origin(card, w),
    ...surrogate(card, w),
    '</msDesc>',
    '',
  ].join('\n');
}

const element = (name: string, text: string | undefined): string =>
  text === undefined ? '' : `<${name}>${escapeXml(text)}</${name}>`;

/** "Attachment: tag", the value escaped; nothing where there is none. */
function said(w: CardWords, name: RowName, value: string | number | undefined): string {
  return value === undefined || value === '' ? '' : `${escapeXml(w.rows[name])}: ${escapeXml(String(value))}`;
}

/** Parts as one sentence. */
const sentence = (parts: readonly string[]): string[] => {
  const all = parts.filter(Boolean).join('; ');
  return all === '' ? [] : [all.endsWith('.') ? all : `${all}.`];
};

function sealParagraphs(card: Card, w: CardWords): string[] {
  const { object, seal } = card;
  const chain = object.chain.map((link) => `${w.classes[link.object]} (${link.material})`).join(' → ');
  return [
    ...sentence([
      said(w, 'seal', seal && w.nOfM(seal.number, seal.of)),
      said(w, 'attachment', w.attachments[card.attachment]),
      said(w, 'status', w.statuses[card.status]),
      said(w, 'covering', w.coverings[card.covering]),
      said(w, 'protection', w.protections[card.protection]),
      said(w, 'objectType', w.objectTypes[card.objectType]),
      said(w, 'colour', card.colour),
    ]),
    ...sentence([said(w, 'chain', chain || w.notKnown), said(w, 'generation', object.generation ?? w.notKnown)]),
    ...castParagraph(card, w),
    ...card.links.flatMap(({ relation, words, uri }) => {
      const named = uri ? `<ref target="${escapeXml(uri)}">${escapeXml(words)}</ref>` : escapeXml(words);
      return sentence([`${capital(w.relations[relation])}: ${named}`]);
    }),
    ...card.sides.flatMap((side) => sideParagraphs(side, w)),
    ...sizeParagraph(card, w),
    ...sentence([said(w, 'owner', card.owner)]),
    ...sentence([said(w, 'back', card.back)]),
    ...sentence([card.fingerMarks === 'notJudged' ? '' : said(w, 'fingerMarks', w.fingerMarks[card.fingerMarks])]),
  ];
}

function castParagraph({ cast }: Card, w: CardWords): string[] {
  if (!cast) return [];
  const { changeOfSize: change, original } = cast;
  return sentence([
    said(w, 'castMaterial', w.castMaterials[cast.material]),
    said(w, 'maker', cast.maker),
    said(w, 'makersNumber', cast.makersNumber),
    said(w, 'changeOfSize', change ? `${change.percent} % (${change.source})` : w.notKnown),
    said(w, 'originalAttachment', w.attachments[original.attachment]),
    said(w, 'originalStatus', w.statuses[original.status]),
  ]);
}

function sideParagraphs({ side, shape, image, legend }: CardSide, w: CardWords): string[] {
  const name = capital(side === 'unknown' ? w.rows.image : w.sides[side]);
  const size = image ? ` ${dimensions('image', image)} (${escapeXml(w.imageFrom[image.from])})` : '';
  const paragraphs = [`${escapeXml(name)}. ${said(w, 'shape', w.shapes[shape])}.${size}`];
  if (legend)
    paragraphs.push(
      `${escapeXml(w.rows.legend)}: <seg type="legend" xml:lang="${legend.language}" xml:space="preserve">${teiOfItems(legend.items)}</seg>`,
    );
  if (legend?.translation)
    paragraphs.push(
      `<seg type="translation" xml:lang="${legend.translation.language}">${escapeXml(legend.translation.text)}</seg>`,
    );
  return paragraphs;
}

function sizeParagraph({ piece, surviving, betweenSides }: Card, w: CardWords): string[] {
  const { turnDeg, offsetMm, thicknessMm } = betweenSides ?? {};
  const parts = [
    piece ? dimensions('piece', piece) : '',
    surviving ? dimensions('surviving', surviving) : '',
    thicknessMm === undefined
      ? ''
      : `<dimensions type="thickness" unit="mm"><depth>${thicknessMm}</depth></dimensions>`,
    ...sentence([said(w, 'turn', turnDeg === undefined ? undefined : `${turnDeg}°`)]),
    ...sentence([said(w, 'offset', offsetMm === undefined ? undefined : `${offsetMm} mm`)]),
  ].filter(Boolean);
  return parts.length > 0 ? [parts.join(' ')] : [];
}

const decoration = ({ motif }: CardSide): string[] =>
  motif ? [`        <decoNote><p>${escapeXml(motif)}</p></decoNote>`] : [];

const dimensions = (kind: string, size: { heightMm: number; widthMm: number }): string =>
  `<dimensions type="${kind}" unit="mm"><height>${size.heightMm}</height><width>${size.widthMm}</width></dimensions>`;

const conditions = ({ condition, repairs, earlierMoulding }: Card, w: CardWords): string[] =>
  [
    condition === undefined ? '' : escapeXml(condition),
    said(w, 'repairs', repairs),
    said(w, 'earlierMoulding', earlierMoulding),
  ].filter(Boolean);

function origin({ date }: Card, w: CardWords): string[] {
  if (!date) return [];
  const year = (value: number): string => `${value < 0 ? '-' : ''}${String(Math.abs(value)).padStart(4, '0')}`;
  const from = date.notBefore === undefined ? '' : ` notBefore="${year(date.notBefore)}"`;
  const to = date.notAfter === undefined ? '' : ` notAfter="${year(date.notAfter)}"`;
  const basis = [w.dateBases[date.basis], date.basisWords].filter(Boolean).join(': ');
  return [
    `  <history><origin><p><origDate${from}${to}>${escapeXml(date.words)}</origDate> (${escapeXml(basis)})</p></origin></history>`,
  ];
}

function surrogate({ scan }: Card, w: CardWords): string[] {
  if (!scan) return [];
  const parts = [
    said(w, 'scanFile', scan.file),
    said(w, 'scanSha256', scan.sha256),
    said(w, 'scanUnit', `${scan.unit} (${w.unitFrom[scan.unitFrom]})`),
    said(w, 'scanInstrument', scan.instrument),
    said(w, 'scanOperator', scan.operator),
    said(w, 'scanDate', scan.date),
    said(w, 'scanSpacing', scan.pointSpacingMm === undefined ? undefined : `${scan.pointSpacingMm} mm`),
    said(w, 'scanProcessing', scan.processing),
  ];
  return sentence(parts).map((words) => `  <additional><surrogates><p>${words}</p></surrogates></additional>`);
}
