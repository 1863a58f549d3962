import { type Face, matrixEdge, type Sense } from '../face/index.ts';
import { chosenModel, type Fit } from '../fit/index.ts';
import type { Asked } from './asked.ts';
import { leastNamed } from './question.ts';
import type { Finding, ImageSize } from './types.ts';

/** A sense's confidence at which it cannot be told. */
const evenly = 0.5;

type Sized = Pick<Face, 'detail' | 'outline' | 'senseConfidence'>;

/** Images of reference and subject by their own edges; null for a positive, and for what by itself is rather one: a cake of wax in a file wound the wrong way. */
export type OwnImages = readonly [reference: ImageSize | null, subject: ImageSize | null];

export function ownImages(reference: Sized, subject: Sized, { senses, confidence }: Asked): OwnImages {
  if (!senses || confidence < leastNamed) return [null, null];
  return [ownImage(reference, senses[0]), ownImage(subject, senses[1])];
}

/**
 * The images of a pair. A matrix ends where its image ends, so its own edge tells, whatever the finding. The wax does not, and a lip hides
 * the edge: the image of what was pressed is estimated by the matrix's, scaled by the fit, where one matrix is supported. Null where the
 * roles are not sure, and of positives without their matrix: the outline may be the cake's.
 */
export function imageSizes(own: OwnImages, fit: Fit, { question }: Asked, finding: Finding): OwnImages {
  const model = fit.found && !fit.mirrored && question === 'madeFrom' ? chosenModel(fit) : undefined;
  if (!model || finding !== 'supported') return own;
  return [own[0] ?? scaled(own[1], model.scale), own[1] ?? scaled(own[0], 1 / model.scale)];
}

const ownImage = (face: Sized, sense: Sense): ImageSize | null =>
  sense === 'intaglio' && face.senseConfidence >= evenly
    ? { ...matrixEdge(face), edge: 'matrixEdge', from: 'itself' }
    : null;

const scaled = (negative: ImageSize | null, scale: number): ImageSize | null =>
  negative && {
    ...negative,
    widthMm: negative.widthMm * scale,
    heightMm: negative.heightMm * scale,
    from: 'partner',
  };
