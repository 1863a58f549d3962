import type { Similarity } from '../geometry/index.ts';
import type { ChangeInput, ChangeOfSize } from './types.ts';

/**
 * Later ÷ earlier from the scale that lays the later on the earlier, with both scans' scale uncertainty and the fit's own
 * in quadrature. It is read only where both scales are stated: an instrument's scale is else as good a cause.
 */
export function sizeOf(
  faceFromLater: Similarity,
  fitSd: number,
  earlier: Pick<ChangeInput, 'scaleUncertaintyPercent' | 'scaleUncertaintyFrom'>,
  later: Pick<ChangeInput, 'scaleUncertaintyPercent' | 'scaleUncertaintyFrom'>,
): ChangeOfSize {
  const ratio = 1 / faceFromLater.scale;
  const scans = Math.hypot(earlier.scaleUncertaintyPercent, later.scaleUncertaintyPercent) / 100;
  const sd = ratio * Math.hypot(fitSd, scans);
  const stated = earlier.scaleUncertaintyFrom === 'stated' && later.scaleUncertaintyFrom === 'stated';
  const beyond = Math.abs(ratio - 1) > 1.96 * sd;
  return { ratio, sd, reading: !stated ? 'notStated' : !beyond ? 'same' : ratio > 1 ? 'larger' : 'smaller' };
}
