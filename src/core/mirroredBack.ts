import { reverseWinding } from './face/index.ts';
import type { RawScan } from './scan/index.ts';

/**
 * The scan whose file was written as a mirror image, laid right again: x → −x, and every triangle wound the other way, so that outward
 * stays outward. Only ever at the user's word. Twice gives the scan back.
 */
export function mirroredBack({ totals: _ofTheFile, ...raw }: RawScan): RawScan {
  const { mesh } = raw;
  const positions = mesh.positions.slice();
  for (let i = 0; i < positions.length; i += 3) positions[i] = -positions[i];
  const [x, y, z] = mesh.offset;
  return { ...raw, mesh: reverseWinding({ ...mesh, positions, offset: [-x, y, z] }) };
}
