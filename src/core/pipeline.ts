import { compareFaces, type Difference } from './compare/index.ts';
import type { ExcludedRegion } from './face/index.ts';
import type { Fit } from './fit/index.ts';
import { type Fitted, fitBestFaces } from './fitBestFaces.ts';
import { partOf, report, type Watch } from './geometry/index.ts';
import {
  type JudgedParts,
  type Judgement,
  judge,
  type KnownScores,
  sizeBesideWear,
  type WeighedFinding,
  weighFinding,
} from './judge/index.ts';
import { type Given, handLimits } from './leaveOut.ts';
import type { PreparedScan } from './prepare.ts';

export { type Fitted, fitBestFaces } from './fitBestFaces.ts';
export { type Given, rewordedLimits } from './leaveOut.ts';

export {
  type Find,
  type FoundScan,
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
 * The job from two prepared scans to the finding: scan → face → **fit → compare → judge** (→ report).
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
  return judgeMeasured(measurePrepared(reference, subject, watch, given), watch, known);
}

/** A comparison before it is judged: what can be shown while the evidence is weighed. */
export interface Measured extends Omit<Comparison, 'judgement'> {
  readonly given: Given;
  readonly cut: Fitted['cut'];
}

/**
 * The finding of `comparePrepared` with its fit, and nothing of what the surfaces show: a third of the work. Null where the finding
 * hangs on the surfaces.
 */
export function weighPrepared(
  reference: PreparedScan,
  subject: PreparedScan,
  watch: Watch = {},
): (WeighedFinding & Pick<Comparison, 'reference' | 'subject' | 'fit'>) | null {
  const { reference: a, subject: b, fit } = fitBestFaces(reference, subject, {}, watch);
  const weighed = weighFinding(a.face, b.face, fit);
  if (!weighed) return null;
  return { ...weighed, fit, reference: { ...reference, face: a.face }, subject: { ...subject, face: b.face } };
}

/** The first two steps of `comparePrepared`: fit and depth differences; 0 to 0.85 of its progress. `known`: the fit, where it was found before. */
export function measurePrepared(
  reference: PreparedScan,
  subject: PreparedScan,
  watch: Watch = {},
  given: Given = {},
  known?: Fit,
): Measured {
  watch.step?.('fit');
  const fitted = fitBestFaces(reference, subject, given, partOf(watch, 0, 0.6), known);
  return measureFitted(reference, subject, fitted, watch, given);
}

/** Its second half. */
export function measureFitted(
  reference: PreparedScan,
  subject: PreparedScan,
  { reference: a, subject: b, fit, cut }: Fitted,
  watch: Watch,
  given: Given,
): Measured {
  watch.step?.('compare');
  report(watch, 0.6, 'Measuring depth differences');
  const difference = fit.found ? compareFaces(cut.reference, cut.subject, fit, partOf(watch, 0.6, 0.85)) : null;
  return {
    reference: { ...reference, face: a.face },
    subject: { ...subject, face: b.face },
    fit,
    difference,
    ...(given.excluded?.length && { excluded: given.excluded }),
    given,
    cut,
  };
}

const besideWear = (difference: Difference, wear: Judgement['wear']): Difference => ({
  ...difference,
  size: { ...difference.size, reading: sizeBesideWear(difference.size.reading, wear) },
});

/** The last step of `comparePrepared`: the evidence weighed. */
export function judgeMeasured(measured: Measured, watch: Watch = {}, known?: KnownScores): Comparison {
  watch.step?.('judge');
  report(watch, 0.85, 'Weighing the evidence');
  return concluded(measured, watch, known);
}

/** … where some of it may have been weighed elsewhere. */
export function concluded(measured: Measured, watch: Watch, known?: KnownScores, ready?: JudgedParts): Comparison {
  const { cut, given, ...comparison } = measured;
  const { fit, difference } = comparison;
  const part = partOf(watch, 0.85, 1);
  const judgement = judge(cut.reference, cut.subject, fit, difference, part, known, given.landmarks, ready);
  return {
    ...comparison,
    difference: difference && besideWear(difference, judgement.wear),
    judgement: { ...judgement, limits: [...handLimits(fit, given), ...judgement.limits] },
  };
}
