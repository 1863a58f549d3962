import type { WearRelief } from './relief.ts';

/** Cells with data on both faces within `reachMm` (two cells at least) of a patch of cells, outside it and a cell beside it. */
export function ringAround(
  { reference, subject, inside }: Pick<WearRelief, 'reference' | 'subject' | 'inside'>,
  cells: Int32Array,
  reachMm: number,
): Int32Array {
  const { width, pitch } = reference;
  const reach = Math.max(2, Math.round(reachMm / pitch));
  const near = new Set<number>();
  const close = new Set<number>(cells);
  for (const i of cells)
    for (let dy = -reach; dy <= reach; dy++)
      for (let dx = -reach; dx <= reach; dx++) {
        const j = i + dy * width + dx;
        if (Math.max(Math.abs(dx), Math.abs(dy)) <= 1) close.add(j);
        else near.add(j);
      }
  return Int32Array.from([...near].filter((j) => !close.has(j) && inside[j] && reference.mask[j] && subject.mask[j]));
}
