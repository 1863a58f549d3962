import type { HeightGrid } from '../../geometry/index.ts';
import { type Lamp, towardLamp } from './lamp.ts';

/**
 * How much of the lamp each cell sees, 0 (in shadow) to 255 (all of it): cast shadows.
 *
 * A surface of shadow is swept away from the lamp, one step to the next row (or column, whichever the light crosses
 * more directly): S = max(z, S at the cell toward the lamp − step · tan h), read linearly between the two cells that
 * the ray passes. A cell lies in shadow where S stands above it; over `penumbraMm` of height the shadow's edge fades.
 * Each cell is visited once, whatever the length of the shadows. Cells without data cast and take no shadow.
 * Linear reading softens a shadow's side by about √(length in cells) cells.
 */
export function castShadow(grid: HeightGrid, lamp: Lamp, penumbraMm = 0.01, exaggeration = 1): Uint8Array {
  const { width, height, z, mask, pitch } = grid;
  const [lx, ly] = towardLamp(lamp);
  const downTan = Math.tan((lamp.heightDeg * Math.PI) / 180) / exaggeration;
  const flat = Math.hypot(lx, ly);
  // Cells toward the lamp, in columns and rows (rows run down).
  const right = flat > 0 ? lx / flat : 0;
  const down = flat > 0 ? -ly / flat : -1;
  const byRow = Math.abs(down) >= Math.abs(right);
  const share = byRow ? Math.abs(right / down) : Math.abs(down / right);
  const drop = pitch * downTan * Math.hypot(1, share);
  const stepRow = down < 0 ? 1 : -1;
  const stepCol = right < 0 ? 1 : -1;
  const seen = new Uint8Array(z.length);
  const soften = 255 / penumbraMm;
  // Sentinels on both sides stand for "no shadow from outside".
  let before = new Float64Array(width + 2).fill(nothing);
  let now = new Float64Array(width + 2).fill(nothing);
  for (let n = 0, r = stepRow > 0 ? 0 : height - 1; n < height; n++, r += stepRow) {
    for (let m = 0, c = stepCol > 0 ? 0 : width - 1; m < width; m++, c += stepCol) {
      const i = r * width + c;
      const at = c + 1;
      const beside = byRow ? before[at] : now[at - stepCol];
      const above = (1 - share) * beside + share * before[at - stepCol] - drop;
      if (!mask[i]) {
        now[at] = above;
        continue;
      }
      const over = above - z[i];
      now[at] = over > 0 ? above : z[i];
      seen[i] = over <= 0 ? 255 : over >= penumbraMm ? 0 : 255.5 - over * soften;
    }
    const swap = before;
    before = now;
    now = swap;
  }
  return seen;
}

/** Far below any surface, but finite, so that shares of it stay numbers. */
const nothing = -1e9;
