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
  for (let c = 0; c < width; c++) {
    const k = Math.floor(((c + 0.5) * n) / width);
    for (let r = 0; r < height; r++) {
      const depth = lettersOuterMm + (r - ringMargin + 0.5) * pitch;
      if (depth > curve.reach[k]) continue;
      const col = Math.round((curve.x[k] + depth * curve.nx[k] - lines.left) / lines.pitch);
      const row = Math.round((lines.top - curve.y[k] - depth * curve.ny[k]) / lines.pitch);
      if (col < 0 || row < 0 || col >= lines.width || row >= lines.height) continue;
      z[r * width + c] = lines.z[row * lines.width + col];
      mask[r * width + c] = lines.mask[row * lines.width + col];
    }
  }
  return { width, height, pitch, left: 0, top: 0, z, mask };
}
