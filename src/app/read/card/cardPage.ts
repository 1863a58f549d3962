import {
  type Card,
  type CardLanguage,
  cardRows,
  cardWords,
  expanded,
  type InEveryLanguage,
  leidenText,
} from '../../../core/read/index.ts';
import { captionWords } from '../../../core/report/words/index.ts';
import { escapeXml } from '../../../core/scan/index.ts';

export interface CardPicture {
  readonly url: string;
  readonly caption: string;
}

const style = `
body { font: 12pt/1.4 Alegreya, Georgia, serif; color: #241f19; margin: 18mm auto; max-width: 170mm; padding: 0 6mm; }
h1 { font-size: 19pt; font-weight: 400; margin: 0; }
.legend { font-size: 16pt; margin: 2mm 0 0; }
figure { margin: 6mm 0 2mm; text-align: center; break-inside: avoid; }
img { max-width: 100%; max-height: 95mm; }
figcaption, .small { font-size: 9.5pt; color: #665b4b; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 0.5mm 6mm; margin: 6mm 0; }
dt { color: #665b4b; }
dd { margin: 0; overflow-wrap: anywhere; }
@page { margin: 16mm; }
@media print { body { margin: 0; padding: 0; max-width: none; } }
`;

/** The printed card as one page that holds its pictures; only rows that say something. */
export function cardPage(
  card: Card,
  title: string,
  pictures: readonly CardPicture[],
  language: CardLanguage = 'en',
): string {
  const rows = printedRows(card, language).map(
    ({ label, value }) => `<dt>${escapeXml(label)}</dt><dd>${escapeXml(value)}</dd>`,
  );
  const figures = pictures.map(
    ({ url, caption }) =>
      `<figure><img src="${url}" alt="${escapeXml(caption)}"><figcaption>${escapeXml(caption)}</figcaption></figure>`,
  );
  const legend = legendsOf(card)
    .map(
      (each) => `<p class="legend">${escapeXml(leidenText(each.items))}</p><p><i>${escapeXml(expanded(each))}</i></p>`,
    )
    .join('');
  return [
    '<!doctype html>',
    `<html lang="${language}"><head><meta charset="utf-8"><title>${escapeXml(title)}</title><style>${style}</style></head><body>`,
    `<p class="small">${escapeXml([card.repository, card.shelfmark].filter(Boolean).join(', '))}</p>`,
    `<h1>${escapeXml(title)}</h1>`,
    legend,
    ...figures,
    `<dl>${rows.join('')}</dl>`,
    '</body></html>',
    '',
  ].join('\n');
}

/** What stands in the head of the card is not said again below. */
const inHead = new Set(['repository', 'shelfmark', 'legend', 'legendExpanded', 'legend2', 'legendExpanded2']);

/** Values that say nothing. */
const unsaid: ReadonlySet<string> = new Set([cardWords.en.notKnown, cardWords.en.fingerMarks.notJudged]);

/** Rows that say something; what is not known is not printed. */
export function printedRows(card: Card, language: CardLanguage = 'en') {
  const english = cardRows(card);
  return cardRows(card, language).filter(
    ({ key, value }, i) => value !== '' && !unsaid.has(english[i].value) && !inHead.has(key),
  );
}

/** The legends of both sides. */
export const legendsOf = ({ sides }: Card) => sides.flatMap(({ legend }) => (legend ? [legend] : []));

/** What stands under face and strip; a look that both are seen in is told once. */
export function platesWords(
  face: InEveryLanguage | undefined,
  strip: InEveryLanguage | undefined,
  language: CardLanguage,
): string[] {
  const { card } = captionWords[language];
  const [one, two] = [face?.[language], strip?.[language]];
  const turned = two?.endsWith(`; ${card.matrixTurned}.`) === true;
  const look = two?.slice(0, turned ? -card.matrixTurned.length - 3 : -1);
  if (one && two && one.startsWith(`${look};`)) return [one, card.sameLook(turned)];
  return [one, two].filter((caption) => caption !== undefined);
}
