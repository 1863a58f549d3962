import type { BandDoubt } from '../../design/index.ts';

/** What makes a legend band doubtful, in a sentence. */
export const bandDoubtWords = (doubt: BandDoubt): string => sentences[doubt];

/**
 * How sure a band is, 0 a guess and 1 sure, what makes it doubtful, and whether letters were made out in it. `explained`: what
 * capitals explain of it, in the sense that explains most.
 */
export function bandWords(
  { confidence, doubts }: { readonly confidence: number; readonly doubts: readonly BandDoubt[] },
  explained: number,
): string {
  const sure = `Band found with confidence ${confidence.toFixed(2)}.`;
  const bare = explained < leastExplained ? [noLetters] : [];
  return [sure, ...doubts.map(bandDoubtWords), ...bare].join(' ');
}

/** Bare metal and ornament have less; the worst of a hundred rubbed legends more. */
const leastExplained = 0.01;
const noLetters = 'Nothing like letters was made out in it: it may be no legend.';

const sentences: Readonly<Record<BandDoubt, string>> = {
  noInnerLine: 'No inner border line was seen.',
  noOuterLine: 'No outer border line was seen.',
  noLine: 'No border line was seen: the band is where letters seem to be.',
  uncertain: 'The band is uncertain: check both edges.',
};
