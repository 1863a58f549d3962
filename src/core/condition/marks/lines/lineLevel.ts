import { quantile } from '../../../geometry/index.ts';
import type { LineProfiles } from './lineProfiles.ts';
import type { LineLevel } from './lineTypes.ts';

export const levelDefaults = {
  pieceMm: 1,
  /** Residuals count up to so many times the scatter. */
  clip: 3,
  /** Least scatter taken, as a share of the line's height. */
  leastScatter: 0.15,
  /** A step lies beyond the level by more than this share of the line's height. */
  beyondBy: 0.15,
  /** … and the line is not seen at less than this share. */
  without: 0.25,
};

/**
 * Two readings of the crests c along a line over a design of heights h, both fitted with clipped squares:
 *
 *   one level    c = max(0, L − h)    a tool that scores the face and passes over what is deeper in the matrix
 *   one height   c = D                what follows the surface, as a crack does
 *
 * A groove (`sign` −1) is turned over first. Where the other face does not show the design under the line, the mean of its sides stands for
 * it. Null with fewer than six steps. Where the design is flat both say the same.
 */
export function lineLevel(
  { crest, ground, along, tallMm, overDesign }: LineProfiles,
  sign: 1 | -1,
  options = levelDefaults,
): LineLevel | null {
  const steps = Array.from(crest.keys()).filter((k) => !Number.isNaN(crest[k]) && !Number.isNaN(ground[k]));
  if (steps.length < 6 || !(tallMm > 0)) return null;
  const c = steps.map((k) => crest[k]);
  const h = steps.map((k) => sign * ground[k]);
  const lowMm = quantile(h, 0.1);
  const highMm = quantile(h, 0.9);
  const scatter = options.leastScatter * tallMm;
  const clip = options.clip * scatter;
  const cost = (model: (h: number) => number): number =>
    c.reduce((sum, value, k) => sum + Math.min(clip, Math.abs(value - model(h[k]))) ** 2, 0) / c.length;
  const level = best(lowMm, highMm + 1.5 * tallMm, (L) => cost((at) => Math.max(0, L - at)));
  const own = best(0, 1.5 * tallMm, (D) => cost(() => D));
  const noise = Math.max(scatter ** 2, Math.min(level.cost, own.cost));
  const perPiece = options.pieceMm / Math.max(1e-9, along[1] - along[0]);
  const isBeyond = h.map((at) => at > level.at + options.beyondBy * tallMm);
  const count = (test: (k: number) => boolean): number => c.filter((_, k) => test(k)).length / perPiece;
  return {
    ground: overDesign ? 'design' : 'sides',
    lowMm: sign > 0 ? lowMm : -highMm,
    highMm: sign > 0 ? highMm : -lowMm,
    levelMm: sign * level.at,
    offLevelMm: Math.sqrt(level.cost),
    offHeightMm: Math.sqrt(own.cost),
    forLevel: ((own.cost - level.cost) / (2 * noise)) * Math.max(1, c.length / perPiece),
    beyond: count((k) => isBeyond[k]),
    beyondWithout: count((k) => isBeyond[k] && c[k] < options.without * tallMm),
  };
}

/** Least cost on sixty even steps. */
function best(from: number, to: number, cost: (at: number) => number): { at: number; cost: number } {
  let found = { at: from, cost: Number.POSITIVE_INFINITY };
  for (let k = 0; k <= 60; k++) {
    const at = from + ((to - from) * k) / 60;
    const value = cost(at);
    if (value < found.cost) found = { at, cost: value };
  }
  return found;
}
