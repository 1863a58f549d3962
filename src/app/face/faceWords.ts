import type { OutlineShape } from '../../core/face/index.ts';

export const shapeWords: Readonly<Record<OutlineShape, string>> = {
  round: 'round',
  oval: 'n oval',
  pointedOval: 'pointed-oval',
  shield: 'shield-shaped',
  square: 'square',
  irregular: 'n irregular',
};

/** Why this way is up. */
export function upWords(upFrom: string): string {
  if (upFrom === 'stated') return 'Upright as you turned it.';
  if (upFrom === 'longAxis') return 'Upright by its long axis; which end is the top is a guess.';
  return 'Upright as the scan lay.';
}
