import type { Face } from '../face/index.ts';
import { chosenModel, type Fit, faceMotion } from '../fit/index.ts';
import { compose, identity, invert, type Similarity, turnOver } from '../geometry/index.ts';
import { type LikelyTop, likelyTop } from './strip/likelyTop.ts';

/** From what the top of a design is taken: stated by the user, the object's own axis, its partner, its motif, the sign at the top of its legend, or only as the scan lies. */
export type UpFrom = 'stated' | 'longAxis' | 'partner' | 'motif' | 'cross' | 'scan';

export interface Upright {
  /** Turn of the picture that brings the design upright, degrees clockwise in the impression's sense. */
  readonly turnDeg: number;
  readonly from: UpFrom;
}

/** What is known of the top of one face. */
export interface Standing {
  readonly sense: Face['sense'];
  readonly outline: { readonly shape: Face['outline']['shape'] };
  readonly upFrom: Face['upFrom'];
  /** Guessed, where neither its owner nor its outline tells it. */
  readonly top: LikelyTop | null;
}

/** From the firmest to the weakest. */
const firmness: readonly UpFrom[] = ['stated', 'longAxis', 'motif', 'cross', 'partner', 'scan'];

/** The less, the firmer. The outline of a cake says less than that of a pointed seal. */
const rank = ({ from }: Upright, { outline: { shape } }: Standing): number =>
  firmness.indexOf(from) + (from === 'longAxis' && shape !== 'pointedOval' && shape !== 'shield' ? 0.5 : 0);

/** Of one face by itself. */
export function uprightAlone({ upFrom, top }: Standing): Upright {
  if (upFrom !== 'scan') return { turnDeg: 0, from: upFrom };
  return top ? { turnDeg: -top.deg || 0, from: top.from } : { turnDeg: 0, from: 'scan' };
}

/** In the impression's sense an engraved face lies turned over. */
const impressionFrom = (sense: Face['sense']): Similarity => (sense === 'intaglio' ? turnOver : identity);

/** How far the subject's own picture is turned, degrees clockwise, when it lies on the reference's; both in the impression's sense. */
export function turnOfSubject(
  reference: Face['sense'],
  subject: Face['sense'],
  referenceFromSubject: Similarity,
): number {
  const { rotation } = compose(
    compose(impressionFrom(reference), referenceFromSubject),
    invert(impressionFrom(subject)),
  );
  return (Math.atan2(rotation[1], rotation[4]) * 180) / Math.PI;
}

/** How a pair stands in the reference's frame: by the firmest ground that either of the two gives. `subjectTurnDeg`: how the subject lies, where it is known. */
export function uprightTogether(reference: Standing, subject: Standing, subjectTurnDeg: number | null): Upright {
  const own = uprightAlone(reference);
  if (subjectTurnDeg === null) return own;
  const other = uprightAlone(subject);
  if (rank(other, subject) >= rank(own, reference)) return own;
  return { turnDeg: ((other.turnDeg - subjectTurnDeg + 900) % 360) - 180, from: other.from };
}

/** Guesses that were made before: they are asked for by every figure and every sentence that names an hour. */
const knownTops = new WeakMap<Face, LikelyTop | null>();

/** What is known of the top of a face, guessed where it must be. */
export function standing(face: Face): Standing {
  const { sense, outline, upFrom } = face;
  if (upFrom !== 'scan') return { sense, outline, upFrom, top: null };
  const known = knownTops.get(face);
  const top = known === undefined ? likelyTop(face) : known;
  knownTops.set(face, top);
  return { sense, outline, upFrom, top };
}

/** How the pictures of a pair stand, in the reference's face frame and the impression's sense. A partner says nothing through a mirror. */
export function uprightOfFaces(reference: Face, subject: Face, fit: Fit): Upright {
  const model = fit.found && !fit.mirrored ? chosenModel(fit) : undefined;
  const turnDeg = model ? turnOfSubject(reference.sense, subject.sense, faceMotion(reference, subject, model)) : null;
  return uprightTogether(standing(reference), standing(subject), turnDeg);
}

/** A place on a face as it is seen once the picture is turned: degrees clockwise from the top, and the clock hour. */
export function placeTurned<T extends { readonly deg: number; readonly hour: number }>(at: T, turnDeg: number): T {
  const deg = (((at.deg + turnDeg) % 360) + 360) % 360;
  return { ...at, deg, hour: Math.round(deg / 30) % 12 || 12 };
}
