import type { Cell, CongruentCells } from '../../../core/judge/index.ts';
import type { Picture } from '../../scene/Painter.tsx';
import { toPixels } from '../project.ts';
import { circleWay, Veil } from './Veil.tsx';

/** Congruent cells are lit; one that is not stays in the dark, with a sign that says why. */
export function Cells({ picture, flip, cells }: { picture: Picture; flip: 1 | -1; cells: CongruentCells }) {
  const radius = (sideOf(cells) / 2) * picture.projection.pxPerMm * 0.96;
  const at = ({ x, y }: Cell) => toPixels(picture.projection, picture.mirror ? -flip * x : flip * x, y);
  const lit = cells.cells.filter(({ congruent }) => congruent).map((cell) => circleWay(...at(cell), radius));
  return (
    <g className="ground-cells">
      <Veil picture={picture} lit={lit.join('')} />
      {cells.cells
        .filter(({ congruent }) => !congruent)
        .map((cell) => {
          const [x, y] = at(cell);
          const unlike = cell.correlation < (cells.leastCorrelation ?? 0.5);
          return (
            <g
              key={`${cell.x} ${cell.y}`}
              className="cell-apart"
              transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`}
            >
              <title>{unlike ? 'looks too different' : `lies ${Math.round(1000 * cell.offsetMm)} µm off`}</title>
              <circle r={radius} />
              {unlike ? <path d="M-6 -3q3 -5 6 0t6 0M-6 4q3 -5 6 0t6 0" /> : <path d="M-7 0H6M2 -4L6 0L2 4" />}
            </g>
          );
        })}
    </g>
  );
}

/** Side of a cell: as measured, else the least distance between two. */
function sideOf({ sideMm, cells }: CongruentCells): number {
  if (sideMm) return sideMm;
  let least = 4;
  for (const a of cells) for (const b of cells) if (a !== b) least = Math.min(least, Math.hypot(a.x - b.x, a.y - b.y));
  return least;
}
