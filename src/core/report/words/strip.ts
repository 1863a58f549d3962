import type { ReadableStrip, SenseOfLetters } from '../../read/index.ts';

/** How the letters of a legend stand. */
export function letterSenseWords({ sense, decided }: Pick<SenseOfLetters, 'sense' | 'decided'>): string {
  if (!decided) return 'Which way the letters stand could not be told.';
  if (sense === 'upright') return 'The letters stand upright on the strip.';
  if (sense === 'upsideDown') return 'The letters stand upside down: the legend faces the other way.';
  return 'The legend is retrograde: its letters read as in a mirror on the impression. It is shown as it is.';
}

const ways = { inward: 'clockwise, feet to the centre', outward: 'against the clock, feet to the rim' };

/** What stands under a strip. */
export function stripWords({
  strip,
  letters,
  startDeg,
}: Pick<ReadableStrip, 'strip' | 'letters' | 'startDeg'>): string {
  const { band, facing, pieces } = strip;
  const letterMm = band.lettersInnerMm - band.lettersOuterMm;
  const twoWays = pieces.some((piece) => piece.facing !== facing);
  const parts = [
    `Legend strip, ${twoWays ? 'letters face two ways, each arc laid out so that it reads' : ways[facing]}`,
    `from ${Number(startDeg.toFixed(1))}° clockwise from 12 o'clock on the impression`,
    `letters ${letterMm.toFixed(1)} mm high`,
    band.sense === 'intaglio' ? 'matrix turned over to read as its impression' : 'read as it is',
  ];
  const retrograde = letters.decided && letters.sense.startsWith('mirrored');
  return `${parts.join('; ')}.${retrograde ? ` ${letterSenseWords(letters)}` : ''}`;
}
