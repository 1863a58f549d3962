import { gaussianFilter, type HeightGrid, withHeights } from '../../geometry/index.ts';
import type { LookInput } from '../filters/index.ts';
import { applyLook } from '../filters/index.ts';
import type { LitPicture } from '../picture.ts';
import type { Strip } from './unroll.ts';

/** Greys are averaged to waves of so many letters' heights, about a stroke's width, before they are parted. */
const strokeWave = 0.12;

/**
 * How well a picture of a strip parts strokes from ground: (m₁ − m₀)²/(v₁ + v₀). Between tops and feet the greys, averaged
 * at the width of a stroke, are parted in two by the threshold that leaves least variance within the parts (Otsu 1979);
 * m are the parts' means and v the variances of the greys as they are, before averaging, so that grain counts against a
 * picture (Fisher's criterion, 1936). 0 where all is one grey. A picture whose strokes are light on one flank and dark on
 * the other parts badly, as it reads.
 */
export const strokeContrast = (strip: Strip, picture: Pick<LitPicture, 'grey'>): number =>
  contrastsOf(strip, picture, [{ from: 0, to: strip.grid.width }])[0];

/** The same over stretches of columns, `to` not included, each parted by its own threshold. */
export function contrastsOf(
  strip: Strip,
  { grey }: Pick<LitPicture, 'grey'>,
  spans: readonly { readonly from: number; readonly to: number }[],
): number[] {
  const { band, grid } = strip;
  const letterMm = band.lettersInnerMm - band.lettersOuterMm;
  const averaged = gaussianFilter(withHeights(grid, Float32Array.from(grey)), strokeWave * letterMm).z;
  return spans.map(({ from, to }) => contrastOver(lettersCells(grid, letterMm, from, to), grey, averaged));
}

function contrastOver(cells: readonly number[], grey: LitPicture['grey'], averaged: Float32Array): number {
  if (cells.length === 0) return 0;
  const threshold = otsu(averaged, cells);
  const parts = [0, 1].map(() => ({ n: 0, averaged: 0, sum: 0, squares: 0 }));
  for (const i of cells) {
    const part = parts[averaged[i] > threshold ? 1 : 0];
    part.n++;
    part.averaged += averaged[i];
    part.sum += grey[i];
    part.squares += grey[i] ** 2;
  }
  if (parts.some(({ n }) => n === 0)) return 0;
  const [dark, light] = parts.map(({ n, averaged: mean, sum, squares }) => ({
    mean: mean / n,
    variance: squares / n - (sum / n) ** 2,
  }));
  return (light.mean - dark.mean) ** 2 / Math.max(1e-9, light.variance + dark.variance);
}

/** A look and how well it parts strokes from ground on a strip. */
export interface RankedLook {
  readonly look: LookInput;
  readonly contrast: number;
}

/** Looks by their stroke contrast on a strip, best first. */
export function rankedLooks(strip: Strip, looks: readonly LookInput[]): RankedLook[] {
  return looks
    .map((look) => ({ look, contrast: strokeContrast(strip, applyLook(strip.grid, look)) }))
    .sort((p, q) => q.contrast - p.contrast);
}

function lettersCells(
  { width, height, pitch, top, mask }: HeightGrid,
  letterMm: number,
  from: number,
  to: number,
): number[] {
  const first = Math.max(0, Math.ceil((top - letterMm / 2) / pitch));
  const last = Math.min(height - 1, Math.floor((top + letterMm / 2) / pitch));
  const cells: number[] = [];
  for (let r = first; r <= last; r++)
    for (let i = r * width + from; i < r * width + to; i++) if (mask[i]) cells.push(i);
  return cells;
}

/** The grey, 0 to 255, above and below which the variances within are least together (Otsu, IEEE Trans. SMC 9, 1979). */
function otsu(values: Float32Array, cells: readonly number[]): number {
  const counts = new Float64Array(256);
  let total = 0;
  for (const i of cells) {
    const grey = Math.max(0, Math.min(255, Math.round(values[i])));
    counts[grey]++;
    total += grey;
  }
  let [below, sum, best, at] = [0, 0, -1, 0];
  for (let g = 0; g < 255; g++) {
    below += counts[g];
    sum += g * counts[g];
    const above = cells.length - below;
    if (below === 0 || above === 0) continue;
    const between = below * above * (sum / below - (total - sum) / above) ** 2;
    if (between > best) [best, at] = [between, g];
  }
  return at + 0.5;
}
