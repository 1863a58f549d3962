import { solveDefinite } from '../../geometry/index.ts';
import { regionMeans } from './regions.ts';
import type { WearRelief } from './relief.ts';

export const loweringDefaults = {
  /** Cut-off of the neighbourhood that was lowered alike, mm. */
  regionMm: 8,
  /** How much its law is drawn to no lack at all, in shares of each measure's mean square over the face. */
  ridge: 0.1,
  /** A cell departs from the law of its neighbourhood by this share of the lack, and by so many mm beside it (1 σ). */
  departs: 0.3,
  besideMm: 0.01,
  /** One cell says no more than this of its neighbourhood, mm: what lacks more is broken, what stands higher is added. */
  mostMm: 0.15,
};

/** What rubs, presses or leaves unfilled follows, each at least 0, mm: height over the surroundings, over what is within half a millimetre, and over a few cells. */
type Measures = readonly [Float32Array, Float32Array, Float32Array];

/**
 * The difference that each cell is expected to have truly, mm, NaN outside the image or without data. What lowers a face lowers a neighbourhood alike, by how
 * high, how narrow and how sharp its parts are: d ≈ Σ c_k m_k, with c found about every cell by least squares over a Gaussian region, drawn to 0 (Hoerl and Kennard
 * 1970), and never a gain. That is the mean of a normal prior which the cell's own difference is weighed against by its noise σ.
 */
export function expectedDifference(
  relief: WearRelief,
  sigma: Float32Array,
  measures: Measures,
  options = loweringDefaults,
): Float32Array {
  const { difference: d, image } = relief;
  const law = lawsOf(relief, sigma, measures, options);
  return d.map((value, i) => {
    if (!image[i] || Number.isNaN(value)) return Number.NaN;
    const prior = law(i);
    const precision = 1 / ((options.departs * prior) ** 2 + options.besideMm ** 2);
    const own = 1 / sigma[i] ** 2;
    return (own * value + precision * prior) / (own + precision);
  });
}

/** The difference that a cell's neighbourhood makes expected of it, mm, at most 0. */
function lawsOf(
  relief: WearRelief,
  sigma: Float32Array,
  measures: Measures,
  options: typeof loweringDefaults,
): (i: number) => number {
  const sums = weightedSums(relief, sigma, measures, options);
  const square = meanSquares(relief, measures);
  const h = new Float64Array(9);
  const g = new Float64Array(3);
  const room = { l: new Float64Array(9), x: new Float64Array(3) };
  const [high, narrow, sharp] = measures;
  return (i) => {
    const weight = sums[9][i];
    for (let a = 0, k = 0; a < 3; a++)
      for (let b = 0; b <= a; b++, k++) h[3 * a + b] = sums[k][i] + (a === b ? options.ridge * weight * square[a] : 0);
    for (let a = 0; a < 3; a++) g[a] = sums[6 + a][i];
    const c = solveDefinite(h, g, 3, undefined, room);
    return c ? Math.min(0, c[0] * high[i] + c[1] * narrow[i] + c[2] * sharp[i]) : 0;
  };
}

/** Means over the region of w m_a m_b (lower half by rows), w m_a d and w, w one over the noise squared. */
function weightedSums(
  { reference, difference: d, image }: WearRelief,
  sigma: Float32Array,
  measures: Measures,
  { regionMm, mostMm }: typeof loweringDefaults,
): Float32Array[] {
  const means = regionMeans(reference, regionMm, 10, (i, out) => {
    if (!image[i] || Number.isNaN(d[i])) return;
    const weight = 1 / sigma[i] ** 2;
    const lack = Math.max(-mostMm, Math.min(mostMm, d[i]));
    for (let a = 0, k = 0; a < 3; a++)
      for (let b = 0; b <= a; b++, k++) out[k] = weight * measures[a][i] * measures[b][i];
    for (let a = 0; a < 3; a++) out[6 + a] = weight * measures[a][i] * lack;
    out[9] = weight;
  });
  return Array.from({ length: 10 }, (_, k) => means(k));
}

/** Of each measure over the image. */
function meanSquares({ difference: d, image }: WearRelief, measures: Measures): number[] {
  return measures.map((measure) => {
    let [sum, n] = [0, 0];
    for (let i = 0; i < d.length; i++) {
      if (!image[i] || Number.isNaN(d[i])) continue;
      sum += measure[i] ** 2;
      n++;
    }
    return sum / Math.max(1, n);
  });
}
