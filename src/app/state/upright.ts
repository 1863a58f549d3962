import { useEffect } from 'react';
import { type Standing, turnOfSubject, type Upright, uprightAlone, uprightTogether } from '../../core/read/index.ts';
import type { ComparisonView, FaceView } from '../../workers/browser/protocol.ts';
import { type Pair, usePair } from './select.ts';
import { getState, setState } from './store.ts';

/** What is known of the top of a face on the plate. */
function standing({ sense, outline, upFrom, upright }: FaceView): Standing {
  const deg = upright && (sense === 'intaglio' ? upright.turnDeg : -upright.turnDeg);
  const top = upright && deg !== undefined ? { deg, from: upright.from } : null;
  return { sense, outline, upFrom: upFrom as Standing['upFrom'], top };
}

/** Of one face by itself. */
export const ownUpright = (face: FaceView): Upright => uprightAlone(standing(face));

/** How far the subject is turned where it lies on the reference; null where none was laid so, or only as a mirror image. */
function subjectTurn(reference: FaceView, subject: FaceView, comparison: ComparisonView | undefined): number | null {
  if (!comparison?.fit.found || comparison.fit.mirrored) return null;
  const fitted = comparison.referenceFaceFromSubjectFace[comparison.fit.chosen];
  return fitted ? turnOfSubject(reference.sense, subject.sense, fitted) : 0;
}

/** How the pair stands on the plate: by the firmest ground that either of the two gives. */
export function uprightOfPair({ reference, subject, comparison }: Pair): Upright {
  if (!reference) return subject ? ownUpright(subject) : { turnDeg: 0, from: 'scan' };
  if (!subject) return ownUpright(reference);
  return uprightTogether(standing(reference), standing(subject), subjectTurn(reference, subject, comparison));
}

/** How a face stands by itself: as it lies in its pair, so that it stands alike in every room. */
export function uprightOf(face: FaceView, pair: Pair): Upright {
  const own = ownUpright(face);
  const { reference, subject, comparison } = pair;
  if (own.from === 'stated' || !reference || !subject) return own;
  const laid = subjectTurn(reference, subject, comparison);
  if (laid === null || (face !== reference && face !== subject)) return own;
  const { turnDeg } = uprightOfPair(pair);
  const stands = face === reference ? turnDeg : turnDeg + laid;
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
