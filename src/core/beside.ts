import {
  type Depths,
  type DepthsJob,
  type OtherDepths,
  otherDepths,
  type SharedDepths,
  sharedDepths,
} from './compare/index.ts';
import { judgeSurfaces, type WearAndDamage } from './condition/index.ts';
import { type FaceZones, findZones, rememberedZones, rememberZones } from './design/index.ts';
import type { Face } from './face/index.ts';
import type { Fit, Searched } from './fit/index.ts';
import { type Fitted, fitBestFaces } from './fitBestFaces.ts';
import { partOf, report, type Watch } from './geometry/index.ts';
import { type KnownScores, ownImagesOf } from './judge/index.ts';
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
  | { readonly kind: 'zones'; readonly face: Face; readonly faceNumber: number }
  | {
      readonly kind: 'surfaces';
      readonly reference: Face;
      readonly faceNumber: number;
      readonly subject: Face;
      readonly fit: Fit;
      /** Null where the other thread was asked for them before. */
      readonly zones: FaceZones | null;
    }
  | DepthsJob;

/** What comes back, by the kind of job. */
export interface BesideResult {
  readonly zones: FaceZones;
  readonly surfaces: WearAndDamage;
  readonly depths: OtherDepths;
}

/** Does a job in another thread. */
export type Beside = <Job extends BesideJob>(job: Job) => Promise<BesideResult[Job['kind']]>;

/** Does jobs, in the thread that they are sent to, in the order in which they come. */
export function besideDoer(): (job: BesideJob) => BesideResult[BesideJob['kind']] {
  let last: { readonly faceNumber: number; readonly zones: FaceZones } | null = null;
  return (job) => {
    if (job.kind === 'zones') {
      last = { faceNumber: job.faceNumber, zones: findZones(job.face) };
      return last.zones;
    }
    if (job.kind === 'depths') return otherDepths(job);
    const { reference, subject, fit, faceNumber } = job;
    const asked = last?.faceNumber === faceNumber ? last.zones : null;
    const zones = job.zones ?? asked ?? findZones(reference);
    return judgeSurfaces(reference, subject, fit, { ...zones, grid: reference.relief });
  };
}

/** Faces are numbered, since one that was sent to another thread is another object there each time. */
const numbers = new WeakMap<Face, number>();
let faces = 0;
function numberOf(face: Face): number {
  const number = numbers.get(face) ?? faces++;
  numbers.set(face, number);
  return number;
}

/** The order to find the parts of a face's design. */
export const zonesJob = (face: Face): Extract<BesideJob, { kind: 'zones' }> => ({
  kind: 'zones',
  face,
  faceNumber: numberOf(face),
});

/** What another thread looks for meanwhile; null where there is nothing to look for. */
interface Looking {
  readonly zones: Promise<FaceZones> | null;
  readonly surfaces: Promise<WearAndDamage> | null;
  /** Depth differences of some of the vertices, of many. */
  readonly depths: { readonly here: SharedDepths['here']; readonly others: Promise<OtherDepths> } | null;
}

/** A pair weighed here, whose wear and marks are looked for in another thread at the same time. */
export type WeighedBeside = Weighed & Looking;
export type MeasuredBeside = Measured & Omit<Looking, 'depths'>;

/**
 * `weighPrepared` in two threads, with the same result: while the faces are fitted and places weighed here, the other finds the parts of
 * the reference's design; then it measures a part of the depth differences of a large subject, and looks for marks and wear. `searched`: where the other has searched
 * these two faces before.
 */
export async function weighBeside(
  reference: PreparedScan,
  subject: PreparedScan,
  beside: Beside,
  watch: Watch = {},
  given: Given = {},
  searched?: Promise<Searched | undefined>,
): Promise<WeighedBeside> {
  watch.step?.('fit');
  // Asked for of the face as prepared; where a person left regions out, or another face of the object was fitted, once more.
  const early = zonesBeside(reference.face, beside);
  const fitted = fitBestFaces(reference, subject, given, partOf(watch, 0, 0.5), undefined, await searched);
  const { cut, fit } = fitted;
  const looked = cut.reference.face;
  const looking: Looking = fit.found
    ? {
        zones: looked === reference.face ? early : zonesBeside(looked, beside),
        depths: depthsBeside(fitted, beside),
        surfaces: surfacesBeside(fitted, beside),
      }
    : { zones: null, depths: null, surfaces: null };
  return { ...weighFitted(reference, subject, fitted, watch, given), ...looking };
}

/** `measureWeighed` of such a pair; its statistics ask for the zones. */
export async function measureBeside({ depths, ...here }: WeighedBeside, watch: Watch = {}): Promise<MeasuredBeside> {
  const known = depths ? await depthsWith(depths, watch) : undefined;
  await here.zones;
  return measureWeighed(here, watch, known);
}

async function depthsWith({ here, others }: NonNullable<Looking['depths']>, watch: Watch): Promise<Depths> {
  watch.step?.('compare');
  report(watch, 0.6, 'Measuring depth differences');
  const joined = here();
  return joined(await others);
}

/** `judgeMeasured` of such a pair. */
export async function judgeBeside(
  { surfaces, zones: _, ...here }: MeasuredBeside,
  watch: Watch = {},
  known?: KnownScores,
): Promise<Comparison> {
  if (!surfaces) return judgeMeasured(here, watch, known);
  watch.step?.('judge');
  report(watch, 0.85, 'Looking for marks and wear');
  const { cut, fit } = here;
  const images = ownImagesOf(cut.reference.face, cut.subject.face, fit);
  return concluded(here, watch, known, { images, surfaces: await surfaces });
}

/** Is told of a pair while it is compared. */
export interface Seeing {
  /** The finding stands; the surfaces are not looked at yet. */
  readonly weighed?: (pair: Weighed) => void;
  /** Depth differences are there; marks and wear are still looked for. */
  readonly measured?: (pair: Measured) => void;
}

/** All steps, with another thread's help where there is one. */
export async function compareBeside(
  reference: PreparedScan,
  subject: PreparedScan,
  beside: Beside | null,
  watch: Watch = {},
  known?: KnownScores,
  given: Given = {},
  seeing: Seeing = {},
  searched?: Promise<Searched | undefined>,
): Promise<Comparison> {
  const weighed = beside
    ? await weighBeside(reference, subject, beside, watch, given, searched)
    : { ...weighPrepared(reference, subject, watch, given), zones: null, depths: null, surfaces: null };
  seeing.weighed?.(weighed);
  const measured = await measureBeside(weighed, watch);
  seeing.measured?.(measured);
  return judgeBeside(measured, watch, known);
}

/** They are remembered with the face when they come. */
const zonesBeside = (face: Face, beside: Beside): Promise<FaceZones> => awaitedLater(foundBeside(face, beside));

async function foundBeside(face: Face, beside: Beside): Promise<FaceZones> {
  const known = rememberedZones(face);
  if (known) return known;
  const zones = { ...(await beside(zonesJob(face))), grid: face.relief };
  rememberZones(face, zones);
  return zones;
}

function depthsBeside({ cut, fit }: Fitted, beside: Beside): Looking['depths'] {
  const shared = sharedDepths(cut.reference, cut.subject, fit);
  return shared && { here: shared.here, others: awaitedLater(beside(shared.job)) };
}

const surfacesBeside = ({ cut, fit }: Fitted, beside: Beside): Promise<WearAndDamage> =>
  awaitedLater(
    beside({
      kind: 'surfaces',
      reference: cut.reference.face,
      faceNumber: numberOf(cut.reference.face),
      subject: cut.subject.face,
      fit,
      zones: rememberedZones(cut.reference.face) ?? null,
    }),
  );

/** A failure is told to whoever awaits it; where the job was stopped before, nobody does. */
export function awaitedLater<Result>(promise: Promise<Result>): Promise<Result> {
  promise.catch(() => undefined);
  return promise;
}
