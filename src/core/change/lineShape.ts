import { distanceTransform, gaussianFilter, type HeightGrid, sampleGrid, xOf, yOf } from '../geometry/index.ts';
import { grown } from './commonGrid.ts';
import { partsOf } from './noise.ts';
import { cutoffOf } from './scales.ts';

export const lineShapeDefaults = {
  /** A region this many times as large as the largest disc in it is a line. */
  leastElongation: 4.5,
  /** And no wider than this, mm, with its length at least so many times its width. */
  widestMm: 1.6,
  leastRatio: 3,
  /** How far beyond an end an earlier groove is looked for, mm, and how far to either side the line may turn, degrees. */
  lookMm: 1.8,
  turnDeg: 35,
  /** A groove of the earlier goes on where it has this share of the new line's depth. */
  depthShare: 0.3,
};

export interface LineShape {
  readonly lengthMm: number;
  /** The two ends, each with the point about a millimetre before it, x, y, mm. */
  readonly ends: ReadonlyArray<readonly [x: number, y: number, beforeX: number, beforeY: number]>;
}

/** The way along the middle of a set of cells where they make a line; null where they are an area. */
export function lineShapeOf(grid: HeightGrid, cells: readonly number[], options = lineShapeDefaults): LineShape | null {
  // Grown by a cell, so that pieces of one line hang together; its own width is two cells less.
  const scattered = new Uint8Array(grid.mask.length);
  for (const i of cells) scattered[i] = 1;
  const pieces = partsOf(grown(scattered, grid.width, 1), grid.width);
  const piece = pieces.reduce((most, each) => (each.cells.length > most.cells.length ? each : most), pieces[0]);
  if (!piece) return null;
  const set = new Uint8Array(grid.mask.length);
  for (const i of piece.cells) set[i] = 1;
  const distance = distanceTransform(set, grid.width);
  const widest = piece.cells.reduce((most, i) => Math.max(most, distance[i]), 0);
  if (piece.cells.length < options.leastElongation * Math.PI * widest ** 2) return null;
  const first = farthest(grid, set, piece.cells[0]);
  const second = farthest(grid, set, first.end);
  const width = Math.max(1, 2 * widest - 3) * grid.pitch;
  const lengthMm = Math.max(0, second.steps * grid.pitch - width);
  if (width > options.widestMm || lengthMm < options.leastRatio * width) return null;
  const back = Math.max(2, Math.round((1 + width / 2) / grid.pitch));
  const way = second.way;
  const place = (i: number): [number, number] => [xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width))];
  const at = (k: number): [number, number] => place(way[Math.max(0, Math.min(way.length - 1, k))]);
  return {
    lengthMm,
    ends: [
      [...at(0), ...at(back)],
      [...at(way.length - 1), ...at(way.length - 1 - back)],
    ],
  };
}

/** The cell of a set farthest from a start by steps within it (diagonals count √2), and the way there from it (Dijkstra 1959). */
function farthest({ width }: HeightGrid, set: Uint8Array, start: number) {
  const steps = new Map<number, number>([[start, 0]]);
  const from = new Map<number, number>();
  const buckets: number[][] = [[start]];
  for (let b = 0; b < buckets.length; b++)
    for (let at = 0; at < (buckets[b]?.length ?? 0); at++) {
      const cell = buckets[b][at];
      const here = steps.get(cell) ?? 0;
      if (Math.round(2 * here) !== b) continue;
      for (let dy = -1; dy <= 1; dy++)
        for (let dx = -1; dx <= 1; dx++) {
          const next = cell + dy * width + dx;
          const far = here + Math.hypot(dx, dy);
          if (!set[next] || far >= (steps.get(next) ?? Number.POSITIVE_INFINITY)) continue;
          steps.set(next, far);
          from.set(next, cell);
          const bucket = Math.round(2 * far);
          for (let k = buckets.length; k <= bucket; k++) buckets.push([]);
          buckets[bucket].push(next);
        }
    }
  let [end, most] = [start, 0];
  for (const [cell, far] of steps) if (far > most) [end, most] = [cell, far];
  const way = [end];
  for (let at = from.get(end); at !== undefined; at = from.get(at)) way.push(at);
  return { end, steps: most, way };
}

/**
 * Whether the earlier surface has a groove that a line of `depthMm` goes on from: beyond one of its ends, in some
 * direction near its own, the median depth of a groove against the ground 0.5 mm to either side.
 */
export function goesOnFrom(
  earlier: HeightGrid,
  { ends }: LineShape,
  depthMm: number,
  noiseMm: number,
  options = lineShapeDefaults,
): boolean {
  const smooth = gaussianFilter(earlier, cutoffOf(0.6 * earlier.pitch));
  const least = Math.max(options.depthShare * depthMm, 3 * noiseMm);
  return ends.some(([x, y, bx, by]) => {
    const heading = Math.atan2(y - by, x - bx);
    for (let turn = -options.turnDeg; turn <= options.turnDeg; turn += 5)
      if (grooveDepth(smooth, x, y, heading + (turn * Math.PI) / 180, options.lookMm) > least) return true;
    return false;
  });
}

/** Median over the way of how deep the lowest place across it (±0.2 mm) lies below both sides, mm. */
function grooveDepth(grid: HeightGrid, x: number, y: number, heading: number, lookMm: number): number {
  const [c, s] = [Math.cos(heading), Math.sin(heading)];
  const depths: number[] = [];
  for (let t = 0.3; t <= lookMm; t += 0.1) {
    const at = (across: number): number => sampleGrid(grid, x + t * c - across * s, y + t * s + across * c);
    const low = Math.min(...[-0.2, -0.1, 0, 0.1, 0.2].map(at));
    depths.push(Math.min(at(-0.55), at(0.55)) - low);
  }
  const known = depths.filter((d) => !Number.isNaN(d)).sort((a, b) => a - b);
  return known.length > 0.7 * depths.length ? known[Math.floor(0.3 * known.length)] : Number.NaN;
}
