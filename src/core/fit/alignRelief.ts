import type { Face } from '../face/index.ts';
import { type HeightGrid, resampleGrid, withHeights } from '../geometry/index.ts';
import { subjectSurface } from './subjectSurface.ts';
import type { FitModel } from './types.ts';

/** Both faces' detail on the same cells of the reference's face plane, as the reference's side sees it. */
export interface AlignedRelief {
  readonly reference: HeightGrid;
  /** Sign and size brought to the reference's; no data where the subject has none. */
  readonly subject: HeightGrid;
}

/** Brings the subject's detail onto the reference's face plane under a model of the fit. `pitch` in mm; the window is the reference's. */
export function alignRelief(
  reference: Face,
  subject: Face,
  model: FitModel,
  pitch = reference.detail.pitch,
): AlignedRelief {
  const onto = resampleGrid(reference.detail, pitch);
  const surface = subjectSurface(onto, false, reference, subject, model);
  const z = new Float32Array(onto.z.length);
  const mask = new Uint8Array(onto.mask.length);
  for (let row = 0, i = 0; row < onto.height; row++)
    for (let col = 0; col < onto.width; col++, i++) {
      const height = surface.at(col, row);
      if (Number.isNaN(height)) continue;
      mask[i] = 1;
      z[i] = height;
    }
  return { reference: onto, subject: withHeights(onto, z, mask) };
}
