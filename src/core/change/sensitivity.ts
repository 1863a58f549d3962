import { median } from '../geometry/index.ts';
import { type Measured, usualVolumeSd } from './measure.ts';
import type { Sensitivity } from './types.ts';

/** Areas that the least change is worked out for, mm². */
export const sensitivityDefaults = { areasMm2: [1, 4, 10] };

/**
 * The least even change of height over a disc of each area that would count at a usual place of the face. It must stand out at
 * the best scale, u s_m / (1 − exp(−A / 2πσ²)), u the peak that counts and s_m the median noise of the mean there (the denominator is
 * how much of the disc's height the Gaussian mean over its middle keeps); and be `volumeSds` times its volume's own ±.
 */
export function sensitivityOf(
  measured: Measured,
  volumeSds: number,
  { areasMm2 } = sensitivityDefaults,
): Sensitivity[] {
  const { maps, inflation, least } = measured.scales;
  const { mask } = measured.registered.difference;
  const noise = maps.map(({ mean, t }, k) => {
    const values: number[] = [];
    const step = Math.max(1, Math.floor(mean.length / 20_000));
    for (let i = 0; i < mean.length; i += step) if (mask[i] && t[i] !== 0) values.push((inflation[k] * mean[i]) / t[i]);
    return median(values);
  });
  const standsOut = (areaMm2: number): number =>
    Math.min(
      ...maps.map(({ sigmaMm }, k) => (least[k] * noise[k]) / (1 - Math.exp(-areaMm2 / (2 * Math.PI * sigmaMm ** 2)))),
    );
  return areasMm2.map((areaMm2) => ({
    areaMm2,
    heightMm: Math.max(standsOut(areaMm2), (volumeSds * usualVolumeSd(measured, areaMm2)) / areaMm2),
  }));
}
