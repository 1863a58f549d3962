import { signNames, signs } from './signs.ts';

/** Combining dot below: a doubtful letter. */
export const dotBelow = '\u0323';
/** Combining double inverted breve, between two letters: a ligature. */
export const tie = '\u0361';
/** Combining arrow above, to the left: a letter cut the wrong way round (a mark of this project's own). */
export const turned = '\u20d6';
export const superscripts = '⁰¹²³⁴⁵⁶⁷⁸⁹';

const reserved = new Set([
  ..." \t\n\r[](){}<>.-|'¯…",
  ...superscripts,
  dotBelow,
  tie,
  turned,
  ...signNames.map((name) => signs[name].glyph),
]);

/** May this stand as one letter? One character, with other accents of its own if need be, and none of the marks. */
export function isLetterText(text: string): boolean {
  const characters = [...text];
  if (characters.length === 0 || characters.some((c) => reserved.has(c))) return false;
  return !/\p{M}/u.test(characters[0]) && characters.slice(1).every((c) => /\p{M}/u.test(c));
}

export const isReserved = (character: string): boolean => reserved.has(character);
