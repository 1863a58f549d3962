import { useEffect } from 'react';
import { compose, identity, invert, type Similarity, turnOver } from '../../core/geometry/index.ts';
import type { ComparisonView, FaceView } from '../../workers/browser/protocol.ts';
import { type Pair, usePair } from './select.ts';
import { getState, setState } from './store.ts';

/** From what the top of a design is taken: stated by the user, the object's own axis, its partner on the plate, its motif, the sign at the top of its legend, or only as the scan lies. */
export type UpFrom = 'stated' | 'longAxis' | 'partner' | 'motif' | 'cross' | 'scan';

export interface Upright {
  /** Turn of the picture that brings the design upright, degrees clockwise in the impression's sense. */
  readonly turnDeg: number;
  readonly from: UpFrom;
}

/** From the firmest to the weakest. */
const firmness: readonly UpFrom[] = ['stated', 'longAxis', 'motif', 'cross', 'partner', 'scan'];

/** The less, the firmer. The outline of a cake says less than that of a pointed seal. */
const rank = ({ from }: Upright, { outline: { shape } }: FaceView): number =>
  firmness.indexOf(from) + (from === 'longAxis' && shape !== 'pointedOval' && shape !== 'shield' ? 0.5 : 0);

/** Of one face by itself. */
export function ownUpright({ upright, upFrom, sense }: FaceView): Upright {
  if (upFrom === 'stated' || upFrom === 'longAxis') return { turnDeg: 0, from: upFrom };
  if (!upright) return { turnDeg: 0, from: 'scan' };
  return { turnDeg: sense === 'intaglio' ? -upright.turnDeg : upright.turnDeg, from: upright.from };
}

/** In the impression's sense an engraved face lies turned over. */
const impressionFrom = ({ sense }: FaceView): Similarity => (sense === 'intaglio' ? turnOver : identity);

/** How far the subject's own picture is turned, clockwise, when it lies on the reference's; both in the impression's sense. */
function turnOfSubject(
  reference: FaceView,
  subject: FaceView,
  { fit, referenceFaceFromSubjectFace }: ComparisonView,
): number {
  const fitted = referenceFaceFromSubjectFace[fit.chosen];
  if (!fitted) return 0;
  const { rotation } = compose(compose(impressionFrom(reference), fitted), invert(impressionFrom(subject)));
  return (Math.atan2(rotation[1], rotation[4]) * 180) / Math.PI;
}

/** A partner says nothing through a mirror. */
const laid = (comparison: ComparisonView | undefined): comparison is ComparisonView =>
  comparison?.fit.found === true && !comparison.fit.mirrored;

/** How the pair stands on the plate: by the firmest ground that either of the two gives. */
export function uprightOfPair({ reference, subject, comparison }: Pair): Upright {
  if (!reference) return subject ? ownUpright(subject) : { turnDeg: 0, from: 'scan' };
  const own = ownUpright(reference);
  if (!subject || !laid(comparison)) return own;
  const other = ownUpright(subject);
  if (rank(other, subject) >= rank(own, reference)) return own;
  return { turnDeg: other.turnDeg - turnOfSubject(reference, subject, comparison), from: other.from };
}

/** How a face stands by itself: as it lies in its pair, so that it stands alike in every room. */
export function uprightOf(face: FaceView, pair: Pair): Upright {
  const own = ownUpright(face);
  const { reference, subject, comparison } = pair;
  if (own.from === 'stated' || !reference || !subject || !laid(comparison)) return own;
  if (face !== reference && face !== subject) return own;
  const { turnDeg } = uprightOfPair(pair);
  const stands = face === reference ? turnDeg : turnDeg + turnOfSubject(reference, subject, comparison);
  return { turnDeg: stands, from: Math.abs(stands - own.turnDeg) < 0.05 ? own.from : 'partner' };
}

/** How far a face stands turned from where it was found, degrees clockwise as seen on the face itself: stated, or as it is shown by its pair. */
export function turnedOnFace(face: FaceView, pair: Pair, upDeg = 0): number {
  const { turnDeg } = uprightOf(face, pair);
  const deg = upDeg + (face.sense === 'intaglio' ? -turnDeg : turnDeg);
  return Math.round(10 * (((deg + 540) % 360) - 180)) / 10;
}

/** Turn of the plate; of one face alone, where that is shown. */
export function useTurnDeg(alone?: FaceView): number {
  const pair = usePair();
  const { turnDeg } = alone ? uprightOf(alone, pair) : uprightOfPair(pair);
  useEffect(() => setState({ turnDeg }), [turnDeg]);
  return turnDeg;
}

/** The turn of the plate for whoever is no component. */
export const turnDegNow = (): number => getState().turnDeg;
