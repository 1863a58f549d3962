import type { Chance } from './chance.ts';

const heads = [
  'B',
  'BR',
  'C',
  'D',
  'F',
  'G',
  'GW',
  'H',
  'K',
  'L',
  'M',
  'N',
  'P',
  'QU',
  'R',
  'S',
  'ST',
  'T',
  'V',
  'W',
  'Z',
  '',
];
const middles = ['A', 'E', 'I', 'O', 'U', 'AE', 'Y', 'IA', 'EO'];
const tails = ['', 'L', 'N', 'R', 'S', 'X', 'RD', 'NT', 'M', 'LF', 'J'];
const ends = ['VS', 'IS', 'A', 'I', 'ENSIS', 'TON', 'ORVM', 'HAM', 'ERII', 'EY'];
const openings = ['SIGILLVM', 'SIGILL', 'S', 'SECRETVM', 'CREDE', 'FRANGE'];
const offices = ['DE', 'PRIORIS', 'CLERICI', 'COMMVNE', 'CAPITVLI', 'ET', 'FILII', 'MAGISTRI'];

function inventedName(chance: Chance): string {
  const syllables = 1 + chance.whole(2);
  let name = '';
  for (let i = 0; i < syllables; i++) name += chance.choose(heads) + chance.choose(middles) + chance.choose(tails);
  return name + chance.choose(ends);
}

/** An invented legend of at most `room` letters, words parted by two dots, a cross first. */
export function inventedLegend(chance: Chance, room: number, opens: boolean): string {
  let text = opens ? `+${chance.choose(openings)}` : '+';
  for (let tries = 0; tries < 30; tries++) {
    const word = tries % 2 === 0 ? inventedName(chance) : chance.choose(offices);
    if (text.length + word.length + 1 > room) continue;
    text += text.length > 1 ? `:${word}` : word;
  }
  return text;
}
