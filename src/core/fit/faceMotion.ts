import type { Face } from '../face/index.ts';
import { compose, invert, type Similarity } from '../geometry/index.ts';
import type { FitModel } from './types.ts';

/** Reference face ← subject face. */
export function faceMotion(
  reference: Pick<Face, 'faceFromScan'>,
  subject: Pick<Face, 'faceFromScan'>,
  model: FitModel,
): Similarity {
  return compose(compose(reference.faceFromScan, model.referenceFromSubject), invert(subject.faceFromScan));
}
