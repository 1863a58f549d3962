import type { Random } from '../../src/core/geometry/index.ts';

const starts = [
  'Aldv',
  'Bervol',
  'Corvan',
  'Dunth',
  'Ethlo',
  'Fenv',
  'Garvo',
  'Halmo',
  'Ingvo',
  'Kelvad',
  'Lamvo',
  'Morvi',
  'Norvel',
  'Osvo',
  'Pelvo',
  'Quenv',
  'Radvo',
  'Selvo',
  'Thorm',
  'Ulvo',
  'Varn',
  'Wendo',
  'Ylvo',
  'Branvo',
  'Cresvo',
  'Tamvo',
];
const middles = ['a', 'e', 'i', 'o', 'ar', 'en', 'il', 'or', 'und', 'er', 'am'];
const nameEnds = ['ric', 'win', 'mund', 'bert', 'ard', 'hilde', 'gar', 'wald', 'isa', 'lina', 'mer', 'nold'];
const placeEnds = ['ford', 'wick', 'ham', 'stow', 'mere', 'ley', 'burn', 'holt', 'combe', 'by', 'cote', 'wold'];
const openings = ['S', 'SIGILLVM', "SIGILL'", 'SECRETVM', "SECRET'", 'S COMVNE', 'SIGNVM', "S'"];
const offices = [
  'PRIORIS',
  'CLERICI',
  'CAPELLANI',
  'ABBATIS',
  "VICAR'",
  'MERCATORIS',
  'FILII',
  'BALLIVI',
  "MILIT'",
  'DNI',
  'RECTORIS',
];

/** Capitals as they are cut: V for U, I for J, VV for W. */
export const asCut = (text: string): string =>
  text.toUpperCase().replaceAll('J', 'I').replaceAll('U', 'V').replaceAll('W', 'VV');

const invent = (random: Random, ends: readonly string[]): string =>
  random.pick(starts) + (random.next() < 0.55 ? random.pick(middles) : '') + random.pick(ends);

/**
 * An invented legend of about `letters` letters, words parted by single spaces, an apostrophe where an engraver would
 * put the stroke of abbreviation.
 */
export function inventLegend(random: Random, letters: number): string {
  const words = [random.pick(openings)];
  const fit = (): number => words.join('').length;
  words.push(asCut(invent(random, nameEnds)));
  if (fit() < letters - 9) words.push(random.pick(offices));
  if (fit() < letters - 7) words.push('DE', asCut(invent(random, placeEnds)));
  while (fit() < letters - 6) words.push(random.next() < 0.5 ? 'ET' : 'DE', asCut(invent(random, placeEnds)));
  return words.join(' ');
}
