import type { Face } from '../face/index.ts';
import {
  apply,
  compose,
  type HeightGrid,
  invert,
  resampleGrid,
  rotate,
  type Similarity,
  sampleGrid,
  withHeights,
  xOf,
  yOf,
} from '../geometry/index.ts';
import type { FitModel } from './types.ts';
import { applyWarp } from './warp.ts';

/** Both faces' detail on the same cells of the reference's face plane, as the reference's side sees it. */
export interface AlignedRelief {
  readonly reference: HeightGrid;
  /** Sign and size brought to the reference's; no data where the subject has none. */
  readonly subject: HeightGrid;
}

/**
 * Brings the subject's detail onto the reference's face plane under a model of the fit: for each cell the place of the
 * subject's face that the model puts there, its height times the size ratio, with the sign of the turned-over face.
 * `pitch` in mm; the window is the reference's.
 */
export function alignRelief(
  reference: Face,
  subject: Face,
  model: FitModel,
  pitch = reference.detail.pitch,
): AlignedRelief {
  const onto = resampleGrid(reference.detail, pitch);
  const faceFromFace = faceMotion(reference, subject, model);
  const back = invert(faceFromFace);
  const sign = rotate(faceFromFace.rotation, [0, 0, 1])[2] < 0 ? -1 : 1;
  const factor = sign * faceFromFace.scale;
  const z = new Float32Array(onto.z.length);
  const mask = new Uint8Array(onto.mask.length);
  for (let row = 0, i = 0; row < onto.height; row++)
    for (let col = 0; col < onto.width; col++, i++) {
      const [x, y] = unbend(model, xOf(onto, col), yOf(onto, row));
      const p = apply(back, [x, y, 0]);
      const height = sampleGrid(subject.detail, p[0], p[1]);
      if (Number.isNaN(height)) continue;
      mask[i] = 1;
      z[i] = factor * height;
    }
  return { reference: onto, subject: withHeights(onto, z, mask) };
}

/** Reference face ← subject face. */
export function faceMotion(
  reference: Pick<Face, 'faceFromScan'>,
  subject: Pick<Face, 'faceFromScan'>,
  model: FitModel,
): Similarity {
  return compose(compose(reference.faceFromScan, model.referenceFromSubject), invert(subject.faceFromScan));
}

/** Where the similarity alone would have put what the warp puts at (x, y); three fixed-point rounds leave under 0.1 µm. */
export function unbend({ warp }: FitModel, x: number, y: number): [number, number] {
  if (!warp) return [x, y];
  let u = x;
  let v = y;
  for (let round = 0; round < 3; round++) {
    const p = applyWarp(warp, [u, v, 0]);
    u += x - p[0];
    v += y - p[1];
  }
  return [u, v];
}
