import { type HeightGrid, median, quantile, xOf, yOf } from '../geometry/index.ts';
import { type Patch, type PatchOptions, registerPatch } from './patches.ts';
import type { Cell, CongruentCells } from './types.ts';

export const tileDefaults = {
  /** Side of a cell in correlation lengths of the relief, and its limits as shares of the size. */
  lengths: 8,
  leastShare: 1 / 16,
  mostShare: 1 / 8,
  /** A cell is compared when this share of it has data on both. */
  leastData: 0.4,
  /** … and when its relief is at least this share of the median cell's. */
  leastRelief: 0.35,
  /** Turn of a cell alone; published gates are 3 to 6° (R Journal 14(4), 2022). */
  turnDeg: 6,
  /** Shift against the median of all cells: what the smooth warp may leave over. */
  shiftShare: 0.005,
  leastShiftMm: 0.12,
  /** Correlation above what this share of cells reaches at places where they cannot be. */
  nullQuantile: 0.95,
};

/** Tiles with the pair's own gate of correlation. */
export interface Tiles extends CongruentCells {
  readonly leastCorrelation: number;
  readonly sideMm: number;
}

/**
 * Congruent matching cells (after Song 2013) whose side follows the correlation length of the relief, so that a ring, a crescent
 * or a fragment has cells as well; each is registered alone with turn and Tukey weights (`registerPatch`). Congruent: correlated
 * better than cells at wrong places of this same pair, within the gates of shift and turn about the median. Both grids
 * on the same cells, band-passed, mm; the reference's mask is the common one.
 */
export function congruentTiles(
  reference: HeightGrid,
  subject: HeightGrid,
  sizeMm: number,
  patch: Pick<PatchOptions, 'noiseCells' | 'clipMm'>,
  options = tileDefaults,
): Tiles {
  const length = correlationCells(reference) * reference.pitch;
  const sideMm = Math.max(options.leastShare * sizeMm, Math.min(options.mostShare * sizeMm, options.lengths * length));
  const radius = Math.max(4, Math.round(sideMm / 2 / reference.pitch));
  const base: PatchOptions = { ...patch, radius, reach: Math.max(3, radius >> 1) };
  const places = tilePlaces(reference, radius, options.leastData);
  const found = places.flatMap(([x, y]) => registerPatch(reference, subject, x, y, base) ?? []);
  const least = options.leastRelief * median(found.map(({ relief }) => relief[0]));
  const compared = found.filter(({ relief }) => relief[0] >= least);
  const none = places.flatMap(([x, y], k) =>
    wrongPlace(reference, subject, [x, y], places[(k * 7 + 5) % places.length], base),
  );
  const leastCorrelation = none.length >= 8 ? quantile(none, options.nullQuantile) : 0.5;
  const cells = gated(compared, sizeMm, leastCorrelation, options);
  return {
    compared: cells.length,
    congruent: cells.filter(({ congruent }) => congruent).length,
    cells,
    leastCorrelation,
    sideMm,
  };
}

/** Least shift in cells, the mean of both directions, at which the relief correlates less than one half with itself. */
export function correlationCells({ width, height, z, mask }: HeightGrid): number {
  const along = (step: number, most: number): number => {
    for (let lag = 1; lag < most; lag++) if (!halfAlike(z, mask, lag * step)) return lag;
    return most;
  };
  return (along(1, width >> 2) + along(width, height >> 2)) / 2;
}

/** Whether cells `apart` places from one another correlate by more than one half. */
function halfAlike(z: Float32Array, mask: Uint8Array, apart: number): boolean {
  let both = 0;
  let one = 0;
  let two = 0;
  for (let i = 0, j = apart; j < z.length; i++, j++) {
    if (!(mask[i] && mask[j])) continue;
    both += z[i] * z[j];
    one += z[i] * z[i];
    two += z[j] * z[j];
  }
  return both > 0.5 * Math.sqrt(one * two);
}

/** Middles of discs on a triangular lattice, mm, that carry enough data. */
function tilePlaces(grid: HeightGrid, radius: number, leastData: number): (readonly [number, number])[] {
  const out: (readonly [number, number])[] = [];
  const across = 2 * radius + 1;
  for (let k = 0, row = radius; row < grid.height - radius; k++, row += Math.round(0.866 * across))
    for (let col = radius + (k % 2 ? radius : 0); col < grid.width - radius; col += across)
      if (dataShare(grid, col, row, radius) >= leastData) out.push([xOf(grid, col), yOf(grid, row)]);
  return out;
}

function dataShare({ width, mask }: HeightGrid, col: number, row: number, radius: number): number {
  let [all, there] = [0, 0];
  for (let dr = -radius; dr <= radius; dr++)
    for (let dc = -radius; dc <= radius; dc++) {
      if (dr * dr + dc * dc > radius * radius) continue;
      all++;
      there += mask[(row + dr) * width + col + dc];
    }
  return there / all;
}

function wrongPlace(
  a: HeightGrid,
  b: HeightGrid,
  [x, y]: readonly [number, number],
  [u, v]: readonly [number, number],
  base: PatchOptions,
): number[] {
  if (Math.hypot(u - x, v - y) < 3 * base.radius * a.pitch) return [];
  const offset = [Math.round((u - x) / a.pitch), -Math.round((v - y) / a.pitch)] as const;
  const placed = registerPatch(a, b, x, y, { ...base, offset });
  return placed ? [placed.correlation] : [];
}

function gated(
  found: readonly Patch[],
  sizeMm: number,
  leastCorrelation: number,
  options: typeof tileDefaults,
): Cell[] {
  const middle = (of: (patch: Patch) => number): number => median(found.map(of));
  const [dx, dy, turn] = [middle((p) => p.dx), middle((p) => p.dy), middle((p) => p.turnDeg)];
  const most = Math.max(Math.min(options.leastShiftMm, 0.02 * sizeMm), options.shiftShare * sizeMm);
  return found.map((p) => {
    const offsetMm = Math.hypot(p.dx - dx, p.dy - dy);
    const turnDeg = p.turnDeg - turn;
    const congruent =
      p.inside && p.correlation >= leastCorrelation && offsetMm <= most && Math.abs(turnDeg) <= options.turnDeg;
    return { x: p.x, y: p.y, dx: p.dx, dy: p.dy, turnDeg: p.turnDeg, correlation: p.correlation, offsetMm, congruent };
  });
}
