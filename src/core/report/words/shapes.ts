import type { Mark } from '../../condition/index.ts';
import type { ImageShape } from '../../face/index.ts';

/** What a face, a piece or an image is by its outline; the last two stand in records of others. */
export const outlineWords: Readonly<Record<ImageShape, string>> = {
  round: 'round',
  oval: 'oval',
  pointedOval: 'pointed oval',
  shield: 'shield-shaped',
  square: 'square',
  irregular: 'irregular',
  lozenge: 'lozenge-shaped',
  polygonal: 'polygonal',
};

/** What a mark is by its shape. */
export const markWords: Readonly<Record<Mark['shape'], string>> = {
  cut: 'cut',
  crack: 'crack',
  scratch: 'scratch',
  line: 'cut, crack or scratch',
  pit: 'pit',
  chip: 'chip',
  bubble: 'casting bubble',
  smear: 'dirt or smear',
  recut: 'recut letter or line',
  region: 'change',
};
