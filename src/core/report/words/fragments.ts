import type { CardLanguage, MeetingEdge } from '../../read/index.ts';
import { captionWords, printed } from './captions/index.ts';

export interface FragmentsShown {
  /** As they are labelled on the plate. */
  readonly names: readonly string[];
  /** What they were fitted to. */
  readonly reference: string;
  /** Letters of those of which it is not decided that they came from it. */
  readonly undecided: readonly string[];
  /** Of the reference's face, together, 0 to 1. */
  readonly share: number;
  readonly edges: readonly MeetingEdge[];
}

/** Less than this is not told from nothing, mm: wax that bent before it broke is laid with some such error (docs/read.md). */
const leastStepMm = 0.1;
/** Broken wax lies over its neighbour at a slanting edge; two pieces that carry the same letters reach in further. */
const leastOverlap = { depthMm: 1, mm2: 5 };

/** What stands under fragments in their places. */
export function fragmentsWords(
  { names, reference, undecided, share, edges }: FragmentsShown,
  language: CardLanguage = 'en',
): string {
  const w = captionWords[language];
  const { fragments } = w;
  return [
    fragments.title(names, reference),
    ...(undecided.length > 0 ? [fragments.undecided(undecided)] : []),
    fragments.share(Math.round(100 * share)),
    ...(edges.length === 0 ? [fragments.noEdges] : edges.flatMap((edge) => edgeWords(edge, language))),
    fragments.nothingFilled,
  ].join(' ');
}

function edgeWords(edge: MeetingEdge, language: CardLanguage): string[] {
  const w = captionWords[language];
  const { one, two, lengthMm, gapMm, gap90Mm, stepMm, overlapMm2, overlapDepthMm } = edge;
  const mm = (value: number, digits: number): string => printed(value.toFixed(digits).replace('-', '−'), w);
  const level = !(Math.abs(stepMm) > leastStepMm);
  const met = w.fragments.meet({
    ...{ one, two, length: mm(lengthMm, 0), gap: mm(gapMm, 1), gap90: mm(gap90Mm, 1) },
    step: level ? null : { higher: stepMm > 0 ? 'two' : 'one', by: mm(Math.abs(stepMm), 2) },
    within: mm(leastStepMm, 1),
  });
  const both = overlapDepthMm > leastOverlap.depthMm && overlapMm2 > leastOverlap.mm2;
  return both ? [met, w.fragments.overlap(one, two, mm(overlapMm2, 0), mm(overlapDepthMm, 1))] : [met];
}
