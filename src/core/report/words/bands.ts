import type { BandDoubt } from '../../design/index.ts';

/** What makes a legend band doubtful, in a sentence. */
export const bandDoubtWords = (doubt: BandDoubt): string => sentences[doubt];

const sentences: Readonly<Record<BandDoubt, string>> = {
  noInnerLine: 'No inner border line was seen.',
  noOuterLine: 'No outer border line was seen.',
  noLine: 'No border line was seen: the band is where letters seem to be.',
  uncertain: 'The band is uncertain: check both edges.',
};
