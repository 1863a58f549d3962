import type { Random } from '../../src/core/geometry/index.ts';

const starts = [
  'Alv',
  'Berth',
  'Corm',
  'Dunst',
  'Ethr',
  'Fenn',
  'Garl',
  'Hald',
  'Ingl',
  'Keld',
  'Lanv',
  'Morc',
  'Nerr',
  'Osb',
  'Pell',
  'Querr',
  'Radl',
  'Serl',
  'Thorv',
  'Ulst',
  'Varl',
  'Wend',
  'Ysm',
  'Brenn',
  'Crell',
  'Tarv',
];
const middles = ['a', 'e', 'i', 'o', 'en', 'il', 'er', 'am'];
const nameEnds = ['ric', 'vin', 'mund', 'bert', 'ard', 'hild', 'gar', 'bold', 'isa', 'lin', 'mar', 'not'];
const placeEnds = ['ford', 'vic', 'ham', 'stou', 'mere', 'lei', 'burn', 'holt', 'cumb', 'bi', 'cote', 'volt'];
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
  const soFar = (): number => words.join('').length;
  words.push(asCut(invent(random, nameEnds)));
  if (soFar() < letters - 9) words.push(random.pick(offices));
  if (soFar() < letters - 7) words.push('DE', asCut(invent(random, placeEnds)));
  while (soFar() < letters - 6) words.push(random.next() < 0.5 ? 'ET' : 'DE', asCut(invent(random, placeEnds)));
  return words.join(' ');
}
