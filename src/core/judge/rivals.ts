import type { Patch } from './patches.ts';
import { type ScatterFit, scatterFit } from './scatter.ts';

export const rivalDefaults = {
  /** Scatter of places, mm: of one matrix (local flow of wax) and of one cut again by hand; log-uniform on these. */
  sameMm: [0.003, 0.005, 0.008, 0.012, 0.018, 0.025],
  copyMm: [0.03, 0.042, 0.06, 0.085, 0.12, 0.17, 0.24, 0.34, 0.48, 0.68, 1],
  /** Share of accidents expected, and with the weight of how many patches. */
  accidents: 0.08,
  accidentWeight: 30,
  /** Under another legend any share of the patches may be absent. */
  absent: 0.5,
  absentWeight: 2,
};

/** log₁₀ of the evidence of each hypothesis, and of one matrix over a mixture of its rivals. */
export interface Weighed {
  /** log₁₀ p(patches | one matrix) − log₁₀ ½ (p(… | copied by hand) + p(… | stock motif, another legend)). */
  readonly score: number;
  readonly same: number;
  readonly handCopy: number;
  readonly stockMotif: number;
  /** The scatter that explains the patches best, mm. */
  readonly scatterMm: number;
  readonly best: ScatterFit;
}

export interface WeighedPlaces {
  readonly patches: readonly Patch[];
  /** Clear on both faces and found nowhere. */
  readonly absent: number;
  readonly sizeMm: number;
  readonly windowMm2: number;
  readonly spacingMm: number;
  /** Independent places over patches: neighbours that share a letter say one thing. */
  readonly share: number;
}

export function weigh(places: WeighedPlaces, options = rivalDefaults): Weighed {
  const n = places.patches.length;
  const degree = n >= 50 ? 3 : n >= 24 ? 2 : 1;
  const fits = (list: readonly number[], outliers: number, outlierWeight: number): ScatterFit[] =>
    list.map((sigma) => scatterFit(places.patches, sigma, { ...places, degree, outliers, outlierWeight }));
  const same = fits(options.sameMm, options.accidents, options.accidentWeight);
  const copy = fits(options.copyMm, options.accidents, options.accidentWeight);
  const stock = fits(options.copyMm, options.absent, options.absentWeight);
  const [s, c, m] = [same, copy, stock].map((list) => (places.share * evidence(list)) / Math.LN10);
  const best = [...same, ...copy].reduce((a, b) => (b.logLikelihood > a.logLikelihood ? b : a));
  const top = Math.max(c, m);
  const rivals = top + Math.log10(0.5 * (10 ** (c - top) + 10 ** (m - top)));
  return { score: s - rivals, same: s, handCopy: c, stockMotif: m, scatterMm: best.sigmaMm, best };
}

/** ln of the mean likelihood over a list of equally likely scatters. */
function evidence(fits: readonly ScatterFit[]): number {
  const top = Math.max(...fits.map(({ logLikelihood }) => logLikelihood));
  return top + Math.log(fits.reduce((sum, { logLikelihood }) => sum + Math.exp(logLikelihood - top), 0) / fits.length);
}
