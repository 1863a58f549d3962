import type { Figure } from '../figures/index.ts';
import type { ComparisonRecord } from '../record/schema.ts';
import { questionOf } from '../words/question.ts';
import { cautionsSection } from './cautions.ts';
import { fitSection } from './fitTables.ts';
import { safe } from './html.ts';
import { damageSection, judgeSection, wearSection } from './judgeTables.ts';
import { makingSection, recomputeSection } from './making.ts';
import { numberFigures } from './plates.ts';
import { answerSheet, figuresOfGrounds, groundsSheet, type OwnConclusion } from './sheets.ts';
import { pageStyle, type Typeface } from './style.ts';
import { weightSection } from './weight.ts';
import { wholePage } from './wholePage.ts';

export interface PageOptions {
  /** Stands at the head instead of the question, which then follows it. */
  readonly title?: string;
  /** The scans were computed; said at the head of the page and on it wherever it matters. */
  readonly simulated?: boolean;
  readonly own?: OwnConclusion;
  readonly typeface?: Typeface;
}

/**
 * One document that holds everything: two pages with the answer and its grounds, then an annex with all that they rest
 * on. No request leaves it, it prints on A4 and letter, and the record is in its source. Every word
 * that comes from outside is made safe. The language is English.
 */
export function reportPage(record: ComparisonRecord, figures: readonly Figure[], options: PageOptions = {}): string {
  const { title, simulated = false, own, typeface } = options;
  const numbered = numberFigures(figures, ['faces', ...figuresOfGrounds(record)]);
  const body = [
    answerSheet(record, numbered, { title, simulated, own }),
    groundsSheet(record, numbered),
    annexHead(record),
    numbered.annex(),
    weightSection(record),
    judgeSection(record),
    fitSection(record),
    wearSection(record),
    damageSection(record),
    cautionsSection(),
    makingSection(record),
    recomputeSection(record),
    footer(record, simulated),
  ];
  return wholePage(
    safe(title ?? questionOf(record)),
    pageStyle(typeface),
    body.filter((part) => part !== ''),
    record,
  );
}

/** What follows is for those who check: everything that the two pages rest on. */
const annexHead = ({ reference, subject }: ComparisonRecord): string =>
  `<header id="annex"><p class="running">Annex</p><p class="pair"><span class="sc">subject</span> ${safe(subject.kind)}, <i>${safe(subject.file)}</i> <span class="sc">reference</span> ${safe(reference.kind)}, <i>${safe(reference.file)}</i></p></header>`;

const footer = (record: ComparisonRecord, simulated: boolean): string =>
  `<footer>${simulated ? 'Simulated scans. ' : ''}${madeBy(record)}</footer>`;

/** With what and when, and in which units. */
export const madeBy = ({ paradata }: ComparisonRecord): string =>
  `Made by Ectype ${safe(paradata.version)}${paradata.build ? ` (build ${safe(paradata.build)})` : ''} on ${safe(paradata.startedAt.slice(0, 10))}. Lengths in millimetres, angles in degrees.`;
