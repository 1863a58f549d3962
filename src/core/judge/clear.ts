import { type Face, finest, oneWay } from '../face/index.ts';
import { carriedShare, chanceDensity, overlapDefaults, overlapsAt, reachedAt } from '../fit/index.ts';
import {
  bandPass,
  type HeightGrid,
  median,
  quantileOfSorted,
  rootMeanSquare,
  sigmaFromMad,
  sigmaOfCutoff,
} from '../geometry/index.ts';

export const clearDefaults = {
  /** Turns at which the two faces are laid on one another, either way round. */
  turns: 8,
  /**
   * What wear, filling, flow and accidents leave of the correlation that a face has with itself: nearly all
   * fitted pairs of one matrix keep more; where neither has much less relief than the other, more is kept. docs/judge.md.
   */
  keptCorrelation: 0.45,
  keptAlike: 0.6,
  alike: 0.6,
  /** Turns looked at one by one where the faces are not clear at all of them: those of the search. */
  turnsApart: 72,
  /** … with what pairs of one matrix keep that are alike and finely scanned: correlations and how often. */
  keptOften: [
    [0.6, 0.1],
    [0.75, 0.3],
    [0.85, 0.6],
  ] as const,
  /** A median height in the band of at most so many times what white noise leaves there is noise. docs/judge.md. */
  noiseAlone: 1.5,
};

/** The band of the search, as shares of the size. */
const band = [1 / 50, 1 / 9] as const;

/**
 * What significance two faces of one matrix would reach that are as large, as full of holes, as noisy and as unlike in
 * depth as these: atanh(kept · r) √(independent cells), r = Π 1/√(1 + σᵢ²/Sᵢ²) from noise σ and relief S, cells those that
 * both have at the least favourable of several turns, each with the shift that lays most of them on one another. What a coarse scan does not
 * resolve is in its noise, which strokes a few points wide raise: fewer cells besides would count it twice. The faces are clear to one another when this is well above what chance reaches.
 */
export function clearSignificance(
  reference: Face,
  subject: Face,
  sizeMm: number,
  options = clearDefaults,
  grid = overlapDefaults,
): number {
  const { alike, share, cells } = inCommon(reference, subject, sizeMm, options.turns, options, grid);
  return significanceOf(share * (alike ? options.keptAlike : options.keptCorrelation), Math.min(...cells));
}

const significanceOf = (correlation: number, cells: number): number =>
  Math.atanh(correlation) * Math.sqrt(Math.max(0, cells - 3));

/** What two faces allow whatever their designs: r of the noise, and the cells in common at so many turns, straight and over. */
function inCommon(
  reference: Face,
  subject: Face,
  sizeMm: number,
  count: number,
  options: typeof clearDefaults,
  grid = overlapDefaults,
) {
  const [a, b] = [reliefOf(reference, sizeMm), reliefOf(subject, sizeMm)];
  const ofNoise = (face: Face, relief: number): number => 1 / Math.sqrt(1 + (face.noiseMm / relief) ** 2);
  const turns = Array.from({ length: count }, (_, k) => (2 * Math.PI * k) / count);
  return {
    alike: Math.min(a / b, b / a) >= options.alike,
    share: ofNoise(reference, a) * ofNoise(subject, b),
    cells: overlapsAt(reference.image, subject.image, sizeMm, turns, grid),
  };
}

/** What was reached at the best turn, and how likely what all turns reach is under one design, over chance. */
export interface TurnByTurn {
  readonly reached: number;
  readonly likelihoodRatio: number;
}

/**
 * Turn by turn, for faces that are clear at most turns and not at all of them. At the true turn t a common design reaches about c = atanh(κ r) √(cells − 3),
 * its standard deviation 1 and κ a mixture of what pairs of one matrix keep; more is as likely as c. Elsewhere chance reaches r with the Gumbel
 * density g of these very turns, whose quartiles a single true one does not move. All turns and both ways are equally
 * likely before: the ratio is the mean over them of Σ w φ(min(0, r − c)) / g(r). A turn that reaches less than the middle one is taken
 * for it: that the search did badly there speaks for nothing.
 */
export function turnByTurn(reference: Face, subject: Face, sizeMm: number, options = clearDefaults): TurnByTurn {
  const { alike, share, cells } = inCommon(reference, subject, sizeMm, options.turnsApart, options);
  const reached = reachedAt(finest(reference), finest(subject), sizeMm, options.turnsApart);
  const none = chanceDensity(reached);
  const kept = alike ? options.keptOften : ([[options.keptCorrelation, 1]] as const);
  const middle = median(reached);
  const ratios = reached.map((at, k) => {
    const r = Math.max(at, middle);
    const below = kept.map(([kappa, weight]) => {
      const short = Math.min(0, r - significanceOf(kappa * share, cells[k]));
      return (weight * Math.exp(-(short * short) / 2)) / Math.sqrt(2 * Math.PI);
    });
    return below.reduce((sum, each) => sum + each, 0) / none(r);
  });
  return {
    reached: Math.max(...reached),
    likelihoodRatio: ratios.reduce((sum, each) => sum + each, 0) / ratios.length,
  };
}

/** The relief in the band of the search. */
const inBand = ({ image }: Face, sizeMm: number): HeightGrid => bandPass(image, band[0] * sizeMm, band[1] * sizeMm);

/** Absolute relief where there is data, mm, ascending. */
const ascending = ({ z, mask }: HeightGrid): Float32Array =>
  z
    .filter((_, i) => mask[i] === 1)
    .map(Math.abs)
    .sort();

const reliefOf = (face: Face, sizeMm: number): number => rootMeanSquare(ascending(inBand(face, sizeMm))) + 1e-9;

/** What a face shows in the band of the search. */
export interface ShownRelief {
  /** Median over 90 % quantile of the absolute relief: a design fills its face, a table or a bare margin has none. */
  readonly spread: number;
  /** Share of the face that carries what the search compares, see `carriedShare`. */
  readonly carried: number;
  /** How far it runs one way only, 0 to 1: strokes turn every way, the side of a break does not. */
  readonly oneWay: number;
  /** Whether nothing stands out of the face's own noise, as of a bare table. */
  readonly onlyNoise: boolean;
}

export function shownRelief(face: Face, sizeMm: number): ShownRelief {
  const shown = inBand(face, sizeMm);
  const heights = ascending(shown);
  const [half, nine] = [0.5, 0.9].map((share) => quantileOfSorted(heights, share));
  return {
    spread: half / (nine + 1e-12),
    carried: carriedShare(finest(face), sizeMm),
    oneWay: oneWay(shown),
    onlyNoise: isNoise(face, half, sizeMm),
  };
}

/**
 * The noise is white (of strokes the differences grow from a lag of one cell to two, see `noiseOf`), and the median height in the band of the search is
 * about what it leaves there, 0.67 σ p / (2 √π s), p the pitch and s the standard deviation of the Gaussian with the band's shorter cut-off.
 */
function isNoise({ image: { pitch }, noiseMm, noiseLengthMm }: Face, medianMm: number, sizeMm: number): boolean {
  if (noiseLengthMm > 1.5 * pitch) return false;
  const left = Math.min(1, pitch / (2 * Math.sqrt(Math.PI) * sigmaOfCutoff(band[0] * sizeMm)));
  return medianMm <= (clearDefaults.noiseAlone * left * noiseMm) / sigmaFromMad;
}
