import type { ShownChange } from '../../workers/browser/changeProtocol.ts';
import { number } from '../look/numbers.ts';
import type { ChangeLook } from './state/changeStore.ts';

export const changeLookWords: Readonly<Record<ChangeLook, string>> = {
  turn: 'in turn',
  pair: 'side by side',
  map: 'what changed',
};

/** A change's name in the list. */
export function changeLabel({ direction, shape }: Pick<ShownChange, 'direction' | 'shape'>): string {
  if (direction === 'absent') return 'No surface on the later';
  if (shape === 'line') return direction === 'lowered' ? 'Sunk line' : 'Raised line';
  return direction === 'lowered' ? 'Lower' : 'Higher';
}

export const placeWords = ({ at }: Pick<ShownChange, 'at'>): string =>
  `${at.hour} o’clock, ${number(at.radiusMm, 0)} mm out`;

/** The legend of the map, as of all differences: its two ends, zero, the grey zone. `engraved`: shown as its impression, measured as it is. */
export const changeLegend = (endMm: number, levelMm: number, engraved: boolean) => ({
  low: engraved ? 'later lower, on the object itself' : 'later stands lower',
  high: engraved ? 'later higher' : 'later stands higher',
  grey: `grey: nothing that counts (${number(levelMm, 3)} mm does)`,
  whole: `Change of height from minus to plus ${number(endMm, 2)} millimetres about zero; grey where nothing counts as changed, hatched where nothing was compared`,
});
