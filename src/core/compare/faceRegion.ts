import { type Face, insidePolygon } from '../face/index.ts';
import { type HeightGrid, inStretches, withHeights } from '../geometry/index.ts';

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
  const job = { width, height, z, mask, sign, rows: new Float32Array(z.length), out: new Float32Array(z.length) };
  inStretches(leastAcross, job, height, 16);
  inStretches(leastDown, job, height, 16);
  return job.out;
}

interface Extremes extends Pick<HeightGrid, 'width' | 'height' | 'z' | 'mask'> {
  readonly sign: 1 | -1;
  /** Least of each cell and its neighbours in the row, times the sign. */
  readonly rows: Float32Array;
  readonly out: Float32Array;
}

function leastAcross({ width, z, mask, sign, rows }: Extremes, from: number, to: number): void {
  for (let row = from, i = from * width; row < to; row++) {
    let before = Number.POSITIVE_INFINITY;
    let here = mask[i] ? sign * z[i] : Number.POSITIVE_INFINITY;
    for (let col = 0; col < width; col++, i++) {
      const after = col + 1 < width && mask[i + 1] ? sign * z[i + 1] : Number.POSITIVE_INFINITY;
      let least = here;
      if (before < least) least = before;
      if (after < least) least = after;
      rows[i] = least;
      before = here;
      here = after;
    }
  }
}

function leastDown({ width, height, sign, rows, out }: Extremes, from: number, to: number): void {
  for (let row = from, i = from * width; row < to; row++)
    for (let col = 0; col < width; col++, i++) {
      let least = rows[i];
      if (row > 0 && rows[i - width] < least) least = rows[i - width];
      if (row + 1 < height && rows[i + width] < least) least = rows[i + width];
      out[i] = sign * least;
    }
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
