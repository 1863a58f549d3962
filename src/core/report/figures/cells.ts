import { apply, quantile } from '../../geometry/index.ts';
import type { Cell, CongruentCells } from '../../judge/index.ts';
import { type DrawnMark, line, words } from '../drawing/index.ts';
import { type Figure, numeralMm } from './figure.ts';
import { lampPhrase, onRelief } from './lit.ts';
import type { Plates } from './plates.ts';
import { barLength, scaleBar } from './scaleBar.ts';

const pageWidth = 350;
const tallest = 420;
const { ink, halo, stroke } = onRelief;
/** Shifts are drawn longer than they are by one of these, so that they can be seen. */
const stretches = [1, 2, 5, 10, 20, 50, 100];

/** Where on the face the detail of both agrees in place and turn, cell by cell. */
export function cellsFigure(cells: CongruentCells, plates: Plates): Figure {
  const { width, height, pitch, left, top } = plates.ground.grid;
  const perCell = Math.min(pageWidth / width, tallest / height);
  const perMm = perCell / pitch;
  const start = (pageWidth - width * perCell) / 2;
  const side = cellSide(cells.cells);
  const times = stretchOf(cells.cells, side);
  const place = (x: number, y: number): [number, number] => {
    const [px, py] = apply(plates.plateFromReference, [x, y, 0]);
    return [start + (px - left + pitch / 2) * perMm, (top + pitch / 2 - py) * perMm];
  };
  const picture = { width: width * perCell, height: height * perCell };
  const marks: DrawnMark[] = [
    { kind: 'picture', x: start, y: 0, ...picture, picture: plates.ground.picture },
    ...cells.cells.flatMap((cell) => cellMarks(cell, place, side, times)),
    ...scaleBar(pageWidth / 2, picture.height + 9, perMm, barLength(width * pitch)),
    words(pageWidth / 2, picture.height + 33, `shifts drawn × ${times}`, 10, 'soft', { align: 'middle' }),
  ];
  const drawing = {
    width: pageWidth,
    height: picture.height + 39,
    title: `${cells.congruent} of ${cells.compared} cells congruent, on the relief of the reference`,
    marks,
  };
  const caption = `Cells of ${numeralMm(side)} on the relief of the reference, in the impression’s sense, ${lampPhrase}. Open square: congruent, the subject’s detail correlates with the reference’s and lies in the place and turn that the whole face gives. Crossed: compared and not congruent. Strokes from the middle: shift of the subject’s detail after the smooth warp, drawn × ${times}; the scale bar is for the relief. ${cells.congruent} of ${cells.compared} cells are congruent.`;
  return { id: 'cells', drawing, heading: 'Congruent cells', caption };
}

/** Least distance between the centres of two cells, mm. */
function cellSide(cells: readonly Cell[]): number {
  let least = Infinity;
  const [first] = cells;
  for (const cell of cells) {
    const apart = Math.hypot(cell.x - first.x, cell.y - first.y);
    if (apart > 0) least = Math.min(least, apart);
  }
  return Number.isFinite(least) ? least : 1;
}

/** The greatest stretch at which nine in ten congruent cells keep their stroke inside themselves. */
function stretchOf(cells: readonly Cell[], side: number): number {
  const shifts = cells.filter((cell) => cell.congruent).map((cell) => Math.hypot(cell.dx, cell.dy));
  const most = quantile(shifts, 0.9);
  return [...stretches].reverse().find((times) => times * most <= 0.4 * side) ?? 1;
}

type Place = (x: number, y: number) => [number, number];

function cellMarks(cell: Cell, place: Place, sideMm: number, times: number): DrawnMark[] {
  const [x, y] = place(cell.x, cell.y);
  const [tx, ty] = place(cell.x + times * cell.dx, cell.y + times * cell.dy);
  const half = 0.46 * sideMm;
  const corner = (right: number, up: number) => place(cell.x + right * half, cell.y + up * half);
  const corners = [...corner(-1, 1), ...corner(1, 1), ...corner(1, -1), ...corner(-1, -1)];
  if (!cell.congruent)
    return [
      { kind: 'area', points: corners, tone: ink, opacity: 0.32 },
      line([...corner(-1, 1), ...corner(1, -1)], halo, 0.9),
      line([...corner(-1, -1), ...corner(1, 1)], halo, 0.9),
    ];
  return [
    line(corners, ink, 0.8, { closed: true }),
    line([x, y, tx, ty], halo, 2.6),
    line([x, y, tx, ty], stroke, 1.4),
  ];
}
