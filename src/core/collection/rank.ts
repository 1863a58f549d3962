import { type Agreement, agreementOf } from './agreement.ts';
import type { Turning } from './code.ts';
import { unpackFeatures } from './pack.ts';
import { type GlobalTable, openGlobals, type Shortlisted, shortlist } from './shortlist.ts';
import type { FaceIndex, Features } from './types.ts';

export const rankDefaults = {
  /** Faces of the shortlist whose features are laid on the query's, for each candidate wanted, and at least. */
  laidPerWanted: 4,
  leastLaid: 80,
  /** A candidate is worth a verification from this score of agreement on: more than chance reached on 380 pairs of real faces of other tools (4.8). */
  likelyScore: 5,
  /** A reflection is told where it scores so many times as much as the better proper way. */
  reflectionOver: 1.5,
};

/** A face that a search puts forward, and why. Never called a match. */
export interface Candidate {
  /** Place in the table that was searched. */
  readonly index: number;
  /** That of the agreement: what the order goes by. */
  readonly score: number;
  /** Worth a verification. */
  readonly likely: boolean;
  readonly why: Why;
}

/** What a candidate rests on, as plain numbers; `agreement` says what they mean. */
export interface Why extends Pick<Agreement, 'inliers' | 'alike' | 'turnDeg' | 'turnedOver' | 'scale'> {
  /** The face agrees better as seen in a mirror: one of the two files is mirrored, or the design is much like its mirror image. */
  readonly mirrored: boolean;
  /** Score of the shortlist. */
  readonly listed: number;
  /** Area over which the query's features lie, in place on the candidate, over that of the candidate's: small for a part of it. */
  readonly areaShare: number;
  /** Places that agree, in the frames of the two faces in the impression's sense, mm: x, y pairs. */
  readonly onQuery: readonly number[];
  readonly onCandidate: readonly number[];
}

/** How far two faces agree by their indices: both proper ways and the reflection, which is told as a mirrored file. */
export const agreement = (query: FaceIndex, candidate: FaceIndex): Agreement =>
  agreementOf(unpackFeatures(query.local), unpackFeatures(candidate.local), ['asItLies', 'turnedOver', 'mirrored']);

/** The shortlisted faces in the order of their agreement with the query, the best `want` of them. */
export function rank(
  query: FaceIndex,
  shortlisted: readonly (Shortlisted & { readonly local: Uint8Array })[],
  want: number,
  options = rankDefaults,
): Candidate[] {
  const own = unpackFeatures(query.local);
  const ownArea = areaOf(own);
  const laid = shortlisted.map(({ index, score, turning, local }) => {
    const features = unpackFeatures(local);
    const found = agreementOf(own, features, [turning as Turning]);
    const area = areaOf(features);
    return { index, listed: score, found, features, areaShare: area > 0 ? (ownArea * found.scale ** 2) / area : 0 };
  });
  laid.sort(
    (a, b) =>
      b.found.score - a.found.score || b.found.inliers - a.found.inliers || b.listed - a.listed || a.index - b.index,
  );
  return laid.slice(0, want).map(({ index, listed, areaShare, found, features }) => {
    const { score, inliers, alike, turnDeg, turnedOver, scale } = found;
    const mirrored = agreementOf(own, features, ['mirrored']).score > options.reflectionOver * score;
    const places = { onQuery: Array.from(found.onQuery), onCandidate: Array.from(found.onCandidate) };
    const why: Why = { inliers, alike, turnDeg, turnedOver, mirrored, scale, listed, areaShare, ...places };
    return { index, score, likely: score >= options.likelyScore && !mirrored, why };
  });
}

/**
 * A search from end to end: shortlist by the global forms, then agreement of local features. `localOf` gives the local form of a place in
 * the table; it is asked for the shortlist only.
 */
export function findCandidates(
  query: FaceIndex,
  table: { readonly count: number; readonly bytes: Uint8Array },
  localOf: (place: number) => Uint8Array,
  want: number,
  options = rankDefaults,
): Candidate[] {
  const opened: GlobalTable = openGlobals(table);
  const list = shortlist(query, opened, Math.max(options.leastLaid, options.laidPerWanted * want));
  return rank(
    query,
    list.map((one) => ({ ...one, local: localOf(one.index) })),
    want,
    options,
  );
}

/** Area of the ellipse of second moments of the places, mm²: (4π) times the root of the determinant of their covariance. */
function areaOf({ count, x, y }: Features): number {
  if (count < 3) return 0;
  let [mx, my] = [0, 0];
  for (let i = 0; i < count; i++) [mx, my] = [mx + x[i] / count, my + y[i] / count];
  let [xx, xy, yy] = [0, 0, 0];
  for (let i = 0; i < count; i++) {
    const [dx, dy] = [x[i] - mx, y[i] - my];
    [xx, xy, yy] = [xx + (dx * dx) / count, xy + (dx * dy) / count, yy + (dy * dy) / count];
  }
  return 4 * Math.PI * Math.sqrt(Math.max(0, xx * yy - xy * xy));
}
