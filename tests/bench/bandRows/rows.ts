import { type RingSigns, ringSignNames } from '../../../src/core/design/legend/ringSigns.ts';

/** A ring that a face offered, and whether it was the legend's. */
export interface RingRow {
  readonly face: string;
  readonly right: boolean;
  readonly signs: RingSigns;
}

/** One line a ring: face, 1 or 0, signs in the order of `ringSignNames`, to three decimals. */
export const ringLine = ({ face, right, signs }: RingRow): string =>
  [face, right ? 1 : 0, ...ringSignNames.map((name) => Number(signs[name].toFixed(3)))].join(',');

export function ringRows(table: string): RingRow[] {
  return table
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => {
      const [face, right, ...values] = line.split(',');
      const signs = Object.fromEntries(ringSignNames.map((name, k) => [name, Number(values[k])]));
      return { face, right: right === '1', signs: signs as unknown as RingSigns };
    });
}

export const ringHead = ['face', 'right', ...ringSignNames].join(',');
