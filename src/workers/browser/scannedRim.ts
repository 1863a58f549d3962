import { type HeightGrid, xOf, yOf } from '../../core/geometry/index.ts';

const sectors = 180;

/**
 * The edge of the data as seen from its middle: for every 2° the farthest cell with data. x and y pairs, mm; a place
 * where the edge turns back on itself is drawn straight.
 */
export function scannedRim(grid: HeightGrid): Float32Array {
  const [cx, cy] = middle(grid);
  const farthest = new Float32Array(sectors);
  for (let row = 0; row < grid.height; row++)
    for (let col = 0; col < grid.width; col++) {
      if (!grid.mask[row * grid.width + col]) continue;
      const x = xOf(grid, col) - cx;
      const y = yOf(grid, row) - cy;
      const at = Math.floor(((Math.atan2(y, x) + Math.PI) / (2 * Math.PI)) * sectors) % sectors;
      farthest[at] = Math.max(farthest[at], x * x + y * y);
    }
  const rim: number[] = [];
  for (let i = 0; i < sectors; i++) {
    if (farthest[i] === 0) continue;
    const angle = ((i + 0.5) / sectors) * 2 * Math.PI - Math.PI;
    rim.push(cx + Math.sqrt(farthest[i]) * Math.cos(angle), cy + Math.sqrt(farthest[i]) * Math.sin(angle));
  }
  return Float32Array.from(rim);
}

function middle(grid: HeightGrid): [number, number] {
  let x = 0;
  let y = 0;
  let n = 0;
  for (let i = 0; i < grid.mask.length; i++)
    if (grid.mask[i]) {
      x += i % grid.width;
      y += Math.floor(i / grid.width);
      n++;
    }
  return n === 0 ? [0, 0] : [xOf(grid, x / n), yOf(grid, y / n)];
}
