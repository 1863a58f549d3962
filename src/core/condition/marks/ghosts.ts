import {
  type GhostAgreements,
  type GhostCells,
  type GhostHeight,
  type GhostWay,
  ghostAgreements,
} from '../../../kernels/index.ts';
import type { HeightGrid } from '../../geometry/index.ts';

export type { GhostCells, GhostHeight, GhostWay };

/** For ghosts that are asked some hundred times; by a compiled kernel where the engine lets it run, which gives the same numbers as `agreementsPlainly`. */
export const agreementsOf = (relief: HeightGrid, cells: GhostCells, height: GhostHeight): GhostAgreements =>
  ghostAgreements(relief, cells, height) ?? agreementsPlainly(relief, cells, height);

export function agreementsPlainly(relief: HeightGrid, cells: GhostCells, height: GhostHeight): GhostAgreements {
  return (way, every) => {
    const ghost = ghostOver(relief, cells, way, height, every);
    let [ep, ee, pp] = [0, 1e-9, 1e-9];
    for (let k = 0; k < ghost.length; k += every) {
      const e = cells.excess[k];
      const p = ghost[k];
      ep += e * p;
      ee += e * e;
      pp += p * p;
    }
    return ep / Math.sqrt(ee * pp);
  };
}

/** Heights of the ghost over the relief at every so-manyth cell, mm; 0 where the relief hides it, and at the cells between. */
export function ghostOver(
  { width, height, pitch, left, top, z, mask }: HeightGrid,
  cells: GhostCells,
  { dx, dy, turnDeg }: GhostWay,
  { weaker, clear }: GhostHeight,
  every = 1,
): Float64Array {
  const cos = Math.cos((turnDeg * Math.PI) / 180);
  const sin = Math.sin((turnDeg * Math.PI) / 180);
  const over = new Float64Array(cells.x.length);
  for (let k = 0; k < over.length; k += every) {
    const x = cells.x[k] - dx;
    const y = cells.y[k] - dy;
    const col = Math.round((cos * x + sin * y - left) / pitch);
    const row = Math.round((top - (cos * y - sin * x)) / pitch);
    if (col < 0 || row < 0 || col >= width || row >= height || !mask[row * width + col]) continue;
    over[k] = Math.max(0, weaker * z[row * width + col] - cells.height[k] - clear);
  }
  return over;
}
