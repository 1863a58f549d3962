import type { CardLanguage, FacingDoubt, ReadableStrip, SenseOfLetters } from '../../read/index.ts';
import { captionWords, printed } from './captions/index.ts';

/** How the letters of a legend stand. */
export function letterSenseWords(
  { sense, decided }: Pick<SenseOfLetters, 'sense' | 'decided'>,
  language: CardLanguage = 'en',
): string {
  const { senses } = captionWords[language];
  if (!decided) return senses.undecided;
  return sense === 'upright' || sense === 'upsideDown' ? senses[sense] : senses.mirrored;
}

/** What is doubtful about the arcs that letters face two ways in; empty where nothing is. */
export const facingDoubtWords = (doubts: readonly FacingDoubt[], language: CardLanguage = 'en'): string =>
  doubts.map((doubt) => captionWords[language].senses[doubt]).join(' ');

/** What stands under a strip. */
export function stripWords(
  { strip, letters, startDeg }: Pick<ReadableStrip, 'strip' | 'letters' | 'startDeg'>,
  language: CardLanguage = 'en',
): string {
  const w = captionWords[language];
  const { band, facing, pieces } = strip;
  const letterMm = band.lettersInnerMm - band.lettersOuterMm;
  const twoWays = pieces.some((piece) => piece.facing !== facing);
  const parts = [
    `${w.strip.title}, ${twoWays ? w.strip.twoWays : w.strip.facing[facing]}`,
    w.strip.from(printed(Number(startDeg.toFixed(1)), w)),
    w.strip.letters(printed(letterMm.toFixed(1), w)),
    band.sense === 'intaglio' ? w.strip.turnedOver : w.strip.asItIs,
  ];
  const retrograde = letters.decided && letters.sense.startsWith('mirrored');
  return `${parts.join('; ')}.${retrograde ? ` ${letterSenseWords(letters, language)}` : ''}`;
}
