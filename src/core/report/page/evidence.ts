import type { EvidenceRecord } from '../record/schema.ts';
import { number, withSd } from './html.ts';

/** The number with its uncertainty and unit, as text. */
export function valueWords({ value, unit, sd }: EvidenceRecord): string {
  const after = unit === '' ? '' : ` ${unit}`;
  if (value === null) return `–${after}`;
  if (typeof sd === 'number' && sd > 0) return `${withSd(value, sd, 1 - Math.floor(Math.log10(sd)))}${after}`;
  return `${number(value, decimals(value, unit))}${after}`;
}

/** Three figures that mean something, whatever the size; counts are whole, and a share of 1 or 0 is written like its likes. */
const decimals = (value: number, unit: string): number => {
  if (unit.startsWith('of ')) return 0;
  const size = Math.abs(value);
  return size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3;
};
