import type { Face } from '../face/index.ts';
import { chosenModel, type Fit } from '../fit/index.ts';
import type { Asked } from './asked.ts';
import { leastNamed } from './question.ts';
import type { Finding, ImageSize } from './types.ts';

/**
 * The images of a negative and the positive that was made from it. A matrix ends where its image ends: its outline is the
 * image's. The wax does not, and a lip hides the edge: its image is the matrix's, scaled by the fit, in the matrix's own
 * upright. Null for both where one matrix is not supported or the roles are not sure: the outline may be the cake's.
 */
export function imageSizes(
  reference: Pick<Face, 'outline'>,
  subject: Pick<Face, 'outline'>,
  fit: Fit,
  { question, senses, confidence }: Asked,
  finding: Finding,
): readonly [reference: ImageSize | null, subject: ImageSize | null] {
  const model = fit.found ? chosenModel(fit) : undefined;
  if (!model || fit.mirrored || finding !== 'supported' || question !== 'madeFrom' || confidence < leastNamed)
    return [null, null];
  return senses?.[0] === 'intaglio'
    ? [ownImage(reference), scaledImage(reference, 1 / model.scale)]
    : [scaledImage(subject, model.scale), ownImage(subject)];
}

const ownImage = ({ outline: { widthMm, heightMm, shape } }: Pick<Face, 'outline'>): ImageSize => ({
  widthMm,
  heightMm,
  shape,
  edge: 'matrixEdge',
  from: 'itself',
});

const scaledImage = (negative: Pick<Face, 'outline'>, scale: number): ImageSize => {
  const { widthMm, heightMm, ...image } = ownImage(negative);
  return { ...image, widthMm: widthMm * scale, heightMm: heightMm * scale, from: 'partner' };
};
