import type { FigureId } from '../figures/index.ts';
import type { GroundCode } from '../grounds.ts';
import type { ComparisonRecord } from '../record/schema.ts';
import { questionOf } from '../words/question.ts';
import { outlineWords } from '../words/shapes.ts';
import { list, safe, terms } from './html.ts';
import type { Numbering } from './plates.ts';
import { strengthScale } from './strength.ts';

/** A conclusion of the user's own, which stands beside the tool's. */
export interface OwnConclusion {
  readonly text: string;
  readonly signed: string;
  readonly date: string;
}

export interface SheetOptions {
  readonly title: string | undefined;
  readonly simulated: boolean;
  readonly own: OwnConclusion | undefined;
}

/** Limits that every finding carries, and how many more stand on the first page. */
const always = ['copyPasses', 'notShown'];
const weightiest = 3;

/** Page 1: both seals in one light, the answer with its strength, state and sizes, and what limits it. */
export function answerSheet(record: ComparisonRecord, numbered: Numbering, options: SheetOptions): string {
  const { title, simulated, own } = options;
  const { judge } = record;
  const question = questionOf(record);
  const head = title
    ? `<h1>${safe(title)}</h1><p class="question">${safe(question)}</p>`
    : `<h1>${safe(question)}</h1>`;
  return `<section class="sheet" id="finding"><header><p class="running">Ectype · report of one comparison</p>
${head}${simulated ? notice : ''}</header>
${numbered.plate('faces', 'seals')}
<h2 class="unseen">Finding</h2>
<p class="finding">${safe(judge.sentence)}</p>
${strengthScale(judge)}
${terms(factsOf(record))}
${own ? conclusion(own) : ''}</section>`;
}

export const notice =
  '<p class="notice"><b>Simulated scans.</b> Objects, people and places are invented, the surfaces computed: this says nothing about any real seal.</p>';

function factsOf(record: ComparisonRecord): Array<[string, string]> {
  const { judge } = record;
  const facts: Array<[string, string]> = [];
  const ground = (code: GroundCode) => judge.grounds.find((each) => each.code === code);
  const [state, size] = [ground('state'), ground('size')];
  if (state) facts.push(['State', safe(`${state.title}.`)]);
  // What the number means stands with its ground, on the next page.
  if (size) facts.push(['Size', safe(size.says.split(/(?<=\.) /)[0])]);
  const sizes = sizesOf(record);
  if (sizes) facts.push(['Size of the seal', safe(sizes)]);
  const own = judge.limits.filter(({ code }) => !always.includes(code)).slice(0, weightiest);
  const held = judge.limits.filter(({ code }) => always.includes(code));
  facts.push(['Limits', list([...own, ...held].map(({ words }) => words))]);
  return facts;
}

/** The sizes of the seals, where they were measured. */
function sizesOf({ reference, subject }: ComparisonRecord): string {
  return [reference, subject]
    .flatMap(({ kind, image }) =>
      image
        ? [
            `${kind} ${image.widthMm?.toFixed(1)} × ${image.heightMm?.toFixed(1)} mm, ${outlineWords[image.shape]}${image.from === 'partner' ? ' (estimated from its partner, by the fit)' : ''}`,
          ]
        : [],
    )
    .join('; ');
}

/** Grounds shown under a picture of the seal, in one row; what comes after them names its figure. */
const miniatures = 3;

/** Page 2: the grounds in the order of their weight, those that can be seen on the seal under their pictures. */
export function groundsSheet(record: ComparisonRecord, numbered: Numbering): string {
  const shown = new Set<FigureId>();
  const seen: string[] = [];
  const said: string[] = [];
  for (const ground of record.judge.grounds) {
    const figure = figureFor(ground.code as GroundCode, record);
    const fits = onSeal.has(figure) && !shown.has(figure) && seen.length < miniatures;
    const picture = fits ? numbered.miniature(figure) : '';
    shown.add(figure);
    const where = picture ? '' : numbered.mention(figure);
    (picture ? seen : said).push(`<article class="ground">${picture}
<h3>${safe(ground.title)} <span class="side">${sides[ground.speaks]}</span></h3>
<p>${safe(ground.says)}${where}</p>
<p class="doubt"><span class="sc">against it</span> ${safe(ground.against)}</p>
<p class="doubt"><span class="sc">overturned by</span> ${safe(ground.overturn)}</p></article>`);
  }
  return `<section class="sheet" id="grounds"><h2>Grounds, the weightiest first</h2>
<div class="grounds">${seen.join('\n')}</div>
<div class="grounds">${said.join('\n')}</div></section>`;
}

/** The figure on which a ground can be seen. */
const figureOf: Readonly<Record<GroundCode, FigureId>> = {
  places: 'constellation',
  missing: 'difference',
  legend: 'constellation',
  cells: 'cells',
  state: 'difference',
  shared: 'difference',
  brokenAlike: 'brokenEdge',
  size: 'section',
  wear: 'wavelengths',
  noDesign: 'faces',
  overlap: 'difference',
  turns: 'faces',
  mirrored: 'faces',
  struckTwice: 'constellation',
  noFit: 'faces',
};

/** Pieces that both lack stand among the marks on the map of differences; an edge has a figure of its own. */
const figureFor = (code: GroundCode, { judge }: ComparisonRecord): FigureId =>
  code === 'brokenAlike' && !judge.descentBy?.edge ? 'difference' : figureOf[code];

/** Figures on which grounds are shown small, in their order. */
export const figuresOfGrounds = (record: ComparisonRecord): FigureId[] => [
  ...new Set(
    record.judge.grounds.map(({ code }) => figureFor(code as GroundCode, record)).filter((id) => onSeal.has(id)),
  ),
];

/** Figures that are a seal with something shown on it: they stay readable when they are small. */
const onSeal: ReadonlySet<FigureId> = new Set<FigureId>(['constellation', 'difference', 'cells', 'brokenEdge']);

const sides = { for: 'for one matrix', against: 'against', neither: '', inTheWay: 'stands in the way' } as const;

const conclusion = ({ text, signed, date }: OwnConclusion): string =>
  `<aside class="own"><h3>Conclusion of the reader</h3><p>${safe(text)}</p><p class="signed">${safe(signed)}, ${safe(date)}</p></aside>`;
