import { type HeightGrid, turnGrid } from '../../core/geometry/index.ts';
import { halved } from './reliefPicture.ts';

/** A small lit picture: RGBA bytes, premultiplied by nothing, transparent where there is no data. */
export interface Thumbnail {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8ClampedArray<ArrayBuffer>;
  /** What it was drawn from, as coarse as it: to be drawn again when the face is turned. */
  readonly relief: HeightGrid;
}

/** The same of the face turned by so many degrees, clockwise. */
export const turnedThumbnail = ({ relief }: Thumbnail, deg: number): Thumbnail => thumbnail(turnGrid(relief, deg));

/** The face under the default lamp (315°, 40° above the face), at most `side` cells a side. */
export function thumbnail(relief: HeightGrid, side = 180): Thumbnail {
  let grid = relief;
  while (Math.max(grid.width, grid.height) > 2 * side) grid = halved(grid);
  const { width, height, pitch, z, mask } = grid;
  const rgba = new Uint8ClampedArray(width * height * 4);
  const [lx, ly, lz] = [-0.5417, 0.5417, 0.6428];
  for (let row = 1; row < height - 1; row++)
    for (let col = 1; col < width - 1; col++) {
      const i = row * width + col;
      if (!mask[i]) continue;
      const p = mask[i - 1] && mask[i + 1] ? -(z[i + 1] - z[i - 1]) / (2 * pitch) : 0;
      const q = mask[i - width] && mask[i + width] ? -(z[i - width] - z[i + width]) / (2 * pitch) : 0;
      const lit = Math.max(0, (p * lx + q * ly + lz) / Math.hypot(p, q, 1));
      const shade = 0.28 + 0.72 * lit;
      rgba.set([214 * shade, 203 * shade, 184 * shade, 255], 4 * i);
    }
  return { width, height, rgba, relief: grid };
}
