import { type Kit, parting, type Spot } from './kit.ts';

/** Short strokes left standing inside a hollow: feathers, scales or wool. */
export function flecks(kit: Kit, spots: readonly Spot[], size: number, turnDeg: number): void {
  const c = Math.cos((turnDeg * Math.PI) / 180) * size;
  const s = Math.sin((turnDeg * Math.PI) / 180) * size;
  for (const [x, y] of spots)
    parting(
      kit,
      [
        [x - c, y - s],
        [x + 0.4 * s, y - 0.4 * c],
        [x + c, y + s],
      ],
      0.013,
      { deep: 0.6 },
    );
}
