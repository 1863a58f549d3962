import type { HeightGrid } from '../../../geometry/index.ts';

/** A straight line x·nx + y·ny = ρ in cells (columns to the right, rows downward), and the crests that lie on it. */
export interface StraightLine {
  /** Angle of the line in radians, counter-clockwise from the columns' direction; rows run downward. */
  readonly angle: number;
  readonly rho: number;
  readonly cells: readonly number[];
}

export const houghDefaults = {
  /** Angles in half a turn, and how far a crest's own direction may be off the line's, degrees. */
  angles: 180,
  offDeg: 14,
  /** Half the width of the strip whose crests count as on the line, mm. */
  asideMm: 0.45,
  mostLines: 40,
};

/**
 * Straight lines that most crests lie on, the strongest first, each crest on one line alone: votes for (angle, ρ) near each
 * crest's own direction (Hough's transform in Duda and Hart's form, Comm. ACM 15 (1972) 11), the best strip taken, its crests
 * removed, again. Stops when a strip holds fewer than `leastCrests`.
 */
export function houghLines(
  { width, height, pitch }: HeightGrid,
  crests: readonly number[],
  angleOf: (cell: number) => number,
  leastCrests: number,
  options = houghDefaults,
): StraightLine[] {
  const reach = Math.ceil(Math.hypot(width, height));
  const votes = new Int32Array(options.angles * (2 * reach + 1));
  const off = Math.round((options.offDeg / 180) * options.angles);
  const table = anglesTable(options.angles);
  const rhoOf = (cell: number, k: number): number =>
    (cell % width) * table.sin[k] + Math.floor(cell / width) * table.cos[k];
  const own = (cell: number): number => Math.round((angleOf(cell) / Math.PI) * options.angles);
  const vote = (cell: number, by: 1 | -1): void => {
    const mine = own(cell);
    for (let d = -off; d <= off; d++) {
      const k = (mine + d + 2 * options.angles) % options.angles;
      votes[k * (2 * reach + 1) + Math.round(rhoOf(cell, k)) + reach] += by;
      strips.counted[k] = 0;
    }
  };
  const half = options.asideMm / pitch;
  const strips: Strips = {
    votes,
    rhos: 2 * reach + 1,
    half: Math.max(1, Math.round(half)),
    counted: new Uint8Array(options.angles),
    most: new Int32Array(options.angles),
    mostAt: new Int32Array(options.angles),
  };
  const left = new Set(crests);
  for (const cell of left) vote(cell, 1);
  const lines: StraightLine[] = [];
  while (lines.length < options.mostLines) {
    const best = fullestStrip(strips);
    if (best.count < leastCrests) break;
    const rho = best.at - reach;
    const apart = (cell: number): number => {
      const d = Math.abs(own(cell) - best.angle) % options.angles;
      return Math.min(d, options.angles - d);
    };
    const cells = [...left].filter(
      (cell) => Math.abs(rhoOf(cell, best.angle) - rho) <= half + 0.5 && apart(cell) <= off,
    );
    if (cells.length < leastCrests) break;
    lines.push({ angle: (best.angle * Math.PI) / options.angles, rho, cells });
    for (const cell of cells) {
      left.delete(cell);
      vote(cell, -1);
    }
  }
  return lines;
}

/** The normal of a line at angle a, rows downward, is (sin a, cos a). */
function anglesTable(count: number) {
  const angle = (_: unknown, k: number): number => (k * Math.PI) / count;
  const list = Array.from({ length: count }, angle);
  return { sin: Float64Array.from(list, Math.sin), cos: Float64Array.from(list, Math.cos) };
}

/** Votes of each angle and ρ, and what is known of each angle's fullest strip of `2 half + 1` neighbouring ρ. */
interface Strips {
  readonly votes: Int32Array;
  readonly rhos: number;
  readonly half: number;
  /** 0 for an angle whose votes have changed since. */
  readonly counted: Uint8Array;
  /** Votes of its fullest strip, and that strip's last ρ. */
  readonly most: Int32Array;
  readonly mostAt: Int32Array;
}

/** The angle and the middle of the strip that holds most votes; a line that goes takes its votes from some of the angles alone. */
function fullestStrip(strips: Strips) {
  const { counted, most, mostAt, half } = strips;
  const best = { angle: 0, at: 0, count: 0 };
  for (let k = 0; k < counted.length; k++) {
    if (!counted[k]) countAngle(strips, k);
    if (most[k] <= best.count) continue;
    best.count = most[k];
    best.angle = k;
    best.at = mostAt[k] - half;
  }
  return best;
}

function countAngle({ votes, rhos, half, counted, most, mostAt }: Strips, k: number): void {
  const row = k * rhos;
  const back = 2 * half + 1;
  let sum = 0;
  let fullest = 0;
  let at = 0;
  for (let i = 0; i < rhos; i++) {
    sum += votes[row + i];
    if (i >= back) sum -= votes[row + i - back];
    if (sum > fullest) {
      fullest = sum;
      at = i;
    }
  }
  counted[k] = 1;
  most[k] = fullest;
  mostAt[k] = at;
}
