import type { HeightGrid } from '../../geometry/index.ts';
import { type Lamp, towardLamp } from './lamp.ts';
import { gradients } from './normals.ts';

/**
 * Lambert shading of Horn's slopes: max(0, n · l), 0 to 1; 0 also where there is no data.
 * With p = dz/dx, q = dz/dy (y up): (sin h − cos h (p sin A + q cos A)) / √(1 + p² + q²), A azimuth, h height of the lamp.
 * Level ground gives sin h. Source: Horn, Proc. IEEE 69(1), 1981.
 */
export function hillshade(grid: HeightGrid, lamp: Lamp): Float32Array {
  const { dx, dy } = gradients(grid);
  const [lx, ly, lz] = towardLamp(lamp);
  const out = new Float32Array(dx.length);
  for (let i = 0; i < out.length; i++) {
    if (!grid.mask[i]) continue;
    const p = dx[i];
    const q = dy[i];
    out[i] = Math.max(0, (lz - p * lx - q * ly) / Math.sqrt(1 + p * p + q * q));
  }
  return out;
}
