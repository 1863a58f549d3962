import type { HeightGrid } from '../../geometry/index.ts';
import { capitalsIn } from '../letters/capitalTemplates.ts';
import { letterCourse } from '../letters/letterCourse.ts';
import { margin } from '../letters/template.ts';
import type { BaseCurve } from './baseCurve.ts';
import type { PickedBand } from './pickBand.ts';

/** Half of what letters are told upright by: to tell them from petals, pellets and the feet of a lip it is enough. */
const rows = 11;
const widths = [1];
/** Cells of the relief that letters are high, at least. */
const leastRows = 4;

/**
 * How much of a ring is letters: Σ over its places of what the best course of capitals explains of the relief there, less its
 * price, over their number (`letterCourse`), 0 to 0.7; of feet toward the centre and toward the rim the better. Strokes of one
 * width, upright ones, of one height round the ring and closely set, are what capitals share and motifs do not. `lines`: relief
 * in the impression's sense, blurred to strokes.
 */
export function lettersAlong(lines: HeightGrid, curve: BaseCurve, band: PickedBand): number {
  const heightMm = band.lettersInnerMm - band.lettersOuterMm;
  // On a line that was taken for letters every column is an upright stroke.
  if (heightMm < leastRows * lines.pitch || heightMm < 0.4 * (band.innerMm - band.outerMm)) return 0;
  const picture = ringPicture(lines, curve, band);
  const each = (['upright', 'upsideDown'] as const).map((sense) => {
    const worth = letterCourse(picture, capitalsIn(sense, rows, widths)).filter((value) => !Number.isNaN(value));
    return worth.length > 0 ? worth.reduce((sum, value) => sum + value, 0) / worth.length : 0;
  });
  return Math.max(...each);
}

/** The ring laid out straight, clockwise, its outer edge above: `rows` between the letters' edges, nearest cells. */
function ringPicture(lines: HeightGrid, curve: BaseCurve, { lettersOuterMm, lettersInnerMm }: PickedBand): HeightGrid {
  const pitch = (lettersInnerMm - lettersOuterMm) / rows;
  const height = rows + 2 * margin;
  const n = curve.x.length;
  const roundMm = n * curve.spacingMm - Math.PI * (lettersOuterMm + lettersInnerMm);
  const width = Math.max(0, Math.round(roundMm / pitch));
  const z = new Float32Array(width * height);
  const mask = new Uint8Array(width * height);
  for (let c = 0; c < width; c++) {
    const k = Math.floor(((c + 0.5) * n) / width);
    for (let r = 0; r < height; r++) {
      const depth = lettersOuterMm + (r - margin + 0.5) * pitch;
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
