import { componentsOf, type HeightGrid } from '../geometry/index.ts';

/** Share of the cells called significant that may be so by chance alone. */
export const falseDiscoveryRate = 0.05;

/**
 * 1 for the cells whose difference stands against chance over the whole map. With z = 1.96 |d| / level each cell has
 * the two-sided probability p = erfc(z/√2) of reaching its difference by noise; of m cells the k with the smallest p
 * are kept, k the greatest with p₍ₖ₎ ≤ q k/m. The 5 % of a million cells that exceed their own level by
 * chance are so held to a share q of those kept. Neighbouring cells err together, which the rule allows.
 * Source: Benjamini and Hochberg, J. R. Statist. Soc. B 57, 1995; positive dependence: Benjamini and Yekutieli, Ann.
 * Statist. 29, 2001.
 */
export function significantCells(map: HeightGrid, level: HeightGrid, rate = falseDiscoveryRate): Uint8Array {
  const possible = leastPossible(rate);
  const ratio = new Float64Array(map.z.length);
  let [count, all] = [0, 0];
  for (let i = 0; i < ratio.length; i++) {
    if (!map.mask[i]) continue;
    all++;
    const each = Math.abs(map.z[i]) / level.z[i];
    if (each >= possible) ratio[count++] = each;
  }
  const least = leastRatio(ratio.subarray(0, count).sort(), all, rate);
  return map.mask.map((m, i) => (m && Math.abs(map.z[i]) >= least * level.z[i] ? 1 : 0));
}

/** The cells that lie in a piece of more than `leastCells`, over sides and corners: a smaller one is a single sample of what errs alike, a spike say. */
export function inRegions(cells: Uint8Array, width: number, leastCells: number): Uint8Array {
  const out = new Uint8Array(cells.length);
  for (const piece of componentsOf(cells, width)) if (piece.length > leastCells) for (const i of piece) out[i] = 1;
  return out;
}

/** Whatever rank it takes, a smaller |d|/level is not kept, since p ≤ q is asked of the last: most cells need no rank. */
function leastPossible(rate: number): number {
  let [low, high] = [0, 10];
  for (let k = 0; k < 40; k++) {
    const middle = (low + high) / 2;
    if (twoSided(1.96 * middle) > rate) low = middle;
    else high = middle;
  }
  return low;
}

/** The least |d|/level that is kept of m, from those that may be in ascending order. */
function leastRatio(ascending: Float64Array, m: number, rate: number): number {
  for (let kept = ascending.length; kept > 0; kept--) {
    const ratio = ascending[ascending.length - kept];
    if (twoSided(1.96 * ratio) <= (rate * kept) / m) return ratio;
  }
  return Number.POSITIVE_INFINITY;
}

/**
 * erfc(z/√2) for z ≥ 0, relative error below 1.2e-7.
 * Source: Chebyshev fit of the complementary error function, Press et al., Numerical Recipes, 2nd ed., section 6.2.
 */
export function twoSided(z: number): number {
  const x = z / Math.SQRT2;
  const t = 1 / (1 + 0.5 * x);
  let sum = 0;
  for (let k = erfcFit.length - 1; k >= 0; k--) sum = erfcFit[k] + t * sum;
  return t * Math.exp(-x * x + sum);
}

const erfcFit = [
  -1.26551223, 1.00002368, 0.37409196, 0.09678418, -0.18628806, 0.27886807, -1.13520398, 1.48851587, -0.82215223,
  0.17087277,
];
