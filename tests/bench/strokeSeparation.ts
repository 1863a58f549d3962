import { yOf } from '../../src/core/geometry/index.ts';
import type { LitPicture, Strip } from '../../src/core/read/index.ts';
import type { WornSeal } from './wornSeals.ts';
import { letterRows } from './wornStrip.ts';

/** What of a strip is stroke, cell by cell: 1 stroke, 0 ground, 255 neither band nor data. */
export function strokesOf({ cutAt }: WornSeal, strip: Strip): Uint8Array {
  const { grid, x, y, upX, upY } = strip;
  const cut = new Float32Array(grid.z.length);
  const rows = letterRows(strip);
  const inBand = (row: number): boolean => row >= rows.from && row <= rows.to;
  for (let r = 0; r < grid.height; r++) {
    if (!inBand(r)) continue;
    const up = yOf(grid, r);
    for (let c = 0; c < grid.width; c++) cut[r * grid.width + c] = cutAt(x[c] + up * upX[c], y[c] + up * upY[c]);
  }
  // Tops of strokes: the upper tenth of what is cut at all. A cell belongs to a stroke where more than half of that was cut.
  const deep = cut.filter((value) => value > 0.05).sort();
  const half = deep.length > 0 ? deep[Math.floor(0.9 * deep.length)] / 2 : Number.POSITIVE_INFINITY;
  return Uint8Array.from(cut, (value, i) =>
    grid.mask[i] && inBand(Math.floor(i / grid.width)) ? (value > half ? 1 : 0) : 255,
  );
}

/**
 * Area under the ROC curve of a picture's grey for stroke against ground: the chance that a cell of a stroke is lighter than
 * one of the ground, equal ones counted half (Hanley and McNeil, Radiology 143, 1982).
 */
export function areaUnderRoc({ grey }: LitPicture, strokes: Uint8Array): number {
  const counts = [new Float64Array(256), new Float64Array(256)];
  for (let i = 0; i < grey.length; i++) if (strokes[i] < 2) counts[strokes[i]][grey[i]]++;
  const [ground, stroke] = counts;
  let below = 0;
  let sum = 0;
  for (let g = 0; g < 256; g++) {
    sum += stroke[g] * (below + ground[g] / 2);
    below += ground[g];
  }
  return sum / (below * stroke.reduce((a, b) => a + b, 0));
}
