import { type HeightGrid, median, quantile } from '../../../geometry/index.ts';
import type { StraightLine } from './houghLines.ts';

/** What stands at one step of a walk along a line. */
export type Step = 'stands' | 'hidden' | 'absent' | 'unknown';

/** How high a line usually stands over its sides and over the ground, mm. */
export interface UsualCrest {
  readonly crestMm: number;
  /** The same with the cells where nothing stands: what the way is drawn by. */
  readonly drawnByMm: number;
  readonly heightMm: number;
}

/** The part of a line along which nothing contradicts that it runs through the design unbroken. */
export interface WalkedLine {
  /** Cells of its crest in order, where it stands. */
  readonly cells: readonly number[];
  readonly lengthMm: number;
  /** Lengths of it, mm: where it stands, where the design is higher and hides it, and where the ground is bare. */
  readonly standsMm: number;
  readonly hiddenMm: number;
  readonly absentMm: number;
  /** Median height of its crest over both sides, least of the grids, mm. */
  readonly crestMm: number;
  /** How far a quarter of its crest lies below the median, over that: letters that it crosses raise it and do not lower it. */
  readonly sinks: number;
  /** All cells of its way from end to end. */
  readonly way: readonly number[];
  /** The straight line that it was followed along, in cells (houghLines.ts), and how high it stood there. */
  readonly line: Pick<StraightLine, 'angle' | 'rho'>;
  readonly usual: UsualCrest;
}

export const walkDefaults = {
  /** Distances of the sides that a crest must stand over, mm; at least two cells. */
  besideMm: [0.35, 0.75],
  /** How far aside of the straight line it may wander, mm, and what a cell aside costs per step. */
  asideMm: 0.6,
  turn: 0.3,
  /** It stands where it has this share of its usual crest, and is hidden where the design is this share of its height. */
  standing: 0.3,
  hiding: 0.8,
  leastMm: 0.02,
  /** What a step of bare ground takes off for each step that stands. */
  bare: 3,
};

/**
 * Follows a line through the design. A cut or crack of the matrix stands on bare ground wherever it runs, and is missing
 * only where the design stands higher; strokes of the design that happen to lie in one line leave bare ground between
 * them. The way aside of the straight line is the one along which most stands (Viterbi's recursion); of it the part with
 * the greatest Σ (stands − `bare` · absent) is kept. `grids`: faces that carry it, all of which must show it;
 * `heights`: their height over the ground, mm; `sound`: cells where bare ground would tell. Null where nothing stands.
 */
export function walkLine(
  grids: readonly HeightGrid[],
  heights: readonly Float32Array[],
  line: StraightLine,
  sound: (cell: number) => boolean = () => true,
  options = walkDefaults,
): WalkedLine | null {
  const crest = (i: number): number => crestAt(grids, i, line.angle, options);
  const usual = usualCrest(grids, heights, line, options);
  if (!usual) return null;
  const { way, steps } = stepsAlong(grids, heights, line, usual, sound, options);
  if (way.length === 0) return null;
  const [from, to] = bestPart(steps, options.bare);
  const kept = way.slice(from, to);
  const stepMm = grids[0].pitch;
  const count = (what: Step): number => steps.slice(from, to).filter((step) => step === what).length * stepMm;
  const cells = kept.filter((_, k) => steps[from + k] === 'stands');
  if (cells.length < 3) return null;
  const crests = cells.map(crest);
  return {
    cells,
    way: kept,
    line,
    usual,
    lengthMm: kept.length * stepMm,
    standsMm: count('stands'),
    hiddenMm: count('hidden'),
    absentMm: count('absent'),
    crestMm: median(crests),
    sinks: 1 - quantile(crests, 0.25) / median(crests),
  };
}

/** Of the cells that a line was laid through; null where hardly any stands. */
export function usualCrest(
  grids: readonly HeightGrid[],
  heights: readonly Float32Array[],
  { cells, angle }: StraightLine,
  options = walkDefaults,
): UsualCrest | null {
  const crests = cells.map((i) => Math.max(0, crestAt(grids, i, angle, options)));
  const standing = crests.filter((value) => value > 0);
  if (standing.length < 3) return null;
  return {
    crestMm: median(standing),
    drawnByMm: median(crests) || 1,
    heightMm: median(cells.map((i) => Math.min(...heights.map((h) => h[i])))),
  };
}

/** The best way along a straight line from edge to edge of the grid, and what stands at each step of it. */
export function stepsAlong(
  grids: readonly HeightGrid[],
  heights: readonly Float32Array[],
  { angle, rho }: Omit<StraightLine, 'cells'>,
  usual: UsualCrest,
  sound: (cell: number) => boolean,
  options = walkDefaults,
): { way: number[]; steps: Step[] } {
  const way = bestWay(grids, { angle, rho }, usual.drawnByMm, options);
  const least = Math.max(options.leastMm, options.standing * usual.crestMm);
  const steps = way.map((i): Step => {
    if (!grids.every(({ mask }) => mask[i])) return 'unknown';
    if (crestAt(grids, i, angle, options) > least) return 'stands';
    if (heights.every((h) => h[i] > options.hiding * usual.heightMm)) return 'hidden';
    return sound(i) ? 'absent' : 'unknown';
  });
  return { way, steps };
}

/** Rounds in which a line is laid anew through what stands on it. */
const refits = 3;

/**
 * `walkLine`, and again along the straight line through what was found to stand (total least squares), as long as more stands: a
 * degree of Hough's angles is 0.6 mm at the end of a line of 35 mm, and the far end of a long cut would be walked past.
 */
export function walkRefitted(
  grids: readonly HeightGrid[],
  heights: readonly Float32Array[],
  line: StraightLine,
  sound?: (cell: number) => boolean,
  options = walkDefaults,
): WalkedLine | null {
  let best = walkLine(grids, heights, line, sound, options);
  for (let round = 0; best && round < refits; round++) {
    const next = walkLine(grids, heights, lineThrough(best.cells, grids[0].width), sound, options);
    if (!next || next.standsMm <= best.standsMm) break;
    best = next;
  }
  return best;
}

/** The straight line with the least Σ of squared distances from the cells. */
function lineThrough(cells: readonly number[], width: number): StraightLine {
  let [x, y, xx, xy, yy] = [0, 0, 0, 0, 0];
  for (const i of cells) {
    const [col, row] = [i % width, Math.floor(i / width)];
    x += col / cells.length;
    y += row / cells.length;
  }
  for (const i of cells) {
    const [dx, dy] = [(i % width) - x, Math.floor(i / width) - y];
    xx += dx * dx;
    xy += dx * dy;
    yy += dy * dy;
  }
  // Rows run downward, angles counter-clockwise.
  const along = -0.5 * Math.atan2(2 * xy, xx - yy);
  const angle = along < 0 ? along + Math.PI : along;
  return { angle, rho: x * Math.sin(angle) + y * Math.cos(angle), cells };
}

/** Height over the higher of both sides, the least of the grids and the best of the distances; −1 without data. */
function crestAt(grids: readonly HeightGrid[], i: number, angle: number, options: typeof walkDefaults): number {
  const { width, pitch } = grids[0];
  let best = -1;
  for (const aside of options.besideMm) {
    const beside = Math.max(2, aside / pitch);
    const step = Math.round(Math.cos(angle) * beside) * width + Math.round(Math.sin(angle) * beside);
    let least = Number.POSITIVE_INFINITY;
    for (const { z, mask } of grids) {
      if (!(mask[i] && mask[i + step] && mask[i - step])) least = -1;
      else least = Math.min(least, z[i] - Math.max(z[i + step], z[i - step]));
    }
    best = Math.max(best, least);
  }
  return best;
}

/** One cell per pitch along the line from edge to edge of the grid, aside by what makes the sum of crests greatest. */
function bestWay(
  grids: readonly HeightGrid[],
  line: Omit<StraightLine, 'cells'>,
  usual: number,
  options: typeof walkDefaults,
): number[] {
  const { width, height, pitch } = grids[0];
  const aside = Math.max(1, Math.round(options.asideMm / pitch));
  const [c, s] = [Math.cos(line.angle), Math.sin(line.angle)];
  const reach = Math.ceil(Math.hypot(width, height));
  const cellAt = (t: number, a: number): number => {
    const col = Math.round((line.rho + a) * s + t * c);
    const row = Math.round((line.rho + a) * c - t * s);
    return col < 3 || row < 3 || col >= width - 3 || row >= height - 3 ? -1 : row * width + col;
  };
  const along: number[] = [];
  for (let t = -reach; t <= reach; t++) if (cellAt(t, 0) >= 0) along.push(t);
  const lanes = 2 * aside + 1;
  let score = new Float64Array(lanes);
  const back = new Int8Array(along.length * lanes);
  along.forEach((t, k) => {
    const next = new Float64Array(lanes);
    for (let a = 0; a < lanes; a++) {
      let from = a;
      for (const b of [a - 1, a + 1])
        if (b >= 0 && b < lanes && score[b] - options.turn > score[from] - (from === a ? 0 : options.turn)) from = b;
      back[k * lanes + a] = from;
      const i = cellAt(t, a - aside);
      const crest = i < 0 ? 0 : crestAt(grids, i, line.angle, options);
      next[a] = score[from] - (from === a ? 0 : options.turn) + Math.max(0, Math.min(1, crest / usual));
    }
    score = next;
  });
  let lane = score.indexOf(Math.max(...score));
  const way: number[] = new Array(along.length);
  for (let k = along.length - 1; k >= 0; k--) {
    way[k] = cellAt(along[k], lane - aside);
    lane = back[k * lanes + lane];
  }
  return way.filter((i) => i >= 0);
}

/** From and to of the run of steps with the greatest Σ (stands − bare · absent) (Kadane's scan). */
function bestPart(steps: readonly Step[], bare: number): [number, number] {
  let [sum, start] = [0, 0];
  const best = { sum: 0, from: 0, to: 0 };
  steps.forEach((step, k) => {
    if (sum <= 0) {
      sum = 0;
      start = k;
    }
    sum += step === 'stands' ? 1 : step === 'absent' ? -bare : 0;
    if (sum > best.sum && step === 'stands') {
      best.sum = sum;
      best.from = start;
      best.to = k + 1;
    }
  });
  return [best.from, best.to];
}
