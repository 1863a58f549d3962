import {
  columnOf,
  type HeightGrid,
  type Mesh,
  removeForm,
  rowOf,
  type Similarity,
  withHeights,
  xOf,
  yOf,
} from '../geometry/index.ts';
import { heightsSeen } from './raster.ts';
import type { Face } from './types.ts';

export const fineDefaults = {
  /** Cells across the face's long side: those that places are measured on. */
  across: 240,
};

/**
 * The image of a coarse scan read from its triangles once more, in cells of a 240th of the face. The relief map's cells are as wide as the triangles' sides;
 * sampled between them as another face's cells want it, its strokes lose height and stand where the cells fell, by as much as a careful copyist is off.
 * Undefined where the map is as fine already. docs/judge.md.
 */
export function fineImage(
  mesh: Mesh,
  faceFromScan: Similarity,
  image: HeightGrid,
  sizeMm: number,
  { across } = fineDefaults,
): HeightGrid | undefined {
  const pitch = sizeMm / across;
  if (image.pitch <= pitch) return undefined;
  const window = {
    xMin: image.left,
    xMax: xOf(image, image.width - 1),
    yMin: yOf(image, image.height - 1),
    yMax: image.top,
    pitch,
  };
  return within(
    heightsSeen(mesh, faceFromScan, () => window),
    image,
  );
}

/** The image as finely as it was read. */
export const finest = ({ image, fine }: Pick<Face, 'image' | 'fine'>): HeightGrid => fine ?? image;

/** The cells of a finer grid whose nearest cell of the image has data, the form taken off anew. */
export function within(fine: HeightGrid, image: HeightGrid): HeightGrid {
  const mask = new Uint8Array(fine.mask.length);
  const columns = Int32Array.from({ length: fine.width }, (_, c) => Math.round(columnOf(image, xOf(fine, c))));
  for (let r = 0, i = 0; r < fine.height; r++) {
    const row = Math.round(rowOf(image, yOf(fine, r)));
    const there = row >= 0 && row < image.height;
    for (let c = 0; c < fine.width; c++, i++) {
      const column = columns[c];
      if (there && column >= 0 && column < image.width) mask[i] = fine.mask[i] & image.mask[row * image.width + column];
    }
  }
  const z = fine.z.map((value, i) => (mask[i] ? value : 0));
  return removeForm(withHeights(fine, z, mask), 2).detail;
}
