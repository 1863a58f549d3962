import type { PlateSize } from '../../../core/report/index.ts';
import { mmPer } from '../../../core/scan/index.ts';

/** What the size of a plate is counted in. */
export const sizeUnits = { times: 'natural size', mm: 'mm high', dots: 'dots high' } as const;
export type SizeUnit = keyof typeof sizeUnits;

/** Size and resolution as they are typed. */
export interface TypedSize {
  readonly value: string;
  readonly unit: SizeUnit;
  readonly dpi: string;
}

/** More dots than a page can hold at once. */
const mostDots = 60e6;

export function plateSize({ value, unit, dpi }: TypedSize): PlateSize {
  const count = Number(value);
  if (unit === 'times') return { printScale: count };
  return { heightMm: unit === 'mm' ? count : (count * mmPer.inch) / Number(dpi) };
}

/** What is wrong with the size of a plate that shows these outlines, in words; null if nothing is. */
export function sizeFault(
  typed: TypedSize,
  outlines: ReadonlyArray<{ readonly widthMm: number; readonly heightMm: number }>,
): string | null {
  const dpi = Number(typed.dpi);
  if (!(dpi >= 50 && dpi <= 2400)) return 'Dots per inch lie between 50 and 2400.';
  const size = plateSize(typed);
  const tallestMm = Math.max(...outlines.map(({ heightMm }) => heightMm));
  const scale = 'printScale' in size ? size.printScale : size.heightMm / tallestMm;
  if (!(scale >= 0.05 && scale <= 50)) return 'A plate lies between 0.05 and 50 times natural size.';
  const areaMm2 = outlines.reduce((sum, { widthMm, heightMm }) => sum + widthMm * heightMm, 0);
  const dots = areaMm2 * ((scale * dpi) / mmPer.inch) ** 2;
  return dots > mostDots ? 'The plate would have more dots than a page can hold; take a smaller size.' : null;
}
