import { compareFaces, type Depths, type Difference } from './compare/index.ts';
import type { ExcludedRegion } from './face/index.ts';
import type { Fit } from './fit/index.ts';
import { type Fitted, fitBestFaces } from './fitBestFaces.ts';
import { partOf, report, type Watch } from './geometry/index.ts';
import {
  type JudgedParts,
  type Judgement,
  judge,
  type KnownScores,
  type PairEvidence,
  sizeAsJudged,
  type WeighedFinding,
  weighedFinding,
  weighPlaces,
} from './judge/index.ts';
import { type Given, handLimits } from './leaveOut.ts';
import type { PreparedScan } from './prepare.ts';

export { type Fitted, fitBestFaces } from './fitBestFaces.ts';
export { type Given, rewordedLimits } from './leaveOut.ts';

export {
  type Find,
  type FoundScan,
  isInMillimetres,
  type PreparedScan,
  preparePair,
  prepareScan,
  readAndFind,
  type ScanInput,
  withSurface,
} from './prepare.ts';

/** The whole of one comparison. */
export interface Comparison {
  readonly reference: PreparedScan;
  readonly subject: PreparedScan;
  readonly fit: Fit;
  /** Null where no fit was found. */
  readonly difference: Difference | null;
  readonly judgement: Judgement;
  /** What a person left out of both faces; the faces here still carry it. */
  readonly excluded?: readonly ExcludedRegion[];
}

/**
 * The job from two prepared scans to the finding: scan → face → **fit → places → depth differences → surfaces** (→ report).
 * An uncertain answer is a result; only a cancelled job throws. `known`: scores of the user's own known pairs; `given`:
 * what a person puts by hand.
 */
export function comparePrepared(
  reference: PreparedScan,
  subject: PreparedScan,
  watch: Watch = {},
  known?: KnownScores,
  given: Given = {},
): Comparison {
  return judgeMeasured(measureWeighed(weighPrepared(reference, subject, watch, given), watch), watch, known);
}

/** A pair laid on one another, its places weighed. */
export interface Weighed extends Omit<Comparison, 'judgement' | 'difference'> {
  /** The answer, which nothing that follows changes; what size, marks and wear say is joined to it. Null where it hangs on the surfaces. */
  readonly weighed: WeighedFinding | null;
  /** Null where other landmarks were put since. */
  readonly places: PairEvidence | null;
  readonly given: Given;
  readonly cut: Fitted['cut'];
}

/** A comparison before its surfaces are judged: what can be shown meanwhile. */
export interface Measured extends Weighed {
  readonly difference: Difference | null;
}

/**
 * The first two steps of `comparePrepared`, a third of its work: fit and places; 0 to 0.6 of its progress. `known`: the fit, where it
 * was found before.
 */
export function weighPrepared(
  reference: PreparedScan,
  subject: PreparedScan,
  watch: Watch = {},
  given: Given = {},
  known?: Fit,
): Weighed {
  watch.step?.('fit');
  const fitted = fitBestFaces(reference, subject, given, partOf(watch, 0, 0.5), known);
  return weighFitted(reference, subject, fitted, watch, given);
}

/** Its second half. */
export function weighFitted(
  reference: PreparedScan,
  subject: PreparedScan,
  { reference: a, subject: b, fit, cut }: Fitted,
  watch: Watch,
  given: Given,
): Weighed {
  watch.step?.('judge');
  report(watch, 0.5, 'Weighing the places of letters and ornaments');
  const places = weighPlaces(cut.reference.face, cut.subject.face, fit, given.landmarks);
  return {
    reference: { ...reference, face: a.face },
    subject: { ...subject, face: b.face },
    fit,
    ...(given.excluded?.length && { excluded: given.excluded }),
    weighed: weighedFinding(cut.reference.face, cut.subject.face, fit, places),
    places,
    given,
    cut,
  };
}

/** The third step: depth differences; 0.6 to 0.85 of the progress. `known`: those of every vertex, where they were measured elsewhere. */
export function measureWeighed<Pair extends Weighed>(
  pair: Pair,
  watch: Watch = {},
  known?: Depths,
): Pair & { readonly difference: Difference | null } {
  const { fit, cut } = pair;
  watch.step?.('compare');
  report(watch, 0.6, 'Measuring depth differences');
  const part = partOf(watch, 0.6, 0.85);
  const difference = fit.found ? compareFaces(cut.reference, cut.subject, fit, part, undefined, known) : null;
  return { ...pair, difference };
}

const sized = (difference: Difference, judgement: Judgement): Difference => ({
  ...difference,
  size: sizeAsJudged(difference.size, judgement),
});

/** The last step of `comparePrepared`: what the surfaces show, and the finding in full. */
export function judgeMeasured(measured: Measured, watch: Watch = {}, known?: KnownScores): Comparison {
  watch.step?.('judge');
  report(watch, 0.85, 'Looking for marks and wear');
  return concluded(measured, watch, known);
}

/** … where a part of it may have been found before, or elsewhere. */
export function concluded(
  { cut, given, places, weighed: _, ...comparison }: Measured,
  watch: Watch,
  known?: KnownScores,
  found: Partial<JudgedParts> = {},
): Comparison {
  const { fit, difference } = comparison;
  const part = partOf(watch, 0.85, 1);
  const ready = { ...(places && { places }), ...found };
  const judgement = judge(cut.reference, cut.subject, fit, difference, part, known, given.landmarks, ready);
  return {
    ...comparison,
    difference: difference && sized(difference, judgement),
    judgement: { ...judgement, limits: [...handLimits(fit, given), ...judgement.limits] },
  };
}
