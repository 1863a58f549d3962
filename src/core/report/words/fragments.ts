import type { CardLanguage, MeetingEdge, TwoImpressions } from '../../read/index.ts';
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
  readonly overlaps: readonly TwoImpressions[];
}

/** Less than this is not told from nothing, mm: wax that bent before it broke is laid with some such error (docs/read.md). */
const leastStepMm = 0.1;

/** What stands under fragments in their places. */
export function fragmentsWords(
  { names, reference, undecided, share, edges, overlaps }: FragmentsShown,
  language: CardLanguage = 'en',
): string {
  const w = captionWords[language];
  const { fragments } = w;
  return [
    fragments.title(names, reference),
    ...(undecided.length > 0 ? [fragments.undecided(undecided)] : []),
    fragments.share(Math.round(100 * share)),
    ...(edges.length === 0 ? [fragments.noEdges] : edges.map((edge) => edgeWords(edge, language))),
    ...overlaps.map((overlap) => overlapWords(overlap, language)),
    fragments.nothingFilled,
  ].join(' ');
}

/** That two are of two impressions, since both carry the same places. */
export function overlapWords({ one, two, mm2, depthMm }: TwoImpressions, language: CardLanguage = 'en'): string {
  const w = captionWords[language];
  return w.fragments.overlap(one, two, mm2.toFixed(0), printed(depthMm.toFixed(1), w));
}

function edgeWords({ one, two, ...edge }: MeetingEdge, language: CardLanguage): string {
  const w = captionWords[language];
  const mm = (value: number, digits: number): string => printed(value.toFixed(digits).replace('-', '−'), w);
  const level = !(Math.abs(edge.stepMm) > leastStepMm);
  return w.fragments.meet({
    ...{ one, two, length: mm(edge.lengthMm, 0), gap: mm(edge.gapMm, 1), gap90: mm(edge.gap90Mm, 1) },
    step: level ? null : { higher: edge.stepMm > 0 ? 'two' : 'one', by: mm(Math.abs(edge.stepMm), 2) },
    within: mm(leastStepMm, 1),
  });
}
