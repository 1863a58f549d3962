import { type HeightGrid, median, sigmaFromMad } from '../geometry/index.ts';
import { leastPeak, scaleDefaults, scaleMap } from './scales.ts';

export const lineMeanDefaults = {
  /** Standard deviation of the mean along a line, mm, and the number of directions it is taken in. */
  alongMm: 0.9,
  directions: 12,
  /** Standard deviation across, mm, or so many cells where those are larger. */
  acrossMm: 0.1,
  acrossCells: 0.8,
};

/** The means along lines: the greatest over the directions for either sign, in standard deviations of its own noise. */
export interface LineMeans {
  readonly raised: Float32Array;
  readonly lowered: Float32Array;
  /** Of a Gaussian field: what peaks over the face and all directions with the chance `rate`. */
  readonly leastGaussian: number;
}

/**
 * Means of t along straight lines through every cell: narrow Gaussians three to nine times as long as wide, in twelve
 * directions. What a crack adds up to over its length no round mean shows. Cells of `changed` do not enter the noise.
 */
export function lineMeans(
  difference: HeightGrid,
  sigma: Float32Array,
  changed: Uint8Array | null,
  options = lineMeanDefaults,
): LineMeans {
  const { pitch, mask } = difference;
  const acrossMm = Math.max(options.acrossMm, options.acrossCells * pitch);
  const { t } = scaleMap(difference, sigma, acrossMm, changed);
  const raised = new Float32Array(t.length);
  const lowered = new Float32Array(t.length);
  for (let d = 0; d < options.directions; d++) {
    const along = alongLine(difference, t, (Math.PI * d) / options.directions, options.alongMm);
    const sizes: number[] = [];
    for (let i = 0; i < along.length; i += 3) if (mask[i] && !changed?.[i]) sizes.push(Math.abs(along[i]));
    const sd = sigmaFromMad * median(sizes) || 1;
    for (let i = 0; i < along.length; i++) {
      raised[i] = Math.max(raised[i], along[i] / sd);
      lowered[i] = Math.max(lowered[i], -along[i] / sd);
    }
  }
  const areaMm2 = mask.reduce((sum, m) => sum + m, 0) * pitch ** 2;
  const rate = scaleDefaults.rate / (scaleDefaults.sigmasMm.length + 1) / options.directions;
  return { raised, lowered, leastGaussian: leastPeak(areaMm2, Math.sqrt(acrossMm * options.alongMm), rate) };
}

/** Σ g(k) t over steps of a cell along a direction, over the cells that have data: divided by √Σ g², so that white noise keeps its size. */
function alongLine({ width, mask, pitch }: HeightGrid, t: Float32Array, angle: number, alongMm: number): Float32Array {
  const reach = Math.ceil((2 * alongMm) / pitch);
  const taps: Array<readonly [offset: number, dx: number, weight: number]> = [];
  for (let k = -reach; k <= reach; k++) {
    const [dx, dy] = [Math.round(k * Math.cos(angle)), Math.round(-k * Math.sin(angle))];
    taps.push([dy * width + dx, dx, Math.exp(-((k * pitch) ** 2) / (2 * alongMm ** 2))]);
  }
  const out = new Float32Array(t.length);
  for (let i = 0; i < t.length; i++) {
    if (!mask[i]) continue;
    const col = i % width;
    let [sum, squares] = [0, 0];
    for (const [offset, dx, g] of taps) {
      if (!mask[i + offset] || col + dx < 0 || col + dx >= width) continue;
      sum += g * t[i + offset];
      squares += g * g;
    }
    out[i] = sum / Math.sqrt(squares);
  }
  return out;
}
