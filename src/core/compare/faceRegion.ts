import { type Face, insidePolygon } from '../face/index.ts';
import { type HeightGrid, withHeights } from '../geometry/index.ts';

/** Where the reference's face is: a column of heights over each cell of its relief map, in its face frame. */
export interface FaceRegion {
  readonly width: number;
  readonly height: number;
  readonly pitch: number;
  readonly left: number;
  readonly top: number;
  /** Least and greatest height that belongs to the face there, mm; least above greatest where there is no face. */
  readonly least: Float32Array;
  readonly most: Float32Array;
}

/**
 * A point of the reference lies on its face if its cell or a neighbour carries relief within the outline and its height lies between the
 * least and greatest of the 3 × 3 cells around, widened by `slackMm`: so the back, the side wall below the rim and the
 * handle are no counterpart, and the steep flank of a letter is.
 */
export function faceRegion({ relief, outline }: Face, slackMm = 0.1): FaceRegion {
  const { width, height, pitch, left, top } = relief;
  const rim = insidePolygon(relief, outline.polygon);
  const inside = withHeights(
    relief,
    relief.z,
    relief.mask.map((m, i) => m & rim[i]),
  );
  const least = extremeOf3x3(inside, 1);
  const most = extremeOf3x3(inside, -1);
  for (let i = 0; i < least.length; i++) {
    least[i] -= slackMm;
    most[i] += slackMm;
  }
  return { width, height, pitch, left, top, least, most };
}

/** Least (sign 1) or greatest (sign −1) height of the cell and its eight neighbours; +∞ or −∞ where none has data. */
function extremeOf3x3({ width, height, z, mask }: HeightGrid, sign: 1 | -1): Float32Array {
  const none = sign * Number.POSITIVE_INFINITY;
  const better = sign === 1 ? Math.min : Math.max;
  const value = (i: number): number => (mask[i] ? z[i] : none);
  const across = new Float32Array(z.length);
  for (let row = 0; row < height; row++)
    for (let col = 0, i = row * width; col < width; col++, i++)
      across[i] = better(value(i), col > 0 ? value(i - 1) : none, col < width - 1 ? value(i + 1) : none);
  const out = new Float32Array(z.length);
  for (let i = 0; i < out.length; i++)
    out[i] = better(
      across[i],
      i >= width ? across[i - width] : none,
      i + width < out.length ? across[i + width] : none,
    );
  return out;
}

/** Whether (x, y, z) of the reference's face frame, mm, lies on the face. */
export function isOnFace(region: FaceRegion, x: number, y: number, z: number): boolean {
  const i = cellOf(region, x, y);
  return i >= 0 && z >= region.least[i] && z <= region.most[i];
}

/** Whether (x, y) of the reference's face frame, mm, is over the face, at any height. */
export function isOverFace(region: FaceRegion, x: number, y: number): boolean {
  const i = cellOf(region, x, y);
  return i >= 0 && region.least[i] <= region.most[i];
}

function cellOf(region: FaceRegion, x: number, y: number): number {
  const col = Math.round((x - region.left) / region.pitch);
  const row = Math.round((region.top - y) / region.pitch);
  const inside = col >= 0 && row >= 0 && col < region.width && row < region.height;
  return inside ? row * region.width + col : -1;
}
