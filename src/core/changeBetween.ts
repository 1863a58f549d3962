import { type ChangeInput, type ChangeResult, liesOn, measureChange, type Repeat } from './change/index.ts';
import type { Face } from './face/index.ts';
import type { Fit } from './fit/index.ts';
import { fitBestFaces } from './fitBestFaces.ts';
import { partOf, report, type Watch } from './geometry/index.ts';
import type { PreparedScan } from './prepare.ts';

/** The earlier and the later scan of one object, each with a second scan of the same date where there is one. */
export interface DatedScans {
  readonly earlier: PreparedScan;
  readonly later: PreparedScan;
  readonly earlierAgain?: PreparedScan;
  readonly laterAgain?: PreparedScan;
}

/** What was found between two dates, and what it was found on. */
export interface ChangeComparison extends DatedScans {
  readonly fit: Fit;
  readonly result: ChangeResult;
}

/**
 * One object on two dates: scan → face → fit → **change**. The fit gives a first pose alone: it is registered anew on what
 * did not change. No question of matrices is asked.
 */
export function changeBetween(scans: DatedScans, watch: Watch = {}): ChangeComparison {
  watch.step?.('fit');
  const fitted = fitBestFaces(scans.earlier, scans.later, {}, partOf(watch, 0, 0.4));
  const earlier = { ...scans.earlier, face: fitted.reference.face };
  const later = { ...scans.later, face: fitted.subject.face };
  const again = {
    ...repeatOf('earlier', earlier, scans.earlierAgain, partOf(watch, 0.4, 0.6)),
    ...repeatOf('later', later, scans.laterAgain, partOf(watch, 0.6, 0.8)),
  };
  watch.step?.('compare');
  report(watch, 0.8, 'Looking for changes');
  const result = measureChange(inputOf(earlier), inputOf(later), fitted.fit, again);
  return { ...scans, earlier, later, fit: fitted.fit, result };
}

/** The repeat fitted to its own date; none where nobody scanned again, or where the two do not show the same face. */
function repeatOf(
  role: 'earlier' | 'later',
  date: PreparedScan,
  again: PreparedScan | undefined,
  watch: Watch,
): { earlier?: Repeat; later?: Repeat } {
  if (!again) return {};
  const { fit, subject } = fitBestFaces(date, again, {}, watch);
  return liesOn(fit) && !fit.turnedOver && !fit.mirrored
    ? { [role]: { scan: { mesh: again.scan.mesh, face: subject.face as Face }, fit } }
    : {};
}

const inputOf = (scan: PreparedScan): ChangeInput => ({
  mesh: scan.scan.mesh,
  face: scan.face,
  kind: scan.kind,
  ...(scan.material && { material: scan.material }),
  scaleUncertaintyPercent: scan.scaleUncertaintyPercent,
  scaleUncertaintyFrom: scan.scaleUncertaintyFrom,
});
