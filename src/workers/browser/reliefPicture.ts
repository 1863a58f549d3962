import type { HeightGrid } from '../../core/geometry/index.ts';
import { halfBits } from './halfFloat.ts';
import { skyTerm } from './skyTerm.ts';

/** The stored normal picture of a face: what the light is computed from, at the relief map's own resolution. */
export interface ReliefPicture {
  readonly width: number;
  readonly height: number;
  readonly pitch: number;
  readonly left: number;
  readonly top: number;
  /** Half floats, four a cell: −∂z/∂x, −∂z/∂y, how open the place is to the sky (0 to 1), height mm. */
  readonly cells: Uint16Array;
  /** 255 where there is data. */
  readonly mask: Uint8Array;
}

/** Textures larger than this on a side are halved: the size every WebGL2 card is sure to take is 2048, most take 8192. */
export const largestSide = 4096;

/** Slopes by central differences over the neighbours that carry data, one-sided at edges. */
export function reliefPicture(relief: HeightGrid): ReliefPicture {
  let grid = relief;
  while (Math.max(grid.width, grid.height) > largestSide) grid = halved(grid);
  const { width, height, pitch, z, mask } = grid;
  const sky = skyTerm(grid);
  const cells = new Uint16Array(width * height * 4);
  const alpha = new Uint8Array(width * height);
  for (let row = 0; row < height; row++)
    for (let col = 0; col < width; col++) {
      const i = row * width + col;
      if (!mask[i]) continue;
      const west = col > 0 && mask[i - 1] ? i - 1 : i;
      const east = col < width - 1 && mask[i + 1] ? i + 1 : i;
      const north = row > 0 && mask[i - width] ? i - width : i;
      const south = row < height - 1 && mask[i + width] ? i + width : i;
      cells[4 * i] = halfBits(-(z[east] - z[west]) / Math.max(pitch, (east - west) * pitch));
      cells[4 * i + 1] = halfBits(-(z[north] - z[south]) / Math.max(pitch, ((south - north) / width) * pitch));
      cells[4 * i + 2] = halfBits(sky[i]);
      cells[4 * i + 3] = halfBits(z[i]);
      alpha[i] = 255;
    }
  return { width, height, pitch, left: grid.left, top: grid.top, cells, mask: alpha };
}

/** Every 2 × 2 cells as one: the mean of those with data. */
export function halved(grid: HeightGrid): HeightGrid {
  const width = Math.floor(grid.width / 2);
  const height = Math.floor(grid.height / 2);
  const z = new Float32Array(width * height);
  const mask = new Uint8Array(width * height);
  for (let row = 0; row < height; row++)
    for (let col = 0; col < width; col++) {
      const i = 2 * row * grid.width + 2 * col;
      let sum = 0;
      let n = 0;
      for (const j of [i, i + 1, i + grid.width, i + grid.width + 1])
        if (grid.mask[j]) {
          sum += grid.z[j];
          n++;
        }
      if (n === 0) continue;
      z[row * width + col] = sum / n;
      mask[row * width + col] = 1;
    }
  const { pitch } = grid;
  return { width, height, pitch: 2 * pitch, left: grid.left + pitch / 2, top: grid.top - pitch / 2, z, mask };
}
