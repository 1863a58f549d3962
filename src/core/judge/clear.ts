import type { Face } from '../face/index.ts';
import { overlapsAt, reachedAt } from '../fit/index.ts';
import { bandPass, quantileOfSorted, rootMeanSquare } from '../geometry/index.ts';

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
  /** Waves shorter than so many point spacings of the coarser scan are not resolved and no independent cells. */
  resolved: 2.5,
  /** Turns looked at one by one where the faces are not clear at all of them: those of the search. */
  turnsApart: 72,
};

/** The band of the search, as shares of the size. */
const band = [1 / 50, 1 / 9] as const;

/**
 * What significance two faces of one matrix would reach that are as large, as full of holes, as noisy and as unlike in
 * depth as these: atanh(kept · r) √(independent cells), r = Π 1/√(1 + σᵢ²/Sᵢ²) from noise σ and relief S, cells those that
 * both have at the least favourable of several turns, each with the shift that lays most of them on one another. The faces are clear to one another when this is well above what chance reaches.
 */
export function clearSignificance(reference: Face, subject: Face, sizeMm: number, options = clearDefaults): number {
  return Math.min(...clearAt(reference, subject, sizeMm, options.turns, options));
}

/** The same at each of so many turns, as the faces lie and turned over. */
function clearAt(
  reference: Face,
  subject: Face,
  sizeMm: number,
  count: number,
  options: typeof clearDefaults,
): number[] {
  const [a, b] = [reliefOf(reference, sizeMm), reliefOf(subject, sizeMm)];
  const alike = Math.min(a / b, b / a) >= options.alike;
  const share = (face: Face, relief: number): number => 1 / Math.sqrt(1 + (face.noiseMm / relief) ** 2);
  const kept = (alike ? options.keptAlike : options.keptCorrelation) * share(reference, a) * share(subject, b);
  const turns = Array.from({ length: count }, (_, k) => (2 * Math.PI * k) / count);
  const spacingMm = Math.max(reference.image.pitch, subject.image.pitch);
  const resolved = Math.min(1, (band[0] * sizeMm) / (options.resolved * spacingMm)) ** 2;
  return overlapsAt(reference.image, subject.image, sizeMm, turns).map(
    (cells) => Math.atanh(kept) * Math.sqrt(Math.max(0, resolved * cells - 3)),
  );
}

/** What was reached at the best turn, and the chance that one design was missed. */
export interface Missed {
  readonly reached: number;
  readonly chance: number;
}

/**
 * Turn by turn, where the faces are clear at most turns and not at all: at the true turn t a common design would reach about cₜ (the
 * clearness there, the unit its standard deviation), and the best place reaches rₜ. All turns and both ways are equally likely before, so a common
 * design is missed with a chance of at most the mean of Φ(rₜ − cₜ).
 */
export function missedTurnByTurn(reference: Face, subject: Face, sizeMm: number, options = clearDefaults): Missed {
  const clear = clearAt(reference, subject, sizeMm, options.turnsApart, options);
  const reached = reachedAt(reference.image, subject.image, sizeMm, options.turnsApart);
  const chance = reached.reduce((sum, each, k) => sum + normalBelow(each - clear[k]), 0) / reached.length;
  return { reached: Math.max(...reached), chance };
}

/** Φ, the share of a normal law below z, by the error function's rational form (Abramowitz and Stegun 1964, 7.1.26; error below 10⁻⁷). */
function normalBelow(z: number): number {
  const t = 1 / (1 + (0.3275911 * Math.abs(z)) / Math.SQRT2);
  const poly = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const tail = 0.5 * poly * Math.exp((-z * z) / 2);
  return z < 0 ? tail : 1 - tail;
}

/** Absolute relief in the band of the search where there is data, mm, ascending. */
function reliefHeights({ image }: Face, sizeMm: number): Float32Array {
  const { z, mask } = bandPass(image, band[0] * sizeMm, band[1] * sizeMm);
  return z
    .filter((_, i) => mask[i] === 1)
    .map(Math.abs)
    .sort();
}

function reliefOf(face: Face, sizeMm: number): number {
  return rootMeanSquare(reliefHeights(face, sizeMm)) + 1e-9;
}

/** Median over 90 % quantile of the absolute relief: a design fills its face, a table or a bare margin has none. */
export function reliefSpread(face: Face, sizeMm: number): number {
  const heights = reliefHeights(face, sizeMm);
  return quantileOfSorted(heights, 0.5) / (quantileOfSorted(heights, 0.9) + 1e-12);
}
