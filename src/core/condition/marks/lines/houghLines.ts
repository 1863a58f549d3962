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
  const { angles } = options;
  const reach = Math.ceil(Math.hypot(width, height));
  const half = options.asideMm / pitch;
  const off = Math.round((options.offDeg / 180) * angles);
  const laid = layCrests(crests, width, (cell) => Math.round((angleOf(cell) / Math.PI) * angles), angles);
  const strips = emptyStrips(angles, reach, Math.max(1, Math.round(half)));
  for (let n = 0; n < crests.length; n++) vote(laid, n, 1, off, strips);
  const lines: StraightLine[] = [];
  while (lines.length < options.mostLines) {
    const best = fullestStrip(strips);
    if (best.count < leastCrests) break;
    const rho = best.at - reach;
    const on = crestsOn(laid, best.angle, rho, half + 0.5, off);
    if (on.length < leastCrests) break;
    lines.push({ angle: (best.angle * Math.PI) / angles, rho, cells: on.map((n) => crests[n]) });
    for (const n of on) {
      laid.left[n] = 0;
      vote(laid, n, -1, off, strips);
    }
  }
  return lines;
}

/** Crests in columns, and the normals of lines at each angle a, rows downward: (sin a, cos a). */
interface Crests {
  readonly column: Int32Array;
  readonly row: Int32Array;
  /** Number of its own angle. */
  readonly own: Int32Array;
  /** 0 once it is on a line. */
  readonly left: Uint8Array;
  readonly sin: Float64Array;
  readonly cos: Float64Array;
}

function layCrests(crests: readonly number[], width: number, ownOf: (cell: number) => number, angles: number): Crests {
  const list = Array.from({ length: angles }, (_, k) => (k * Math.PI) / angles);
  return {
    column: Int32Array.from(crests, (cell) => cell % width),
    row: Int32Array.from(crests, (cell) => Math.floor(cell / width)),
    own: Int32Array.from(crests, ownOf),
    left: new Uint8Array(crests.length).fill(1),
    sin: Float64Array.from(list, Math.sin),
    cos: Float64Array.from(list, Math.cos),
  };
}

const rhoOf = ({ column, row, sin, cos }: Crests, n: number, k: number): number => column[n] * sin[k] + row[n] * cos[k];

/** Gives or takes the votes of crest n for the angles near its own. */
function vote(crests: Crests, n: number, by: 1 | -1, off: number, { votes, rhos, counted }: Strips): void {
  const angles = counted.length;
  for (let d = -off; d <= off; d++) {
    const k = (crests.own[n] + d + 2 * angles) % angles;
    votes[k * rhos + Math.round(rhoOf(crests, n, k)) + (rhos >> 1)] += by;
    counted[k] = 0;
  }
}

/** Numbers of the crests that are left within `aside` cells of a line and turned as it is. */
function crestsOn(crests: Crests, angle: number, rho: number, aside: number, off: number): number[] {
  const { own, left, sin } = crests;
  const on: number[] = [];
  for (let n = 0; n < left.length; n++) {
    if (!left[n] || Math.abs(rhoOf(crests, n, angle) - rho) > aside) continue;
    const d = Math.abs(own[n] - angle) % sin.length;
    if (Math.min(d, sin.length - d) <= off) on.push(n);
  }
  return on;
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

const emptyStrips = (angles: number, reach: number, half: number): Strips => ({
  votes: new Int32Array(angles * (2 * reach + 1)),
  rhos: 2 * reach + 1,
  half,
  counted: new Uint8Array(angles),
  most: new Int32Array(angles),
  mostAt: new Int32Array(angles),
});

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
