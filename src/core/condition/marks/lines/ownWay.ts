import type { HeightGrid } from '../../../geometry/index.ts';
import type { Chain } from './chains.ts';

export const ownWayDefaults = {
  /** A line's way at a cell is taken through its cells so near, mm. */
  nearMm: 1.2,
  /** … where these lie at least so many times as long as wide; else it is the whole line's. */
  longerThanWide: 2,
};

/**
 * Steps in cells from each cell of a line to the place `asideCells` beside it, across the line's own way there: the straight line with the least Σ of
 * squared distances from the cells within `nearMm`, turned as the whole line runs. Where these make no line it is across the whole line's.
 */
export function stepsAside(
  { width, pitch }: Pick<HeightGrid, 'width' | 'pitch'>,
  chain: Pick<Chain, 'cells' | 'ux' | 'uy'>,
  options = ownWayDefaults,
): (k: number, asideCells: number) => number {
  const reach = options.nearMm / pitch;
  const places = chain.cells.map((i): [number, number] => [i % width, -Math.floor(i / width)]);
  const ways = places.map((at) => {
    const [ux, uy] = wayThrough(
      places.filter(([x, y]) => (x - at[0]) ** 2 + (y - at[1]) ** 2 <= reach ** 2),
      options.longerThanWide,
    ) ?? [chain.ux, chain.uy];
    return ux * chain.ux + uy * chain.uy < 0 ? [-ux, -uy] : [ux, uy];
  });
  return (k, aside) => Math.round(-ways[k][0] * aside) * width + Math.round(-ways[k][1] * aside);
}

/** Unit direction of the longer axis of some places, y upward; null where they are not `longerThanWide` times as long as wide (standard deviations). */
function wayThrough(places: readonly (readonly [number, number])[], longerThanWide: number): [number, number] | null {
  const n = places.length;
  if (n < 3) return null;
  let [x, y, xx, xy, yy] = [0, 0, 0, 0, 0];
  for (const [px, py] of places) {
    x += px / n;
    y += py / n;
  }
  for (const [px, py] of places) {
    xx += (px - x) ** 2;
    xy += (px - x) * (py - y);
    yy += (py - y) ** 2;
  }
  const spread = Math.hypot(xx - yy, 2 * xy);
  if (xx + yy + spread < longerThanWide ** 2 * (xx + yy - spread)) return null;
  const angle = 0.5 * Math.atan2(2 * xy, xx - yy);
  return [Math.cos(angle), Math.sin(angle)];
}
