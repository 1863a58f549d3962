import { compose, identity, rotationAbout, type Similarity, turnOver } from '../../core/geometry/index.ts';
import type { ComparisonView, FaceView } from '../../workers/browser/protocol.ts';
import type { Document } from '../state/document.ts';
import type { Role } from './panes.ts';

/**
 * Where a face lies on the plate: plate ← face frame. The plate is the reference's face plane in the impression's
 * sense (x right, y up the design, z toward the eye), so an engraved reference lies turned over on it; shown as it is,
 * it is turned back.
 */
export function plateFromFace(
  role: Role,
  face: FaceView,
  reference: FaceView | undefined,
  comparison: ComparisonView | undefined,
  document: Pick<Document, 'model' | 'view'> & { readonly rivalTurnDeg?: number | null },
): Similarity {
  const asIs = face.sense === 'intaglio' && document.view.engraved === 'asIs';
  const fitted = inImpressionSense(role, face, reference, comparison, document.model);
  const impression =
    role === 'subject' && document.rivalTurnDeg ? compose(turned(document.rivalTurnDeg), fitted) : fitted;
  return asIs ? compose(turnOver, impression) : impression;
}

/** A turn of the picture, degrees clockwise. */
function turned(deg: number): Similarity {
  return { ...identity, rotation: rotationAbout([0, 0, 1], (-deg * Math.PI) / 180) };
}

function inImpressionSense(
  role: Role,
  face: FaceView,
  reference: FaceView | undefined,
  comparison: ComparisonView | undefined,
  model: Document['model'],
): Similarity {
  const alone = face.sense === 'intaglio' ? turnOver : identity;
  if (role === 'reference' || !comparison?.fit.found || !reference) return alone;
  const named = model === 'chosen' ? comparison.fit.chosen : model;
  const fitted = comparison.referenceFaceFromSubjectFace[named];
  if (!fitted) return alone;
  return compose(reference.sense === 'intaglio' ? turnOver : identity, fitted);
}

/** How the caption calls what is shown. */
export function senseWords(face: FaceView, engraved: Document['view']['engraved']): string {
  if (face.sense === 'relief') return 'as it is';
  return engraved === 'asIs' ? 'as it is, engraved' : 'as its impression';
}
