import { type Fit, modelOf } from '../fit/index.ts';
import type { Growth } from './growth.ts';
import type { SizedObject } from './materials.ts';
import { onlyCopy, sizeFavours } from './sizeFavours.ts';
import { sizeReading } from './sizeReading.ts';
import type { SizeTest } from './types.ts';

/**
 * The signed size ratio, subject ÷ reference, from the one-scale model's scale s: ratio = 1/s. Along the axes of the
 * reference's face 1/(s_k (1 + ε_k)), with s_k the size of the chosen model along that axis and ε_k the growth that its
 * residuals still ask for. sd² of the ratio: the fit's and both scans' scale uncertainty, in quadrature; those of
 * x, y and depth are the residuals' alone, without the scans', which all three share.
 */
export function sizeTest(
  fit: Pick<Fit, 'models'>,
  along: { readonly x: number; readonly y: number; readonly z: number },
  growth: Growth,
  reference: SizedObject,
  subject: SizedObject,
): SizeTest {
  const oneScale = modelOf(fit, 'oneScale');
  const ratio = 1 / oneScale.scale;
  const scans = Math.hypot(reference.scaleUncertaintyPercent, subject.scaleUncertaintyPercent) / 100;
  const sd = ratio * Math.hypot(oneScale.scaleSd / oneScale.scale, scans);
  const size = {
    ratio,
    sd,
    x: 1 / (along.x * (1 + growth.x)),
    y: 1 / (along.y * (1 + growth.y)),
    depth: 1 / (along.z * (1 + growth.z)),
    sdX: ratio * growth.sdX,
    sdY: ratio * growth.sdY,
    sdDepth: ratio * growth.sdZ,
  };
  const only = onlyCopy(size, reference, subject);
  return {
    ...size,
    ...sizeFavours(size, reference, subject),
    ...(only && { onlyCopy: only }),
    reading: sizeReading(size, reference, subject),
  };
}
