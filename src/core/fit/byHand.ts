import { type Face, finest } from '../face/index.ts';
import { apply, type Similarity } from '../geometry/index.ts';
import { faceMotion } from './faceMotion.ts';
import { chosenModel } from './modelSelection.ts';
import { type Candidate, distinct, improvePlaces, type Searched } from './search.ts';
import { nudge, type PlanarFit, turnBetweenDeg } from './similarity2d.ts';
import { planarFromPairs } from './similarity2dFromPairs.ts';
import type { Doubt, Fit, FitStart, PointPair, StartRefusal, StartTaken } from './types.ts';

export const byHandDefaults = {
  /** Size ratios that the search covers. */
  scales: [0.87, 1.14] as const,
  /** Pairs nearer to one another than this share of the reference's size say nothing of the turn. */
  leastSpread: 0.1,
  /** Pairs that no similarity brings nearer than this share of the size mark different places. */
  mostRest: 0.07,
  /** Rest under the stated senses, as a share of the size, from which three pairs or more may speak against them. */
  spokenRest: 0.04,
};

/**
 * What the search found, with the place that was put by hand as the best: improved on the relief like any other, with
 * the search's own places, its favourite among them, as rivals. Whether the faces agree there is judged as ever.
 */
export function startByHand(
  reference: Face,
  subject: Face,
  searched: Searched,
  start: FitStart,
  options = byHandDefaults,
): Searched {
  const own = searched.best;
  const taken = { by: 'hand', start, searchSignificance: own.significance } as const;
  const [a, b] = searched.exchanged ? [subject, reference] : [reference, subject];
  const placed =
    start.from === 'turn' ? placeOfTurn(start, searched) : placeOfPairs(start.pairs, a, b, searched, options);
  const refused = placed.refused ?? refusalOf(placed.fit, options);
  if (refused) return { ...searched, start: { ...taken, refused } };
  const [best] = improvePlaces(finest(a), finest(b), searched.sizeMm, [placed.fit]);
  return {
    ...searched,
    best,
    rivals: distinct([own, ...searched.rivals]).filter((other) => !isSamePlace(other, best)),
    start: {
      ...taken,
      fromSearchDeg: callersTurn(turnBetweenDeg(best.fit, own.fit), searched.exchanged, own),
      ...(placed.restMm !== undefined && { pairsRestMm: placed.restMm }),
    },
  };
}

/** A place in the plane, or why there is none. */
interface Placed {
  readonly fit: PlanarFit;
  readonly restMm?: number;
  readonly refused?: StartRefusal;
}

const isSamePlace = (a: Candidate, b: Candidate): boolean => distinct([a, b]).length === 1;

function refusalOf({ scale }: PlanarFit, { scales }: typeof byHandDefaults): StartRefusal | undefined {
  const [leastScale, mostScale] = scales;
  if (scale >= leastScale && scale <= mostScale) return undefined;
  return { code: 'scaleOutOfRange', scale, leastScale, mostScale };
}

/** The rival that lies there, or the search's own place turned about the middle of the face. */
function placeOfTurn(start: Extract<FitStart, { from: 'turn' }>, { best, rivals, exchanged }: Searched): Placed {
  const turnDeg = callersTurn(start.turnDeg, exchanged, best);
  const lies = [best, ...rivals].find((one) => Math.abs(wrapDeg(turnBetweenDeg(one.fit, best.fit) - turnDeg)) < 4);
  const at = lies?.fit ?? nudge(best.fit, (-turnDeg * Math.PI) / 180, 0, 0, 0);
  if (start.scale === undefined) return { fit: at };
  const scale = exchanged ? 1 / start.scale : start.scale;
  return { fit: nudge(at, 0, scale / at.scale - 1, 0, 0) };
}

/** Exchanged and turned over, the other face sees the same turn go the same way; else the opposite way. */
const callersTurn = (deg: number, exchanged: boolean, { fit }: Candidate): number =>
  exchanged && !fit.negate ? -deg : deg;

const wrapDeg = (deg: number): number => ((((deg + 180) % 360) + 360) % 360) - 180;

/**
 * The similarity of the plane between the marked places. Two pairs leave open whether the faces lie turned over: the
 * senses of the two say so. Three or more may speak against the senses, which open sheets tell badly.
 */
function placeOfPairs(
  pairs: readonly PointPair[],
  a: Face,
  b: Face,
  { best, exchanged, mirrored, sizeMm }: Searched,
  options: typeof byHandDefaults,
): Placed {
  const refuse = (refused: StartRefusal): Placed => ({ fit: best.fit, refused });
  if (pairs.length < 2) return refuse({ code: 'tooFewPairs' });
  const from = pairs.map((pair) => (exchanged ? pair.reference : pair.subject));
  const to = pairs.map((pair) => (exchanged ? pair.subject : pair.reference));
  const opposite = a.sense !== b.sense;
  const lay = (flipX: boolean) => planarFromPairs(from, to, flipX, mirrored ? !flipX : flipX);
  const [stated, other] = [lay(opposite !== mirrored), lay(opposite === mirrored)];
  if (stated.spreadMm < options.leastSpread * sizeMm) return refuse({ code: 'placesTooNear' });
  // Places on one line fit both ways alike, so only a rest that is large speaks against the senses.
  const speaks = pairs.length > 2 && stated.restMm > options.spokenRest * sizeMm && other.restMm < 0.5 * stated.restMm;
  const chosen = speaks ? other : stated;
  if (chosen.restMm > options.mostRest * sizeMm) return refuse({ code: 'placesUnlike', restMm: chosen.restMm });
  return { fit: chosen.fit, restMm: exchanged ? chosen.restMm / chosen.fit.scale : chosen.restMm };
}

/**
 * The fit with its start beside it, and in its doubts what is to be said of that: a start that was refused is no fit.
 * `fit`, `reference` and `subject` in the order of the caller.
 */
export function withStart(fit: Fit, reference: Face, subject: Face, start: StartTaken | undefined): Fit {
  if (!start) return fit;
  const model = chosenModel(fit);
  const pairs = start.start.from === 'pairs' && !start.refused ? start.start.pairs : [];
  const taken =
    pairs.length > 0 ? { ...start, pairsApartMm: pairsApart(pairs, faceMotion(reference, subject, model)) } : start;
  const found = fit.found && !start.refused;
  const own = startDoubts(taken, fit.significance, found);
  return { ...fit, found, start: taken, doubts: [...own, ...fit.doubts] };
}

/** Root mean square distance of the marked places in the reference's face plane under a motion of the faces, mm. */
function pairsApart(pairs: readonly PointPair[], referenceFaceFromSubjectFace: Similarity): number {
  const squares = pairs.map(({ reference, subject }) => {
    const [x, y] = apply(referenceFaceFromSubjectFace, [subject[0], subject[1], 0]);
    return (x - reference[0]) ** 2 + (y - reference[1]) ** 2;
  });
  return Math.sqrt(squares.reduce((sum, value) => sum + value, 0) / squares.length);
}

function startDoubts(taken: StartTaken, significance: number, found: boolean): Doubt[] {
  const { refused, searchSignificance, pairsApartMm = 0, pairsRestMm = 0 } = taken;
  if (refused) return [{ code: 'startRefused', why: refused }];
  const doubts: Doubt[] = [];
  if (!found) doubts.push({ code: 'startDisagrees' });
  if (searchSignificance > 1.05 * significance)
    doubts.push({ code: 'searchPrefersAnother', searchSigma: searchSignificance, fitSigma: Math.max(0, significance) });
  if (pairsApartMm > 2 * pairsRestMm + 2) doubts.push({ code: 'leftMarkedPlaces', apartMm: pairsApartMm });
  return doubts;
}
