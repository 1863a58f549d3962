import type { SecondStrike } from '../../condition/index.ts';
import { percentWords } from './numbers.ts';

/** A slip or a second strike, and how it shows. */
export function strikeWords({ kind, shiftMm, towardDeg, turnDeg, share }: SecondStrike): string {
  const turned = Math.abs(turnDeg) >= 0.5 ? ` and turned by ${Math.abs(turnDeg).toFixed(1)}°` : '';
  const what = kind === 'slip' ? 'The matrix slipped while it was pressed' : 'The matrix was struck twice';
  return `${what}: the relief shows a second time, ${shiftMm.toFixed(2)} mm toward ${towardDeg.toFixed(0)}°${turned}, in ${percentWords(share)} of the places where it could. Doubled strokes can imitate another matrix.`;
}
