import type { HeightGrid } from '../../../geometry/index.ts';
import { type Step, stepsAlong, type WalkedLine } from './walkLine.ts';

/** Where cells lie across the legend's band. */
export interface BandPlaces {
  /** 0 at the band's outer edge, 1 at its inner. */
  readonly placeOf: (cell: number) => number;
  /** Distance of every cell from the face's edge, cells. */
  readonly fromEdge: Float32Array;
  readonly grid: Pick<HeightGrid, 'width' | 'height' | 'z'>;
  readonly widthCells: number;
}

export const bandChanceDefaults = {
  /** Places round the band that are asked. */
  places: 40,
  /** The band with so much of its width on either side: strokes of letters end at its edges, marks do not. */
  beyond: 0.15,
  /** A place is asked where at least this share of its way has data. */
  leastSeen: 0.7,
  /** Fewer places than this say nothing. */
  leastPlaces: 8,
  /** Cells over which the way inward is taken. */
  slopeCells: 3,
};

/**
 * How often the design alone is crossed as a line crosses it: the straight way that the line takes through the legend's band is laid
 * through other places of the same band, under the same angle to its edge, and followed by the same rule with the same crest.
 * A way is worth (stands − absent) / all of its steps. Given back is the share of the other places that are worth at least as much; of a line that
 * crosses twice the smaller one; 0 where too few places can be asked. So the pair's own legend sets what counts as seldom.
 */
export function bandChance(
  grids: readonly HeightGrid[],
  heights: readonly Float32Array[],
  { way, line, usual }: WalkedLine,
  band: BandPlaces,
  sound: (cell: number) => boolean = () => true,
  options = bandChanceDefaults,
): number {
  const { placeOf, grid } = band;
  const within = (i: number): boolean => placeOf(i) > -options.beyond && placeOf(i) < 1 + options.beyond;
  const follow = (angle: number, rho: number, near: number): Part => {
    const walked = stepsAlong(grids, heights, { angle, rho }, usual, sound);
    return partNear(walked.way, walked.steps, within, near, grid.width);
  };
  let least = 1;
  const crossings = runsWithin(way, within);
  const apart = (a: number, b: number): number =>
    Math.hypot((a % grid.width) - (b % grid.width), rowOf(a, grid) - rowOf(b, grid));
  for (const run of crossings) {
    const middle = run[run.length >> 1];
    if (run.length < 0.5 * band.widthCells) continue;
    const own = follow(line.angle, line.rho, middle);
    const inward = inwardAt(band, middle, options.slopeCells);
    if (!inward) continue;
    const off = line.angle - inward;
    let [asked, asGood] = [0, 0];
    for (const cell of placesRound(band, middle, options.places)) {
      // Where the line itself crosses, there or at its other end, is no other place.
      if (crossings.some((each) => apart(cell, each[each.length >> 1]) < each.length / 2)) continue;
      const there = inwardAt(band, cell, options.slopeCells);
      if (there === null) continue;
      const angle = (((there + off) % Math.PI) + Math.PI) % Math.PI;
      const rho = (cell % grid.width) * Math.sin(angle) + rowOf(cell, grid) * Math.cos(angle);
      const other = follow(angle, rho, cell);
      if (other.seen < options.leastSeen || other.length < 0.7 * own.length) continue;
      asked++;
      if (other.worth >= own.worth) asGood++;
    }
    least = Math.min(least, asked < options.leastPlaces ? 0 : asGood / asked);
  }
  return least;
}

const rowOf = (cell: number, { width }: { readonly width: number }): number => Math.floor(cell / width);

/** What of a way lies in the band about a cell. */
interface Part {
  readonly worth: number;
  /** Steps, and the share of them with data. */
  readonly length: number;
  readonly seen: number;
}

function partNear(
  way: readonly number[],
  steps: readonly Step[],
  within: (cell: number) => boolean,
  near: number,
  width: number,
): Part {
  const away = (i: number): number =>
    Math.hypot((i % width) - (near % width), Math.floor(i / width) - Math.floor(near / width));
  let middle = 0;
  way.forEach((i, k) => {
    if (away(i) < away(way[middle])) middle = k;
  });
  let [from, to] = [middle, middle];
  while (from > 0 && within(way[from - 1])) from--;
  while (to < way.length - 1 && within(way[to + 1])) to++;
  const length = to - from + 1;
  const count = { stands: 0, hidden: 0, absent: 0, unknown: 0 };
  for (let k = from; k <= to; k++) count[steps[k]]++;
  return { worth: (count.stands - count.absent) / length, length, seen: 1 - count.unknown / length };
}

/** The runs of a way that lie in the band. */
function runsWithin(way: readonly number[], within: (cell: number) => boolean): number[][] {
  const runs: number[][] = [];
  let open = false;
  for (const i of way) {
    const inside = within(i);
    if (inside && open) runs[runs.length - 1].push(i);
    else if (inside) runs.push([i]);
    open = inside;
  }
  return runs;
}

/** Angle of the way inward, counter-clockwise from the columns, rows downward; null where the distance from the edge does not grow. */
function inwardAt({ fromEdge, grid }: BandPlaces, cell: number, reach: number): number | null {
  const dx = fromEdge[cell + reach] - fromEdge[cell - reach];
  const dy = fromEdge[cell + reach * grid.width] - fromEdge[cell - reach * grid.width];
  return Math.hypot(dx, dy) < reach ? null : Math.atan2(-dy, dx);
}

/** Cells as far across the band as a cell is, in equal steps of angle about the grid's middle. */
function placesRound({ placeOf, grid }: BandPlaces, cell: number, count: number): number[] {
  const at = placeOf(cell);
  const [cx, cy] = [grid.width / 2, grid.height / 2];
  return Array.from({ length: count }, (_, k) => {
    const angle = (2 * Math.PI * k) / count;
    let best = -1;
    for (let r = 2; ; r++) {
      const [col, row] = [Math.round(cx + r * Math.cos(angle)), Math.round(cy - r * Math.sin(angle))];
      if (col < 4 || row < 4 || col >= grid.width - 4 || row >= grid.height - 4) break;
      const i = row * grid.width + col;
      if (placeOf(i) >= at) best = i;
    }
    return best;
  }).filter((i) => i >= 0);
}
