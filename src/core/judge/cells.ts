import { type HeightGrid, median, xOf, yOf } from '../geometry/index.ts';
import type { Cell, CongruentCells } from './types.ts';

export const cellDefaults = {
  /** Cells across the longer side of the face. */
  across: 9,
  /** Greatest shift looked at, mm and as a share of the face's size: the larger counts. */
  reachMm: 0.5,
  reachShare: 0.015,
  /** A cell is compared when this share of it has data on both sides. */
  leastData: 0.55,
  /** … and when its relief is at least this share of the median cell's: empty field says nothing. */
  leastRelief: 0.35,
  /** Gates of congruence. Published gates are 15 to 20 pixels, 3 to 6°, 0.40 to 0.60 (R Journal 14(4), 2022). */
  leastCorrelation: 0.5,
  turnDeg: 6,
  /** Shift against the median, as a share of the size: here what the smooth warp may leave over. */
  shiftShare: 0.005,
  leastShiftMm: 0.12,
};

/**
 * Congruent matching cells (after Song 2013): the reference face is cut into square cells, each is registered alone on
 * the subject's aligned relief, and those whose shift and turn agree with the median over all cells are congruent.
 * Gates are inclusive. Both grids: same cells, band-passed, mm. `sizeMm`: the face's long side.
 */
export function congruentCells(
  reference: HeightGrid,
  subject: HeightGrid,
  sizeMm: number,
  options = cellDefaults,
): CongruentCells {
  const side = Math.max(6, Math.round(sizeMm / options.across / reference.pitch));
  const reach = Math.max(2, Math.round(Math.max(options.reachMm, options.reachShare * sizeMm) / reference.pitch));
  const windows: Window[] = [];
  for (let top = 0; top + side <= reference.height; top += side)
    for (let left = 0; left + side <= reference.width; left += side) {
      const window = cutWindow(reference, subject, left, top, side);
      if (window.share >= options.leastData) windows.push(window);
    }
  const least = options.leastRelief * median(windows.map((window) => window.relief));
  const found = windows
    .filter((window) => window.relief >= least)
    .map((window) => registerCell(reference, subject, window, side, reach));
  return gate(found, sizeMm, options);
}

interface Window {
  readonly left: number;
  readonly top: number;
  readonly share: number;
  readonly relief: number;
}

function cutWindow(reference: HeightGrid, subject: HeightGrid, left: number, top: number, side: number): Window {
  let [both, square] = [0, 0];
  for (let row = top; row < top + side; row++)
    for (let i = row * reference.width + left, end = i + side; i < end; i++) {
      if (!(reference.mask[i] && subject.mask[i])) continue;
      both++;
      square += reference.z[i] ** 2;
    }
  return { left, top, share: both / (side * side), relief: both > 0 ? Math.sqrt(square / both) : 0 };
}

function registerCell(
  reference: HeightGrid,
  subject: HeightGrid,
  { left, top }: Window,
  side: number,
  reach: number,
): Cell {
  const width = 2 * reach + 1;
  const score = new Float64Array(width * width).fill(-1);
  let best = 0;
  for (let dy = -reach; dy <= reach; dy++)
    for (let dx = -reach; dx <= reach; dx++) {
      const k = (dy + reach) * width + dx + reach;
      score[k] = shiftedCorrelation(reference, subject, left, top, side, dx, dy);
      if (score[k] > score[best]) best = k;
    }
  const col = best % width;
  const row = Math.floor(best / width);
  const dx = col - reach + vertex(score[best - 1], score[best], score[best + 1], col > 0 && col < width - 1);
  const dy = row - reach + vertex(score[best - width], score[best], score[best + width], row > 0 && row < width - 1);
  const half = (side - 1) / 2;
  return {
    x: xOf(reference, left + half),
    y: yOf(reference, top + half),
    dx: dx * reference.pitch,
    dy: -dy * reference.pitch,
    turnDeg: 0,
    correlation: score[best],
    congruent: false,
  };
}

/** Correlation of a cell with the subject shifted by whole cells; −1 where less than half of it has data. */
function shiftedCorrelation(
  a: HeightGrid,
  b: HeightGrid,
  left: number,
  top: number,
  side: number,
  dx: number,
  dy: number,
): number {
  let [n, sa, sb, saa, sab, sbb] = [0, 0, 0, 0, 0, 0];
  for (let row = top; row < top + side; row++) {
    const other = row + dy;
    if (other < 0 || other >= b.height) continue;
    for (let col = left; col < left + side; col++) {
      const there = col + dx;
      if (there < 0 || there >= b.width) continue;
      const i = row * a.width + col;
      const j = other * b.width + there;
      if (!(a.mask[i] && b.mask[j])) continue;
      const x = a.z[i];
      const y = b.z[j];
      n++;
      sa += x;
      sb += y;
      saa += x * x;
      sab += x * y;
      sbb += y * y;
    }
  }
  const vaa = saa - (sa * sa) / n;
  const vbb = sbb - (sb * sb) / n;
  if (2 * n < side * side || !(vaa > 0 && vbb > 0)) return -1;
  return (sab - (sa * sb) / n) / Math.sqrt(vaa * vbb);
}

/** Where the parabola through three neighbours has its top, −½ to ½. */
function vertex(before: number, at: number, after: number, inside: boolean): number {
  if (!inside) return 0;
  const curvature = before - 2 * at + after;
  return curvature < 0 ? Math.max(-0.5, Math.min(0.5, (before - after) / (2 * curvature))) : 0;
}

function gate(cells: readonly Cell[], sizeMm: number, options: typeof cellDefaults): CongruentCells {
  const dx = median(cells.map((cell) => cell.dx));
  const dy = median(cells.map((cell) => cell.dy));
  const shift = Math.max(options.leastShiftMm, options.shiftShare * sizeMm);
  const gated = cells.map((cell) => ({
    ...cell,
    congruent:
      cell.correlation >= options.leastCorrelation &&
      Math.abs(cell.dx - dx) <= shift &&
      Math.abs(cell.dy - dy) <= shift &&
      Math.abs(cell.turnDeg) <= options.turnDeg,
  }));
  return { compared: gated.length, congruent: gated.filter((cell) => cell.congruent).length, cells: gated };
}
