import { median } from '../solve/statistics.ts';
import { gaussianFilter } from './gaussianFilter.ts';
import { type HeightGrid, withHeights } from './heightGrid.ts';

/**
 * Form removed at a wavelength: h = z − G z, G the Gaussian of ISO 16610-61 with cut-off `wavelengthMm`. Longer waves
 * are taken off, half the amplitude at the wavelength itself. A steep edge or crack gets a border of the opposite sign,
 * up to half its height and about a third of the wavelength wide (ringing).
 */
export function formRemoved(grid: HeightGrid, wavelengthMm: number): HeightGrid {
  const form = gaussianFilter(grid, wavelengthMm).z;
  return withHeights(
    grid,
    form.map((value, i) => (grid.mask[i] ? grid.z[i] - value : 0)),
  );
}

export interface LocalHeightOptions {
  /** Cut-off of the mean that heights are measured from, mm: two to three letter heights keep letters whole. */
  readonly meanMm: number;
  /** Cut-off of the mean size that heights are divided by, mm; four times `meanMm` unless stated. */
  readonly sizeMm?: number;
  /** Least divisor, as a share of the median one: keeps bare ground from being blown up to noise. */
  readonly floor?: number;
}

/**
 * Local height: h/s with h = z − G z over `meanMm`, and s = max(1.2533 G|h| over `sizeMm`, floor × median of the same).
 * Faint and strong parts come out alike; values are in units of the local standard deviation (1.2533 = √(π/2) turns a
 * mean absolute value into it, for normal data; the mean of |h| is less ruled by single cracks than that of h²).
 * Rings at cracks as `formRemoved` does. Local standardisation as in statistical image enhancement, R. Wallis 1976
 * (from memory).
 */
export function localHeight(grid: HeightGrid, options: LocalHeightOptions): HeightGrid {
  const { meanMm, sizeMm = 4 * meanMm, floor = 0.4 } = options;
  const h = formRemoved(grid, meanMm);
  const size = gaussianFilter(withHeights(grid, h.z.map(Math.abs)), sizeMm).z;
  const least = floor * typical(size, grid.mask);
  for (let i = 0; i < h.z.length; i++)
    if (grid.mask[i]) h.z[i] /= Math.sqrt(Math.PI / 2) * Math.max(size[i], least, 1e-9);
  return h;
}

/** Median over cells with data, from no more than about 20,000 of them. */
function typical(values: Float32Array, mask: Uint8Array): number {
  const step = Math.max(1, Math.floor(values.length / 20_000));
  const kept: number[] = [];
  for (let i = 0; i < values.length; i += step) if (mask[i]) kept.push(values[i]);
  return kept.length > 0 ? median(kept) : 0;
}
