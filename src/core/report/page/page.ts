import type { Figure } from '../figures/index.ts';
import type { ComparisonRecord } from '../record/schema.ts';
import { questionOf } from '../words.ts';
import { cautionsSection } from './cautions.ts';
import { fitSection } from './fitTables.ts';
import { safe } from './html.ts';
import { damageSection, judgeSection, wearSection } from './judgeTables.ts';
import { makingSection, recomputeSection } from './making.ts';
import { findingSection, heading, type OwnConclusion } from './opening.ts';
import { figuresSection } from './plates.ts';
import { pageStyle, type Typeface } from './style.ts';

export interface PageOptions {
  /** Stands at the head instead of the question, which then follows it. */
  readonly title?: string;
  /** The scans were computed; said at the head of the page and on it wherever it matters. */
  readonly simulated?: boolean;
  readonly own?: OwnConclusion;
  readonly typeface?: Typeface;
}

/**
 * One page that holds everything: no request leaves it, it prints on A4, and the record is in its source. Every word
 * that comes from outside is made safe. The language is English.
 */
export function reportPage(record: ComparisonRecord, figures: readonly Figure[], options: PageOptions = {}): string {
  const { title, simulated = false, own, typeface } = options;
  const body = [
    heading(record, title, simulated),
    findingSection(record, own),
    figuresSection(figures),
    judgeSection(record),
    fitSection(record),
    wearSection(record),
    damageSection(record),
    cautionsSection(),
    makingSection(record),
    recomputeSection(record),
    footer(record, simulated),
  ];
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:">
<link rel="icon" href="data:,">
<title>${safe(title ?? questionOf(record))}</title>
<style>${pageStyle(typeface)}</style>
</head>
<body>
${body.filter((part) => part !== '').join('\n')}
<script type="application/json" id="record">${inScript(record)}</script>
</body>
</html>
`;
}

function footer({ paradata }: ComparisonRecord, simulated: boolean): string {
  const kind = simulated ? 'Simulated scans. ' : '';
  return `<footer>${kind}Made by Ectype ${safe(paradata.version)}${paradata.build ? ` (build ${safe(paradata.build)})` : ''} on ${safe(paradata.startedAt.slice(0, 10))}. Lengths in millimetres, angles in degrees.</footer>`;
}

/** JSON that cannot end the element it stands in. */
const inScript = (record: ComparisonRecord): string => JSON.stringify(record).replaceAll('<', '\\u003c');
