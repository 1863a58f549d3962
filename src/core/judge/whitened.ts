import { gaussianFilter, type HeightGrid, quantile, sampleGrid, withHeights, xOf, yOf } from '../geometry/index.ts';
import type { Patch } from './patches.ts';

export const whitenedDefaults = {
  /** Shortest wavelength in spacings, and each band's longest over its shortest. */
  shortestSpacings: 2.8,
  step: 1.4,
  /** A band that agrees better than this is not weighed as if it agreed better still. */
  mostCoherence: 0.995,
};

/** Two reliefs of which each wavelength counts as far as the two agree there; no longer in mm. */
export interface WhitenedReliefs {
  readonly a: HeightGrid;
  readonly b: HeightGrid;
}

/**
 * The aligned reliefs with each band of wavelengths weighed by what it says of a place: amplitudes times γ / √(P (1 − γ²)), with P the power and
 * γ the coherence of the band at places that were found already. What two surfaces do not share (noise of the scans, wear, the loss of detail of
 * the blunter one) has a spectrum of its own, and least squares are the best estimate where it is white: the likeliest delay of two signals
 * in noise (Knapp and Carter, IEEE Trans. ASSP 24, 1976, after Hannan and Thomson), by bands and in two directions.
 * `longestMm`: the longest wavelength; `radiusMm`: of the discs about the places.
 */
export function whitenedReliefs(
  reference: HeightGrid,
  subject: HeightGrid,
  places: readonly Patch[],
  spacingMm: number,
  longestMm: number,
  radiusMm: number,
  options = whitenedDefaults,
): WhitenedReliefs {
  const edges = bandEdges(options.shortestSpacings * spacingMm, longestMm, options.step);
  const [a, b] = [new Float32Array(reference.z.length), new Float32Array(subject.z.length)];
  const [as, bs] = [reference, subject].map((relief) => edges.map((edge) => gaussianFilter(relief, edge).z));
  for (let k = 0; k + 1 < edges.length; k++) {
    const [p, q] = [difference(as[k], as[k + 1]), difference(bs[k], bs[k + 1])];
    const { power, coherence } = bandAgreement(withHeights(reference, p), withHeights(subject, q), places, radiusMm);
    const gamma = Math.min(options.mostCoherence, Math.max(0, coherence));
    // Of a white spectrum a band holds power by its area among wave numbers.
    const area = edges[k] ** -2 - edges[k + 1] ** -2;
    const weight = gamma * Math.sqrt(area / (1 - gamma * gamma));
    add(a, p, weight / Math.sqrt(power[0]));
    add(b, q, weight / Math.sqrt(power[1]));
  }
  return { a: withHeights(reference, a), b: withHeights(subject, b) };
}

/** From the shortest wavelength by equal steps; the last one is the longest. */
function bandEdges(shortestMm: number, longestMm: number, step: number): number[] {
  const bands = Math.max(1, Math.floor(Math.log(longestMm / shortestMm) / Math.log(step)));
  return [...Array.from({ length: bands }, (_, k) => shortestMm * step ** k), Math.max(longestMm, shortestMm * step)];
}

const difference = (fine: Float32Array, coarse: Float32Array): Float32Array =>
  fine.map((value, i) => value - coarse[i]);

function add(sum: Float32Array, band: Float32Array, weight: number): void {
  for (let i = 0; i < sum.length; i++) sum[i] += weight * band[i];
}

/** Mean squares of both reliefs and their correlation, each the median over the discs about the places. */
function bandAgreement(
  a: HeightGrid,
  b: HeightGrid,
  places: readonly Patch[],
  radiusMm: number,
): { power: [number, number]; coherence: number } {
  const discs = places.map((place) => discAgreement(a, b, place, radiusMm)).filter((disc) => disc !== null);
  const middle = (k: 0 | 1 | 2): number =>
    quantile(
      discs.map((disc) => disc[k]),
      0.5,
    );
  return discs.length > 0 ? { power: [middle(0), middle(1)], coherence: middle(2) } : { power: [1, 1], coherence: 0 };
}

const fewestCells = 20;

/** One disc, the subject read where the place was found, turned as it was found. */
function discAgreement(a: HeightGrid, b: HeightGrid, place: Patch, radiusMm: number): [number, number, number] | null {
  const turn = (place.turnDeg * Math.PI) / 180;
  const cells = Math.round(radiusMm / a.pitch);
  const [col, row] = [Math.round((place.x - a.left) / a.pitch), Math.round((a.top - place.y) / a.pitch)];
  let [n, aa, bb, ab] = [0, 0, 0, 0];
  for (let r = Math.max(0, row - cells); r <= Math.min(a.height - 1, row + cells); r++)
    for (let c = Math.max(0, col - cells); c <= Math.min(a.width - 1, col + cells); c++) {
      const i = r * a.width + c;
      if (!a.mask[i] || (c - col) ** 2 + (r - row) ** 2 > cells * cells) continue;
      const x = xOf(a, c) - place.x;
      const y = yOf(a, r) - place.y;
      const other = sampleGrid(b, xOf(a, c) + place.dx - turn * y, yOf(a, r) + place.dy + turn * x);
      if (Number.isNaN(other)) continue;
      n++;
      aa += a.z[i] ** 2;
      bb += other ** 2;
      ab += a.z[i] * other;
    }
  return n > fewestCells && aa > 0 && bb > 0 ? [aa / n, bb / n, ab / Math.sqrt(aa * bb)] : null;
}
