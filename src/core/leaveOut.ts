import { type ExcludedRegion, type Face, keptShare, withoutRegions } from './face/index.ts';
import {
  chosenModel,
  type Doubt,
  type Fit,
  type FitStart,
  faceMotion,
  type Searched,
  searchedAgain,
  searchedMotion,
  startByHand,
} from './fit/index.ts';
import { apply, invert, outlineArea, type Similarity, type Vec2 } from './geometry/index.ts';
import type { Landmark, Limit, LimitCode } from './judge/index.ts';

/** What a person gives beside the two scans. */
export interface Given {
  /** Where the fit begins instead of where the search ends; pairs of places belong to the faces as prepared. */
  readonly start?: FitStart | undefined;
  /** Regions of the reference's face, taken out of both faces before the surfaces are fitted and compared. */
  readonly excluded?: readonly ExcludedRegion[] | undefined;
  /** Landmarks of the reference's face, mm, in place of those found. */
  readonly landmarks?: readonly Landmark[] | undefined;
}

/** Less than this share of the reference's face is not worth a comparison. */
const leastLeft = 0.2;

/** Two faces without what was left out, and the search on them. */
export interface LaidOut {
  readonly reference: Face;
  readonly subject: Face;
  readonly searched: Searched;
  /** Too little is left: nothing was left out, and the fit counts as not found. */
  readonly refused?: Doubt;
}

/**
 * Takes the regions out of the reference, weighs the places of the search anew, begins where the person puts it, and
 * takes what lies over the regions there out of the subject. Without regions and start nothing changes.
 */
export function layOut(reference: Face, subject: Face, searched: Searched, { start, excluded = [] }: Given): LaidOut {
  const begun = (a: Face, found: Searched): Searched => (start ? startByHand(a, subject, found, start) : found);
  if (excluded.length === 0) return { reference, subject, searched: begun(reference, searched) };
  const cut = withoutRegions(
    reference,
    excluded.map(({ outline }) => outline),
  );
  if (keptShare(reference, cut) < leastLeft)
    return {
      reference,
      subject,
      searched,
      refused: { code: 'tooLittleLeft', leastShare: leastLeft },
    };
  const again = begun(cut, searchedAgain(cut, subject, searched));
  return { reference: cut, subject: cutSubject(subject, searchedMotion(again), excluded), searched: again };
}

/** The subject without what the fit lays on the regions. */
export function cutByFit(reference: Face, subject: Face, fit: Fit, { excluded = [] }: Given): Face {
  const model = chosenModel(fit);
  return excluded.length === 0 ? subject : cutSubject(subject, faceMotion(reference, subject, model), excluded);
}

function cutSubject(subject: Face, referenceFromSubject: Similarity, excluded: readonly ExcludedRegion[]): Face {
  const back = invert(referenceFromSubject);
  const place = ([x, y]: Vec2): Vec2 => {
    const [u, v] = apply(back, [x, y, 0]);
    return [u, v];
  };
  return withoutRegions(
    subject,
    excluded.map(({ outline }) => outline.map(place)),
  );
}

const byHand: ReadonlySet<LimitCode> = new Set(['leftOutByHand', 'landmarksByHand', 'startByHand']);

/** The same limits with the regions' reasons and names as they are now; their outlines are the same. */
export const rewordedLimits = (limits: readonly Limit[], fit: Fit, now: Given): Limit[] => [
  ...handLimits(fit, now),
  ...limits.filter(({ code }) => !byHand.has(code)),
];

/** What a person put by hand, as limits of the finding. */
export function handLimits({ start }: Fit, { excluded = [], landmarks }: Given): Limit[] {
  const limits = excluded.map(
    ({ outline, why, by }): Limit => ({ code: 'leftOutByHand', why, by, areaMm2: outlineArea(outline) }),
  );
  if (landmarks) limits.push({ code: 'landmarksByHand', landmarks: landmarks.length });
  if (!start || start.refused) return limits;
  const { start: at } = start;
  const began = at.from === 'pairs' ? { pairs: at.pairs.length } : { turnDeg: at.turnDeg };
  return [{ code: 'startByHand', ...began }, ...limits];
}
