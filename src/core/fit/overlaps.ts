import type { HeightGrid } from '../geometry/index.ts';
import { type Signal, signalOf } from './bandPassed.ts';
import { searchDefaults } from './search.ts';
import { correlateTurned } from './turnedCorrelation.ts';

export const overlapDefaults = {
  /** Cells across the common size. */
  across: 40,
  /** Side of the transform: both faces beside one another, so that nothing wraps round. */
  transform: 128,
  /** The widest grid, in common sizes. */
  widest: 1.7,
};

/**
 * Independent cells, as the search's `significance` counts them, that both faces have at each of the turns (radians) where they lie
 * over one another most, as they lie and turned over: the greatest overlap of the masks over all shifts, by Fourier transform. Where
 * one of the two is whole, the other's true place lies inside it and has that much in common, so far as holes do not meet. Middle
 * laid on middle lost: the middle of a C or of a fragment is not that of its design.
 */
export function overlapsAt(
  reference: HeightGrid,
  subject: HeightGrid,
  sizeMm: number,
  turns: readonly number[],
  options = overlapDefaults,
): number[] {
  const [a, b] = [maskSignal(reference, sizeMm, options), maskSignal(subject, sizeMm, options)];
  const correlate = correlateTurned(a, b, options.transform);
  const cellsPerIndependent = (options.across * searchDefaults.fineFrom) ** 2;
  return turns.flatMap((turn) => {
    const { straightMost, straightLeast, overMost, overLeast } = correlate(turn, 1);
    const [straight, over] = [Math.max(straightMost, -straightLeast), Math.max(overMost, -overLeast)];
    return [straight / cellsPerIndependent, over / cellsPerIndependent];
  });
}

/** Where a face has data that the search would use: 1, else 0. */
function maskSignal(detail: HeightGrid, sizeMm: number, { across, widest }: typeof overlapDefaults): Signal {
  const pitch = sizeMm / across;
  const cells = Math.ceil(
    Math.min(widest * across, Math.max(detail.width, detail.height) * (detail.pitch / pitch) * 1.05),
  );
  const { mask, ...signal } = signalOf(
    detail,
    cells,
    pitch,
    searchDefaults.fineFrom * sizeMm,
    searchDefaults.fineTo * sizeMm,
  );
  return { ...signal, mask, value: Float32Array.from(mask) };
}
