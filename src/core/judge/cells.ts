import { type HeightGrid, median, xOf, yOf } from '../geometry/index.ts';
import { type Placed, registerWindow, shiftedCorrelation } from './registerWindow.ts';
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
  const reachMm = Math.max(options.reachMm, options.reachShare * sizeMm);
  // No further than half a cell: on objects smaller than a seal the reach in mm would be wider than the cells.
  const reach = Math.max(2, Math.min(side >> 1, Math.round(reachMm / reference.pitch)));
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

/** A registered cell and the fall-off of its correlation. */
interface Registered {
  readonly cell: Omit<Cell, 'congruent' | 'offsetMm'>;
  readonly falloff: Placed['falloff'];
}

function registerCell(
  reference: HeightGrid,
  subject: HeightGrid,
  { left, top }: Window,
  side: number,
  reach: number,
): Registered {
  const { dx, dy, correlation, falloff } = registerWindow(reference, subject, left, top, side, reach);
  const half = (side - 1) / 2;
  const { pitch } = reference;
  const [x, y] = [xOf(reference, left + half), yOf(reference, top + half)];
  return { cell: { x, y, dx: dx * pitch, dy: dy * pitch, turnDeg: 0, correlation }, falloff };
}

/**
 * Median correlation of another band, over the cells that agree at least as well as `placed`, each shifted to its
 * place. `a` and `b` lie on the same cells as the grids that the cells were registered on. NaN where there is none.
 */
export function bandInCells(
  a: HeightGrid,
  b: HeightGrid,
  cells: readonly Cell[],
  sizeMm: number,
  placed: number,
): number {
  const side = Math.max(6, Math.round(sizeMm / cellDefaults.across / a.pitch));
  const half = (side - 1) / 2;
  const values = cells
    .filter((cell) => cell.correlation >= placed)
    .map((cell) => {
      const left = Math.round((cell.x - a.left) / a.pitch - half);
      const top = Math.round((a.top - cell.y) / a.pitch - half);
      return shiftedCorrelation(a, b, left, top, side, Math.round(cell.dx / a.pitch), Math.round(-cell.dy / a.pitch));
    });
  return median(values.filter((value) => value > -1));
}

function gate(found: readonly Registered[], sizeMm: number, options: typeof cellDefaults): CongruentCells {
  const dx = median(found.map(({ cell }) => cell.dx));
  const dy = median(found.map(({ cell }) => cell.dy));
  const shift = Math.max(options.leastShiftMm, options.shiftShare * sizeMm);
  const cells = found.map(({ cell, falloff }): Cell => {
    const offsetMm = acrossRelief(cell.dx - dx, cell.dy - dy, falloff);
    const congruent =
      cell.correlation >= options.leastCorrelation && offsetMm <= shift && Math.abs(cell.turnDeg) <= options.turnDeg;
    return { ...cell, offsetMm, congruent };
  });
  return { compared: cells.length, congruent: cells.filter((cell) => cell.congruent).length, cells };
}

/**
 * Length of a shift as far as the cell can tell: √(dᵀ H d / λ), H the fall-off of its correlation and λ the greater
 * eigenvalue of H. A cell with one straight stroke is placed across it and not along it.
 */
function acrossRelief(dx: number, dy: number, [xx, xy, yy]: Registered['falloff']): number {
  const mean = (xx + yy) / 2;
  const greatest = mean + Math.hypot((xx - yy) / 2, xy);
  if (!(greatest > 0)) return Math.hypot(dx, dy);
  const squared = (xx * dx * dx + 2 * xy * dx * dy + yy * dy * dy) / greatest;
  return Math.sqrt(Math.max(0, squared));
}
