import { legendAnewDefaults, legendAnewFits } from './legendAnew.ts';
import type { MeasuredPlaces } from './measure.ts';
import { oneMatrixMm, type RivalOptions, rivalDefaults, type WeighedPlaces } from './rivalDefaults.ts';
import { type ScatterFit, type Strays, scatterFit } from './scatter.ts';

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
  /**
   * log₁₀ p(places | this matrix, its legend cut anew) − log₁₀ p(… | its rivals, as in the score). Null where nearly all places lie where the
   * others put them, or too few in the middle.
   */
  readonly legendAnew: number | null;
  /** log₁₀ p(places | one matrix) − log₁₀ p(… | this matrix, its legend cut anew); null as there. */
  readonly overLegendAnew: number | null;
  /** The scatter that explains the patches best, mm. */
  readonly scatterMm: number;
  readonly best: ScatterFit;
  /** The same score with each sector of the face left out, rescored from what each patch says: least and greatest. */
  readonly interval: readonly [number, number];
}

/** The places that were measured, weighed about the middle of the image; null where fewer than six are seen on both. */
export const weighSeen = (places: MeasuredPlaces): Weighed | null =>
  places.seen.length >= 6 ? weigh(aboutMiddle(places)) : null;

/** One matrix over a copy by hand, and the scatter that explains the places best; nothing else. */
export function copyAlone(measured: MeasuredPlaces, options = rivalDefaults): Pick<Weighed, 'overCopy' | 'best'> {
  const places = aboutMiddle(measured);
  const fits = fitsTo(places, options);
  const [same, copy] = [oneMatrixMm(places, options), options.copyMm].map((list) => fits(list, options.accidents));
  const overCopy = (places.share * (evidence(same, null) - evidence(copy, null))) / Math.LN10;
  return { overCopy, best: likeliest([...same, ...copy]) };
}

const likeliest = (fits: readonly ScatterFit[]): ScatterFit =>
  fits.reduce((a, b) => (b.logLikelihood > a.logLikelihood ? b : a));

function aboutMiddle(places: MeasuredPlaces): WeighedPlaces {
  const [mx, my] = places.middle;
  const about = <P extends { readonly x: number; readonly y: number }>(list: readonly P[]): P[] =>
    list.map((place) => ({ ...place, x: place.x - mx, y: place.y - my }));
  return { ...places, patches: about(places.seen), absent: about(places.absent) };
}

/** Scatters laid on all places, every one with every scale of their errors. */
function fitsTo(places: WeighedPlaces, options: RivalOptions) {
  const flow = { ...places, absent: places.absent.length, degree: degreeOf(places.patches.length) };
  return (list: readonly number[], strays: Omit<Strays, 'absent'>): ScatterFit[] =>
    list.flatMap((sigma) =>
      options.errorScales.map((scale) => scatterFit(places.patches, sigma, { ...flow, ...strays }, scale)),
    );
}

export function weigh(places: WeighedPlaces, options = rivalDefaults): Weighed {
  const fits = fitsTo(places, options);
  const same = fits(oneMatrixMm(places, options), options.accidents);
  const copy = fits(options.copyMm, options.accidents);
  const stock = fits(options.copyMm, options.otherLegend);
  const best = likeliest([...same, ...copy]);
  const log10 = (list: readonly ScatterFit[], use: ((i: number) => boolean) | null): number =>
    (places.share * evidence(list, use)) / Math.LN10;
  const scored = (use: ((i: number) => boolean) | null) => {
    const [s, c, m] = [same, copy, stock].map((list) => log10(list, use));
    const top = Math.max(c, m);
    const rivals = top + Math.log10(0.5 * (10 ** (c - top) + 10 ** (m - top)));
    return { same: s, handCopy: c, stockMotif: m, score: s - rivals, overCopy: s - c };
  };
  const whole = scored(null);
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
  const anew =
    best.epsilon > legendAnewDefaults.fromOutliers
      ? legendAnewFits(places, degreeOf(places.patches.length), options)
      : [];
  const told = (value: number): number | null => (anew.length > 0 ? value : null);
  const overLegendAnew = whole.same - log10(anew, null);
  return {
    ...whole,
    overCopyMost,
    motif,
    legendAnew: told(whole.score - overLegendAnew),
    overLegendAnew: told(overLegendAnew),
    scatterMm: best.sigmaMm,
    best,
    interval,
  };
}

/** Degree of the flow that so many places bear. */
const degreeOf = (places: number): number => (places >= 50 ? 3 : places >= 24 ? 2 : 1);

/** ln of the mean likelihood over a list of equally likely scatters; of the patches in `use` alone where it is given. */
function evidence(fits: readonly ScatterFit[], use: ((i: number) => boolean) | null): number {
  const values = fits.map(({ logLikelihood, each }) =>
    use ? logLikelihood - each.reduce((sum, value, i) => (use(i) ? sum : sum + value), 0) : logLikelihood,
  );
  const top = Math.max(...values);
  return top + Math.log(values.reduce((sum, value) => sum + Math.exp(value - top), 0) / values.length);
}
