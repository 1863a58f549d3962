import { judgeSurfaces, type WearAndDamage } from './condition/index.ts';
import { type FaceZones, findZones, rememberedZones, rememberZones } from './design/index.ts';
import type { Face } from './face/index.ts';
import type { Fit } from './fit/index.ts';
import { type Fitted, fitBestFaces } from './fitBestFaces.ts';
import { partOf, report, type Watch } from './geometry/index.ts';
import type { KnownScores } from './judge/index.ts';
import type { Given } from './leaveOut.ts';
import {
  type Comparison,
  concluded,
  judgeMeasured,
  type Measured,
  measureWeighed,
  type Weighed,
  weighFitted,
  weighPrepared,
} from './pipeline.ts';
import type { PreparedScan } from './prepare.ts';

/** A part of a comparison that another thread can do, as it is sent there: plain data. */
export type BesideJob =
  | { readonly kind: 'zones'; readonly face: Face }
  | {
      readonly kind: 'surfaces';
      readonly reference: Face;
      readonly subject: Face;
      readonly fit: Fit;
      readonly zones: FaceZones;
    };

/** What comes back, by the kind of job. */
export interface BesideResult {
  readonly zones: FaceZones;
  readonly surfaces: WearAndDamage;
}

/** Does a job in another thread. */
export type Beside = <Job extends BesideJob>(job: Job) => Promise<BesideResult[Job['kind']]>;

/** The job itself, in the thread that it was sent to. */
export function doBeside(job: BesideJob): BesideResult[BesideJob['kind']] {
  if (job.kind === 'zones') return findZones(job.face);
  return judgeSurfaces(job.reference, job.subject, job.fit, job.zones);
}

/** What another thread looks for meanwhile; null where there is nothing to look for. */
interface Looking {
  readonly surfaces: Promise<WearAndDamage> | null;
}

/** A pair weighed here, whose wear and marks are looked for in another thread at the same time. */
export type WeighedBeside = Weighed & Looking;
export type MeasuredBeside = Measured & Looking;

/**
 * `weighPrepared` in two threads, with the same result: while the faces are fitted the other finds the parts of the
 * reference's design; while places are weighed here, and depth differences measured, it looks for marks and wear.
 */
export async function weighBeside(
  reference: PreparedScan,
  subject: PreparedScan,
  beside: Beside,
  watch: Watch = {},
  given: Given = {},
): Promise<WeighedBeside> {
  watch.step?.('fit');
  const early = awaitedLater(zonesBeside(reference.face, beside));
  const fitted = fitBestFaces(reference, subject, given, partOf(watch, 0, 0.5));
  const surfaces = fitted.fit.found
    ? surfacesBeside(fitted, await zonesOf(fitted, reference.face, early, beside), beside)
    : null;
  return { ...weighFitted(reference, subject, fitted, watch, given), surfaces };
}

/** `judgeMeasured` of such a pair. */
export async function judgeBeside(
  { surfaces, ...here }: MeasuredBeside,
  watch: Watch = {},
  known?: KnownScores,
): Promise<Comparison> {
  if (!surfaces) return judgeMeasured(here, watch, known);
  watch.step?.('judge');
  report(watch, 0.85, 'Looking for marks and wear');
  return concluded(here, watch, known, await surfaces);
}

/** All steps, with another thread's help where there is one. `told`: called when the finding stands, before the surfaces are looked at. */
export async function compareBeside(
  reference: PreparedScan,
  subject: PreparedScan,
  beside: Beside | null,
  watch: Watch = {},
  known?: KnownScores,
  given: Given = {},
  told: (weighed: Weighed) => void = () => undefined,
): Promise<Comparison> {
  const weighed = beside
    ? await weighBeside(reference, subject, beside, watch, given)
    : { ...weighPrepared(reference, subject, watch, given), surfaces: null };
  told(weighed);
  return judgeBeside(measureWeighed(weighed, watch), watch, known);
}

async function zonesBeside(face: Face, beside: Beside): Promise<FaceZones> {
  const known = rememberedZones(face);
  if (known) return known;
  const zones = { ...(await beside({ kind: 'zones', face })), grid: face.relief };
  rememberZones(face, zones);
  return zones;
}

/** Of the face as it was fitted, which may be another candidate than the one that was looked at, or lack what a person left out. */
const zonesOf = ({ cut }: Fitted, looked: Face, early: Promise<FaceZones>, beside: Beside): Promise<FaceZones> =>
  cut.reference.face === looked ? early : zonesBeside(cut.reference.face, beside);

const surfacesBeside = ({ cut, fit }: Fitted, zones: FaceZones, beside: Beside): Promise<WearAndDamage> =>
  awaitedLater(beside({ kind: 'surfaces', reference: cut.reference.face, subject: cut.subject.face, fit, zones }));

/** A failure is told to whoever awaits it; where the job was stopped before, nobody does. */
export function awaitedLater<Result>(promise: Promise<Result>): Promise<Result> {
  promise.catch(() => undefined);
  return promise;
}
