import type { BandDoubt } from '../../design/index.ts';
import type { CardLanguage } from '../../read/index.ts';
import { captionWords, printed } from './captions/index.ts';

/** What makes a legend band doubtful, in a sentence. */
export const bandDoubtWords = (doubt: BandDoubt, language: CardLanguage = 'en'): string =>
  captionWords[language].band.doubts[doubt];

/**
 * How sure a band is, 0 a guess and 1 sure, what makes it doubtful, and whether letters were made out in it. `explained`: what
 * capitals explain of it, in the sense that explains most.
 */
export function bandWords(
  { confidence, doubts }: { readonly confidence: number; readonly doubts: readonly BandDoubt[] },
  explained: number,
  language: CardLanguage = 'en',
): string {
  const w = captionWords[language];
  const sure = w.band.confidence(printed(confidence.toFixed(2), w));
  const bare = explained < leastExplained ? [w.band.noLetters] : [];
  return [sure, ...doubts.map((doubt) => bandDoubtWords(doubt, language)), ...bare].join(' ');
}

/** Bare metal and ornament have less; the worst of a hundred rubbed legends more. */
const leastExplained = 0.01;
