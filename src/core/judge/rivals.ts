import type { MeasuredPlaces } from './measure.ts';
import type { Patch } from './patches.ts';
import { type ScatterFit, scatterFit } from './scatter.ts';

export const rivalDefaults = {
  /** Scatter of places, mm: of one matrix (local flow of wax) and of one cut again by hand; log-uniform on these. */
  sameMm: [0.004, 0.008, 0.014, 0.025],
  copyMm: [0.03, 0.046, 0.07, 0.11, 0.17, 0.26, 0.41, 0.64, 1],
  /** How many times as large the errors of places may be as worked out: known to a factor only. docs/judge.md. */
  errorScales: [0.6, 0.85],
  /** Share of accidents expected, and with the weight of how many patches. */
  accidents: 0.08,
  accidentWeight: 30,
  /** Under another legend any share of the patches may be absent. */
  absent: 0.5,
  absentWeight: 2,
  /** Sectors left out in turn. */
  sectors: 8,
  /** The motif's places lie within so much of the face's size of its middle: legends lie farther out. Fewer than so many tell nothing. */
  middle: 0.3,
  leastInMiddle: 6,
};

/** log₁₀ of the evidence of each hypothesis, and of one matrix over a mixture of its rivals. */
export interface Weighed {
  /** log₁₀ p(patches | one matrix) − log₁₀ ½ (p(… | copied by hand) + p(… | stock motif, another legend)). */
  readonly score: number;
  readonly same: number;
  readonly handCopy: number;
  readonly stockMotif: number;
  /**
   * log₁₀ p(places | one matrix) − log₁₀ p(… | copied by hand), and the greatest of it with a sector left out. What lies nowhere near counts
   * alike under both; in the score it makes a stock motif likely, though a legend cut anew and wear leave such places, too.
   */
  readonly overCopy: number;
  readonly overCopyMost: number;
  /** The same of the places in the middle: the motif's, which a legend cut anew leaves where they are. Few tell nothing: 0. */
  readonly motif: number;
  /** The scatter that explains the patches best, mm. */
  readonly scatterMm: number;
  readonly best: ScatterFit;
  /** The same score with each sector of the face left out, rescored from what each patch says: least and greatest. */
  readonly interval: readonly [number, number];
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

/** The places that were measured, weighed; null where fewer than six are seen on both. */
export const weighSeen = (places: MeasuredPlaces): Weighed | null =>
  places.seen.length >= 6 ? weigh({ ...places, patches: places.seen, absent: places.absent.length }) : null;

export function weigh(places: WeighedPlaces, options = rivalDefaults): Weighed {
  const n = places.patches.length;
  const degree = n >= 50 ? 3 : n >= 24 ? 2 : 1;
  const fits = (list: readonly number[], outliers: number, outlierWeight: number): ScatterFit[] =>
    list.flatMap((sigma) =>
      options.errorScales.map((scale) =>
        scatterFit(places.patches, sigma, { ...places, degree, outliers, outlierWeight }, scale),
      ),
    );
  const same = fits(options.sameMm, options.accidents, options.accidentWeight);
  const copy = fits(options.copyMm, options.accidents, options.accidentWeight);
  const stock = fits(options.copyMm, options.absent, options.absentWeight);
  const scored = (use: ((i: number) => boolean) | null) => {
    const [s, c, m] = [same, copy, stock].map((list) => (places.share * evidence(list, use)) / Math.LN10);
    const top = Math.max(c, m);
    return {
      same: s,
      handCopy: c,
      stockMotif: m,
      score: s - top - Math.log10(0.5 * (10 ** (c - top) + 10 ** (m - top))),
      overCopy: s - c,
    };
  };
  const whole = scored(null);
  const best = [...same, ...copy].reduce((a, b) => (b.logLikelihood > a.logLikelihood ? b : a));
  const sector = places.patches.map(
    ({ x, y }) => Math.floor(((Math.atan2(y, x) / Math.PI + 1) / 2) * options.sectors) % options.sectors,
  );
  const parts = [whole, ...Array.from({ length: options.sectors }, (_, k) => scored((i) => sector[i] !== k))];
  const scores = parts.map(({ score }) => score);
  const interval = [Math.min(...scores), Math.max(...scores)] as const;
  const overCopyMost = Math.max(...parts.map(({ overCopy }) => overCopy));
  const middle = (i: number): boolean =>
    Math.hypot(places.patches[i].x, places.patches[i].y) < options.middle * places.sizeMm;
  const inMiddle = places.patches.filter((_, i) => middle(i)).length;
  const motif = inMiddle >= options.leastInMiddle ? scored(middle).overCopy : 0;
  return { ...whole, overCopyMost, motif, scatterMm: best.sigmaMm, best, interval };
}

/** ln of the mean likelihood over a list of equally likely scatters; of the patches in `use` alone where it is given. */
function evidence(fits: readonly ScatterFit[], use: ((i: number) => boolean) | null): number {
  const values = fits.map(({ logLikelihood, each }) =>
    use ? logLikelihood - each.reduce((sum, value, i) => (use(i) ? sum : sum + value), 0) : logLikelihood,
  );
  const top = Math.max(...values);
  return top + Math.log(values.reduce((sum, value) => sum + Math.exp(value - top), 0) / values.length);
}
