import type { Face } from '../face/index.ts';
import { type HeightGrid, turnGridOver } from '../geometry/index.ts';
import { type Turning, turnedCode, wordsPerFeature, writeCode } from './code.ts';
import { describe } from './describe.ts';
import { keypoints } from './keypoints.ts';
import { scaleSpace, working } from './scaleSpace.ts';
import type { Features } from './types.ts';

/** The image of a face in the sense of the impression, as far as the face states its sense. */
export const impressionImage = ({ image, sense }: Pick<Face, 'image' | 'sense'>): HeightGrid =>
  sense === 'intaglio' ? turnGridOver(image) : image;

/** Places of the image that stand out, and what is around them; the strongest of every part of the face first. */
export function featuresOf(image: HeightGrid, most: number): Features {
  const grid = working(image);
  const levels = scaleSpace(grid);
  const described = describe(grid, levels, keypoints(grid, levels, most)).slice(0, most);
  const count = described.length;
  const code = new Uint32Array(count * wordsPerFeature);
  described.forEach(({ vector }, i) => {
    writeCode(vector, code, i * wordsPerFeature);
  });
  return {
    count,
    x: Float32Array.from(described, ({ at }) => at.x),
    y: Float32Array.from(described, ({ at }) => at.y),
    sigma: Float32Array.from(described, ({ at }) => at.sigmaMm),
    angle: Float32Array.from(described, ({ angle }) => angle),
    up: Uint8Array.from(described, ({ at }) => (at.up ? 1 : 0)),
    code,
  };
}

/** The features of the face turned over, or seen in a mirror. */
export function turnedFeatures(features: Features, turning: Turning): Features {
  if (turning === 'asItLies') return features;
  const over = turning === 'turnedOver';
  return {
    ...features,
    x: features.x.map((x) => -x),
    angle: features.angle.map((angle) => (over ? -angle : Math.PI - angle)),
    up: over ? features.up.map((up) => 1 - up) : features.up,
    code: turnedCode(features.code, turning),
  };
}
