import { quantileOfSorted } from '../../geometry/index.ts';

/** Share of the cells that may be clipped at each end. */
const clipped = 0.005;

/**
 * Values to grey 0–1, linear between two levels and clamped. Without stated levels the 0.5 % and 99.5 % quantiles of
 * the cells with data are used, so that one deep crack does not flatten the rest; 0 without data.
 */
export function toneOf(values: Float32Array, mask: Uint8Array, low?: number, high?: number): Float32Array {
  const [lowest, highest] = low === undefined || high === undefined ? spreadOf(values, mask) : [low, high];
  const scale = highest > lowest ? 1 / (highest - lowest) : 0;
  const out = new Float32Array(values.length);
  for (let i = 0; i < out.length; i++)
    if (mask[i]) out[i] = scale === 0 ? 0.5 : Math.min(1, Math.max(0, (values[i] - lowest) * scale));
  return out;
}

function spreadOf(values: Float32Array, mask: Uint8Array): [number, number] {
  const step = Math.max(1, Math.floor(values.length / 100_000));
  const kept: number[] = [];
  for (let i = 0; i < values.length; i += step) if (mask[i]) kept.push(values[i]);
  if (kept.length === 0) return [0, 0];
  const sorted = Float64Array.from(kept).sort();
  return [quantileOfSorted(sorted, clipped), quantileOfSorted(sorted, 1 - clipped)];
}
