import { imageLeft, packPlaces } from '../core/collection/index.ts';
import type { Watch } from '../core/geometry/index.ts';
import { type Comparison, comparePrepared, type PreparedScan } from '../core/pipeline.ts';
import { groundsInWords, stateSentence } from '../core/report/index.ts';
import { findingSentence } from '../core/report/words/index.ts';
import type { LinksTable } from './database/tables.ts';

/** What a group needs to know of a pair. */
export function linkOf({
  reference,
  subject,
  fit,
  judgement,
}: Comparison): Omit<LinksTable, 'a_id' | 'b_id' | 'by_tool'> {
  const { finding, question, strength, descent } = judgement;
  const [imageLeftA, imageLeftB] = imageLeft(reference.face, subject.face, fit) ?? [null, null];
  return {
    ...{ finding, question, strength, descent },
    score: fit.found ? judgement.score : null,
    state: judgement.state.reading,
    image_left_a: imageLeftA,
    image_left_b: imageLeftB,
    places: packPlaces(reference.face, subject.face, fit, judgement.constellation),
  };
}

/** A candidate compared with what was searched for, with the grounds of the finding in words; `by`: version and build of the tool. */
export type VerifiedPair = ReturnType<typeof verifiedPair>;

export function verifiedPair(candidate: PreparedScan, query: PreparedScan, by: string, watch: Watch = {}) {
  const comparison = comparePrepared(candidate, query, watch);
  const { image_left_a, image_left_b, places: _, ...link } = linkOf(comparison);
  const sentence = findingSentence(comparison.judgement, stateSentence(comparison));
  const grounds = groundsInWords(comparison).map(({ title, figure, speaks, says, against }) => ({
    ...{ title, figure, speaks, says, against },
  }));
  return { ...link, imageLeft: { candidate: image_left_a, query: image_left_b }, sentence, grounds, by };
}
