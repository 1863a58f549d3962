import type { HeightGrid } from '../../geometry/index.ts';
import type { BaseCurve } from './baseCurve.ts';
import type { PickedBand } from './pickBand.ts';

/** Rows that letters are brought to, enough to tell them from petals, pellets and the foot of a lip; and rows beyond on either side. */
export const ringRows = 11;
export const ringMargin = 3;

/**
 * A ring laid out straight, clockwise, its outer edge above, as wide as its middle is long: nearest cells of `lines`, the relief in the
 * impression's sense blurred to strokes.
 */
export function ringPicture(lines: HeightGrid, curve: BaseCurve, band: PickedBand): HeightGrid {
  const { lettersOuterMm, lettersInnerMm } = band;
  const pitch = (lettersInnerMm - lettersOuterMm) / ringRows;
  const height = ringRows + 2 * ringMargin;
  const n = curve.x.length;
  const roundMm = n * curve.spacingMm - Math.PI * (lettersOuterMm + lettersInnerMm);
  const width = Math.max(0, Math.round(roundMm / pitch));
  const z = new Float32Array(width * height);
  const mask = new Uint8Array(width * height);
  const picture = { width, height, pitch, left: 0, top: 0, z, mask };
  for (let c = 0; c < width; c++)
    layColumn(picture, c, lines, curve, Math.floor(((c + 0.5) * n) / width), lettersOuterMm);
  return picture;
}

/** Lays the column that goes inward from point k of the curve; a function of its own, so that the engine compiles it once. */
function layColumn(
  { width, height, pitch, z, mask }: HeightGrid,
  column: number,
  lines: HeightGrid,
  { x, y, nx, ny, reach }: BaseCurve,
  k: number,
  outerMm: number,
): void {
  for (let r = 0; r < height; r++) {
    const depth = outerMm + (r - ringMargin + 0.5) * pitch;
    if (depth > reach[k]) continue;
    const col = Math.round((x[k] + depth * nx[k] - lines.left) / lines.pitch);
    const row = Math.round((lines.top - y[k] - depth * ny[k]) / lines.pitch);
    if (col < 0 || row < 0 || col >= lines.width || row >= lines.height) continue;
    z[r * width + column] = lines.z[row * lines.width + col];
    mask[r * width + column] = lines.mask[row * lines.width + col];
  }
}
