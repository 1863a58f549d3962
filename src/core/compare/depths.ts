import type { Face } from '../face/index.ts';
import { type Fit, modelOf } from '../fit/index.ts';
import {
  buildSurfaceIndex,
  indexSharedWith,
  type Mesh,
  report,
  type SharedPlaces,
  type SurfaceIndex,
  shareIndex,
  vertexNormals,
  type Watch,
} from '../geometry/index.ts';
import { type DepthTarget, depthDifferences, depthTarget } from './depthDifferences.ts';
import { type SubjectMotion, subjectMotion } from './motion.ts';

/** Depth differences of the subject's vertices, mm. */
export interface Depths {
  readonly oneScale: Float32Array;
  /** Under the chosen model; the same array where that is the one of one scale. */
  readonly chosen: Float32Array;
}

/** A surface with its face; normals and, for the reference, the index are made where they are not at hand. */
export interface MeasuredSide {
  readonly mesh: Mesh;
  readonly face: Face;
  readonly normals?: Float32Array;
  readonly index?: SurfaceIndex | undefined;
}

/** All of them, measured here. */
export function depthsOf(reference: MeasuredSide, subject: MeasuredSide, fit: Fit, watch: Watch = {}): Depths {
  const job = jobOf(reference, subject, fit);
  const [oneScale, chosen = oneScale] = job.motions.map((motion, k) => {
    const out = measured(job, motion);
    report(watch, k === 0 ? 0.4 : 0.75, 'Measuring depth differences');
    return out;
  });
  return { oneScale, chosen };
}

interface Job {
  readonly target: DepthTarget;
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  /** Under the model of one scale and, where it is another, under the chosen one. */
  readonly motions: readonly SubjectMotion[];
}

function jobOf(reference: MeasuredSide, subject: MeasuredSide, fit: Fit): Job {
  const index = reference.index ?? buildSurfaceIndex(reference.mesh, { normals: normalsOf(reference) });
  return {
    target: depthTarget(reference.face, index, fit.turnedOver),
    positions: subject.mesh.positions,
    normals: normalsOf(subject),
    motions: motionsOf(reference.face, fit),
  };
}

const normalsOf = ({ normals, mesh }: MeasuredSide): Float32Array => normals ?? vertexNormals(mesh);

const motionsOf = (reference: Face, fit: Fit): SubjectMotion[] =>
  [...new Set([modelOf(fit, 'oneScale'), modelOf(fit, fit.chosen)])].map((model) => subjectMotion(reference, model));

function measured({ target, positions, normals }: Job, motion: SubjectMotion, to?: number): Float32Array {
  const out = new Float32Array(positions.length / 3);
  depthDifferences(target, positions, normals, motion, out, 0, to);
  return out;
}

export const sharing = {
  /** A subject of fewer vertices is measured before another thread has made itself ready for it. */
  leastVertices: 400_000,
  /** The other takes so many fewer than this thread, since it has marks and wear to look for … */
  fewer: 200_000,
  /** … and of each vertex beyond a million this share more, since map and files, which are this thread's, grow with them and surfaces do not. */
  moreOfLarge: 0.1,
};

/** The last of the subject's vertices, to be measured in another thread: plain data, and memory that both see. */
export interface DepthsJob {
  readonly kind: 'depths';
  readonly target: Omit<DepthTarget, 'index'>;
  readonly places: SharedPlaces;
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly motions: readonly SubjectMotion[];
}

/** Differences of those vertices under each of the motions; null where the index could not be asked there. */
export type OtherDepths = readonly Float32Array[] | null;

export interface SharedDepths {
  readonly job: DepthsJob;
  /** Measures the other vertices at once. What comes back takes those of the job, or measures them too, and gives all. */
  readonly here: () => (others: OtherDepths) => Depths;
}

/** Differences to be measured in two threads; null where it is not worth it, or where the index cannot be seen from another. */
export function sharedDepths(
  reference: MeasuredSide,
  subject: MeasuredSide,
  fit: Fit,
  { leastVertices, fewer, moreOfLarge } = sharing,
): SharedDepths | null {
  const vertices = subject.mesh.positions.length / 3;
  const places = reference.index && vertices >= leastVertices ? shareIndex(reference.index) : null;
  if (!places) return null;
  const from = Math.ceil((vertices + fewer - moreOfLarge * Math.max(0, vertices - 1_000_000)) / 2);
  const all = jobOf(reference, subject, fit);
  const { index: _, ...target } = all.target;
  const [positions, normals] = [all.positions.slice(3 * from), all.normals.slice(3 * from)];
  return {
    job: { kind: 'depths', target, places, positions, normals, motions: all.motions },
    here: () => {
      const outs = all.motions.map((motion) => measured(all, motion, from));
      return (others) => joined(all, outs, from, others);
    },
  };
}

function joined(all: Job, outs: readonly Float32Array[], from: number, others: OtherDepths): Depths {
  outs.forEach((out, k) => {
    if (others) out.set(others[k], from);
    else depthDifferences(all.target, all.positions, all.normals, all.motions[k], out, from);
  });
  const [oneScale, chosen = oneScale] = outs;
  return { oneScale, chosen };
}

/** Does a job that came from another thread. */
export function otherDepths({ target, places, ...points }: DepthsJob): OtherDepths {
  const index = indexSharedWith(places);
  return index && points.motions.map((motion) => measured({ target: { ...target, index }, ...points }, motion));
}
