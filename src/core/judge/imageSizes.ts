import { type Face, matrixEdge, type Sense } from '../face/index.ts';
import { chosenModel, type Fit } from '../fit/index.ts';
import type { Asked } from './asked.ts';
import { leastNamed } from './question.ts';
import type { Finding, ImageSize } from './types.ts';

type Sized = Pick<Face, 'detail' | 'outline'>;

/**
 * The images of a pair. A matrix ends where its image ends, so its own edge tells, whatever the finding. The wax does not, and a lip hides
 * the edge: the image of what was pressed is the matrix's, scaled by the fit, where one matrix is supported. Null where the roles are not
 * sure, and of positives without their matrix: the outline may be the cake's.
 */
export function imageSizes(
  reference: Sized,
  subject: Sized,
  fit: Fit,
  { question, senses, confidence }: Asked,
  finding: Finding,
): readonly [reference: ImageSize | null, subject: ImageSize | null] {
  if (!senses || confidence < leastNamed) return [null, null];
  const own = [reference, subject].map((face, k) => ownImage(face, senses[k]));
  const model = fit.found && !fit.mirrored && question === 'madeFrom' ? chosenModel(fit) : undefined;
  if (!model || finding !== 'supported') return [own[0], own[1]];
  return [own[0] ?? scaled(own[1], model.scale), own[1] ?? scaled(own[0], 1 / model.scale)];
}

const ownImage = (face: Sized, sense: Sense): ImageSize | null =>
  sense === 'intaglio' ? { ...matrixEdge(face), edge: 'matrixEdge', from: 'itself' } : null;

const scaled = (negative: ImageSize | null, scale: number): ImageSize | null =>
  negative && {
    ...negative,
    widthMm: negative.widthMm * scale,
    heightMm: negative.heightMm * scale,
    from: 'partner',
  };
