import type { Face } from '../face/index.ts';
import { featuresOf, impressionImage } from './features.ts';
import { mostLocal, packFeatures } from './pack.ts';
import type { FaceIndex } from './types.ts';

/**
 * What a collection is searched by, of one sealed face: the places of its image that stand out, each with a code of the relief around
 * it that is the same at any turn and size, brought to the impression's sense. `global` is of fixed length (2,048 bytes),
 * `local` at most 38 kB. A bare face gives an index that finds nothing and is found by nothing.
 */
export const indexFace = (face: Pick<Face, 'image' | 'sense'>): FaceIndex =>
  packFeatures(featuresOf(impressionImage(face), mostLocal));
