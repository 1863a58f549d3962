import { report, type Watch } from '../geometry/index.ts';
import type { Signal } from './bandPassed.ts';
import type { PlanarFit } from './similarity2d.ts';
import { correlateTurned } from './turnedCorrelation.ts';

export const coarseDefaults = {
  /** Turns tried around the circle: 5° apart, 2.8 cells at the rim of a 64-cell face at most 1.4 off. */
  turns: 72,
  /** Sizes tried; the search reaches about 4 % beyond each. Most pairs shrink by 0 to 3 %. */
  scales: [0.94, 1.01, 1.08],
  /** Side of the transform. */
  transform: 128,
};

/** A place where the two signals agree, and their correlation there over the whole faces, −1 to 1. */
export interface CoarsePeak {
  readonly fit: PlanarFit;
  readonly score: number;
}

/**
 * Every turn, size and shift of the subject's signal against the reference's, by Fourier transform.
 *
 * For each turn and size both correlations of the subject as it lies and turned over come at once. Their negative peaks are the
 * two reflections, which cost nothing more and are returned apart, since a reflection is tried only after both proper ways fail.
 */
export function coarseSearch(reference: Signal, subject: Signal, options = coarseDefaults, watch: Watch = {}) {
  const { transform: n, turns, scales } = options;
  const correlate = correlateTurned(reference, subject, n);
  const energy = Math.sqrt(energyOf(reference.value));
  const proper: CoarsePeak[] = [];
  const reflected: CoarsePeak[] = [];
  for (let k = 0; k < turns; k++) {
    report(watch, k / turns, 'Searching all turns');
    const turn = (2 * Math.PI * k) / turns;
    for (const scale of scales) {
      const best = correlate(turn, scale);
      const norm = 1 / (energy * best.energy || 1);
      const place = (at: number) => ({
        tx: wrap(at % n, n) * reference.pitch,
        ty: -wrap(Math.floor(at / n), n) * reference.pitch,
      });
      const peak = (at: number, value: number, flipX: boolean, negate: boolean): CoarsePeak => ({
        fit: { flipX, negate, turn, scale, ...place(at) },
        score: Math.abs(value) * norm,
      });
      proper.push(
        peak(best.straightMostAt, best.straightMost, false, false),
        peak(best.overLeastAt, best.overLeast, true, true),
      );
      reflected.push(
        peak(best.straightLeastAt, best.straightLeast, false, true),
        peak(best.overMostAt, best.overMost, true, false),
      );
    }
  }
  return { proper: bestFirst(proper), reflected: bestFirst(reflected) };
}

const bestFirst = (peaks: CoarsePeak[]): CoarsePeak[] => peaks.sort((a, b) => b.score - a.score);
const wrap = (index: number, n: number): number => (index > n / 2 ? index - n : index);

function energyOf(values: Float32Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i] * values[i];
  return sum;
}
