import type { Repairs } from '../../core/scan/index.ts';
import type { FaceView } from '../../workers/browser/protocol.ts';
import { count } from '../look/numbers.ts';

/** Where the unit comes from, in words. */
export function unitWords({ unit, unitFrom }: FaceView): string {
  if (unitFrom === 'stated') return `In ${unit}, as you say.`;
  if (unitFrom === 'file') return `In ${unit}, as the file says.`;
  return `In ${unit}: the only unit that makes a seal of it.`;
}

const mended: ReadonlyArray<[keyof Repairs, string]> = [
  ['notANumber', 'vertices without a place'],
  ['degenerate', 'triangles without area left out'],
  ['duplicate', 'triangles listed twice'],
  ['unreferenced', 'vertices in no triangle'],
  ['welded', 'vertices joined'],
  ['flipped', 'triangles turned round'],
  ['strayPieces', 'loose pieces left out'],
];

/** What was mended while reading; nothing is hidden. */
export function repairWords(repairs: Repairs): string {
  const parts = mended.flatMap(([name, words]) => (repairs[name] > 0 ? [`${count(repairs[name])} ${words}`] : []));
  return parts.length === 0 ? 'Nothing to mend.' : `Mended: ${parts.join(', ')}.`;
}
