import { imageLeft, packPlaces } from '../core/collection/index.ts';
import type { Watch } from '../core/geometry/index.ts';
import type { WeighedFinding } from '../core/judge/index.ts';
import { type Comparison, comparePrepared, type PreparedScan } from '../core/pipeline.ts';
import { groundsInWords, stateSentence } from '../core/report/index.ts';
import { findingSentence } from '../core/report/words/index.ts';
import type { LinksTable } from './database/tables.ts';

type LinkMade = Omit<LinksTable, 'a_id' | 'b_id' | 'by_tool' | 'surfaces_read'> & { readonly surfaces_read: 0 | 1 };

/** What a group needs to know of a pair. Of one that is not supported the surfaces say nothing that a group asks for. */
export function linkOf({ judgement, ...comparison }: Comparison): LinkMade {
  const { descent, finding } = judgement;
  const state = finding === 'supported' ? judgement.state.reading : unread;
  return { ...weighedLink({ ...comparison, ...judgement }), descent, state, surfaces_read: 1 };
}

const unread: Comparison['judgement']['state']['reading'] = 'cannotJudge';

/** The same of a finding whose surfaces are not read yet. */
export function weighedLink({
  reference,
  subject,
  fit,
  ...judgement
}: WeighedFinding & Pick<Comparison, 'reference' | 'subject' | 'fit'>): LinkMade {
  const { finding, question, strength, score, constellation } = judgement;
  const [imageLeftA, imageLeftB] = imageLeft(reference.face, subject.face, fit) ?? [null, null];
  return {
    ...{ finding, question, strength },
    descent: null,
    score: fit.found ? score : null,
    state: unread,
    image_left_a: imageLeftA,
    image_left_b: imageLeftB,
    places: packPlaces(reference.face, subject.face, fit, constellation),
    surfaces_read: finding === 'supported' ? 0 : 1,
  };
}

/** A candidate compared with what was searched for, with the grounds of the finding in words; `by`: version and build of the tool. */
export type VerifiedPair = ReturnType<typeof verifiedPair>;

export function verifiedPair(candidate: PreparedScan, query: PreparedScan, by: string, watch: Watch = {}) {
  const comparison = comparePrepared(candidate, query, watch);
  const { image_left_a, image_left_b, places: _, surfaces_read: __, ...link } = linkOf(comparison);
  const sentence = findingSentence(comparison.judgement, stateSentence(comparison));
  const grounds = groundsInWords(comparison).map(({ title, figure, speaks, says, against }) => ({
    ...{ title, figure, speaks, says, against },
  }));
  return { ...link, imageLeft: { candidate: image_left_a, query: image_left_b }, sentence, grounds, by };
}
