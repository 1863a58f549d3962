import { margin, rows } from '../../design/index.ts';
import { bandPass, type HeightGrid, withHeights } from '../../geometry/index.ts';
import type { Strip } from './unroll.ts';

/** Part of the letters' height that is shown: 0 their upper edge on the strip, 1 their lower. */
export type LetterPart = readonly [from: number, to: number];

/**
 * Relief at the size of strokes, letters (or the stated part of their height) `rows` high, `margin` rows above and below.
 * Waves shorter than `finest` letters' heights are smoothed away.
 */
export function letterPicture(strip: Strip, [from, to]: LetterPart = [0, 1], finest = 0.12): HeightGrid {
  const { band, grid } = strip;
  const wholeMm = band.lettersInnerMm - band.lettersOuterMm;
  const letterMm = (to - from) * wholeMm;
  const strokes = bandPass(grid, finest * letterMm, 1.2 * letterMm);
  const pitch = letterMm / rows;
  const width = Math.floor((grid.width * grid.pitch) / pitch);
  const height = rows + 2 * margin;
  const z = new Float32Array(width * height);
  const mask = new Uint8Array(width * height);
  const top = (0.5 - from) * wholeMm + margin * pitch;
  for (let r = 0; r < height; r++)
    for (let c = 0; c < width; c++) {
      const row = Math.round((grid.top - top + (r + 0.5) * pitch) / grid.pitch);
      const col = Math.round(((c + 0.5) * pitch) / grid.pitch);
      if (row < 0 || row >= grid.height || col >= grid.width) continue;
      const i = row * grid.width + col;
      if (!grid.mask[i]) continue;
      z[r * width + c] = strokes.z[i];
      mask[r * width + c] = 1;
    }
  return { width, height, pitch, left: 0, top: 0, z, mask };
}

/**
 * The same with the mean of each row taken away: what runs on along the whole ring at one height, a border line or the lean of the
 * ground, is no letter, and would speak for whichever sense of a letter has its bar there.
 */
export function withoutRowMeans(picture: HeightGrid): HeightGrid {
  const { width, height, z, mask } = picture;
  const levelled = z.slice();
  for (let r = 0; r < height; r++) {
    let [sum, count] = [0, 0];
    for (let i = r * width; i < (r + 1) * width; i++)
      if (mask[i]) {
        sum += z[i];
        count++;
      }
    for (let i = r * width; i < (r + 1) * width; i++) if (mask[i]) levelled[i] -= sum / count;
  }
  return withHeights(picture, levelled);
}
