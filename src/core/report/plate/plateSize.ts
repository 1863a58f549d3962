import { dataBox, type HeightGrid } from '../../geometry/index.ts';

/** How large a plate is: so many times natural size, or its tallest object so high on paper. */
export type PlateSize = { readonly printScale: number } | { readonly heightMm: number };

/** Times natural size, of a plate that shows these reliefs. */
export function printScaleOf(size: PlateSize, shown: readonly HeightGrid[]): number {
  return 'printScale' in size ? size.printScale : size.heightMm / Math.max(...shown.map(heightMm));
}

/** Height of what a relief shows, mm: of its picture on a plate at natural size. */
function heightMm(relief: HeightGrid): number {
  const { top, bottom } = dataBox(relief);
  return top - bottom;
}
