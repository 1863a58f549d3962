import type { OutlineShape } from '../../core/face/index.ts';
import type { UpFrom } from '../../core/read/index.ts';

export const shapeWords: Readonly<Record<OutlineShape, string>> = {
  round: 'round',
  oval: 'n oval',
  pointedOval: 'pointed-oval',
  shield: 'shield-shaped',
  square: 'square',
  irregular: 'n irregular',
};

/** Why this way is up. */
export const upWords: Readonly<Record<UpFrom, string>> = {
  stated: 'Upright as you turned it.',
  longAxis: 'Upright by its long axis; which end is the top is a guess.',
  partner: 'Upright as the other one of the pair stands.',
  motif: 'Upright by its motif, which is alike on both sides of this axis; a guess.',
  cross: 'Upright by the sign at the beginning of its legend; a guess.',
  scan: 'As the scan lay: nothing says which way is up.',
};
