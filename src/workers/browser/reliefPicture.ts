import { type HeightGrid, withHeights } from '../../core/geometry/index.ts';
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
  /** Two bytes a cell: 255 where `cells` holds a value (one cell beyond the data), and a soft edge, 128 on the data's own. */
  readonly mask: Uint8Array;
}

/** Textures larger than this on a side are halved: the size every WebGL2 card is sure to take is 2048, most take 8192. */
export const largestSide = 4096;

/** Slopes by central differences over the neighbours that carry data, one-sided at edges. */
export function reliefPicture(relief: HeightGrid): ReliefPicture {
  let small = relief;
  while (Math.max(small.width, small.height) > largestSide) small = halved(small);
  const grid = grownGrid(small);
  const { width, height, pitch, z, mask } = grid;
  const sky = skyTerm(grid);
  const edge = softEdge(small);
  const cells = new Uint16Array(width * height * 4);
  const alpha = new Uint8Array(width * height * 2);
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
      alpha[2 * i] = 255;
      alpha[2 * i + 1] = edge[i];
    }
  return { width, height, pitch, left: grid.left, top: grid.top, cells, mask: alpha };
}

/** Share of cells with data among the 3 × 3 round each, twice: an edge without steps. Bytes. */
function softEdge({ width, height, mask }: HeightGrid): Uint8Array {
  let now: Float32Array = Float32Array.from(mask);
  for (let pass = 0; pass < 2; pass++) now = along(along(now, width, height, 1, width), height, width, width, 1);
  return Uint8Array.from(now, (share) => Math.round(share * 255));
}

/** Mean of three neighbours along one direction. */
function along(values: Float32Array, length: number, lines: number, step: number, stride: number): Float32Array {
  const out = new Float32Array(values.length);
  for (let line = 0; line < lines; line++)
    for (let k = 0; k < length; k++) {
      const i = line * stride + k * step;
      out[i] = (values[i] + (k > 0 ? values[i - step] : 0) + (k < length - 1 ? values[i + step] : 0)) / 3;
    }
  return out;
}

/** The mask grown by one cell all round; a new cell takes the mean height of its neighbours with data. */
export function grownGrid(grid: HeightGrid): HeightGrid {
  const { width, height } = grid;
  const z = grid.z.slice();
  const mask = grid.mask.slice();
  for (let row = 0; row < height; row++)
    for (let col = 0; col < width; col++) {
      const i = row * width + col;
      if (grid.mask[i]) continue;
      let sum = 0;
      let n = 0;
      for (let r = Math.max(0, row - 1); r <= Math.min(height - 1, row + 1); r++)
        for (let c = Math.max(0, col - 1); c <= Math.min(width - 1, col + 1); c++)
          if (grid.mask[r * width + c]) {
            sum += grid.z[r * width + c];
            n++;
          }
      if (n === 0) continue;
      z[i] = sum / n;
      mask[i] = 1;
    }
  return withHeights(grid, z, mask);
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
