import type { WearRelief } from '../relief/relief.ts';
import { type WearMap, wearLabel } from '../wear/labels.ts';
import type { Chain } from './lines/chains.ts';

export const soundDefaults = {
  /** The other face is sound around a mark when no more than this share of it there is worn, lost or missing. */
  unsound: 0.4,
  /** Of a line a stretch of this share of the size is enough: there the other face would show it. */
  stretch: 0.15,
};

/** Whether the other face would show some stretch of a line: as a whole the line may cross worn parts too. */
export function soundOnStretch(
  relief: WearRelief,
  map: WearMap,
  { cells, lengthMm }: Chain,
  options = soundDefaults,
): boolean {
  const share = Math.min(1, (options.stretch * relief.sizeMm) / lengthMm);
  const count = Math.max(1, Math.round(share * cells.length));
  const step = Math.max(1, Math.round(count / 3));
  for (let from = 0; ; from = Math.min(from + step, cells.length - count)) {
    if (soundAlong(relief, map, cells.slice(from, from + count), options)) return true;
    if (from + count >= cells.length) return false;
  }
}

/** Whether the ground one to two millimetres around the cells shows the design as it was made. */
export function soundAlong(
  { reference }: WearRelief,
  { labels }: WearMap,
  cells: readonly number[],
  { unsound } = soundDefaults,
): boolean {
  const { width, pitch } = reference;
  const bad = new Set((['lower', 'lost', 'cannotJudge'] as const).map(wearLabel));
  let [all, count] = [0, 0];
  for (const i of cells)
    for (let k = 0; k < 8; k++)
      for (const away of [1.2, 2]) {
        const dc = Math.round((Math.cos((k * Math.PI) / 4) * away) / pitch);
        const dr = Math.round((Math.sin((k * Math.PI) / 4) * away) / pitch);
        const label = labels[i + dr * width + dc] ?? 0;
        if (!label) continue;
        all++;
        if (bad.has(label)) count++;
      }
  return all > 0 && count <= unsound * all;
}
