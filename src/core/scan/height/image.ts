import type { Budget } from '../admission/budget.ts';
import { ScanError } from '../error.ts';
import type { Surface } from '../surface.ts';
import { readTiff } from '../tiff/tiff.ts';
import type { ReadOptions } from '../types.ts';
import { surfaceOfHeights } from './gridSurface.ts';
import { readPng } from './png.ts';

/**
 * A height map as a surface: x to the right, y up the picture, z = value · heightStep, in the stated unit.
 * Throws `unitNeeded` where the pixel size or the height step is not stated: no picture file carries them reliably.
 */
export function readHeightMap(
  bytes: Uint8Array,
  format: 'png' | 'tiff',
  options: ReadOptions,
  budget: Budget,
): Surface {
  const { pixelSize, heightStep } = options;
  if (!(pixelSize && pixelSize > 0 && heightStep && Number.isFinite(heightStep * pixelSize)))
    throw new ScanError(
      'unitNeeded',
      'a height map carries no size; state the size of a pixel and the height of one step (--pixel-size, --height-step).',
    );
  const { width, height, values } = format === 'png' ? readPng(bytes, budget) : readTiff(bytes, budget);
  const z = values;
  for (let i = 0; i < z.length; i++) z[i] *= heightStep;
  // Row 0 is the top: y falls as the row grows, so that columns before rows wind clockwise.
  return surfaceOfHeights(
    { columns: width, rows: height, z, x: (c) => c * pixelSize, y: (_, r) => -r * pixelSize },
    true,
    budget,
  );
}
