import type { Face } from '../face/index.ts';
import type { FitModel } from '../fit/index.ts';
import { identity, type Mesh } from '../geometry/index.ts';
import { measureGroove } from './groove.ts';
import { movePoints, type SubjectMotion, subjectMotion } from './motion.ts';
import { cornersCrossed, cutByPlane, markLeft, profileOf } from './planeCut.ts';
import type { Groove, Section } from './types.ts';

export type Line = readonly [number, number, number, number];

export const sectionDefaults = {
  /** Samples per cell of the finer relief map, so that steep flanks get some too; and the most there may be. */
  perCell: 4,
  mostSamples: 4000,
};

/**
 * Both surfaces cut along one line on the reference's face plane, by the meshes' own triangles: heights above that
 * plane, mm, at common places. Of what lies over one another the outermost is taken, in each surface's own outward
 * sense: the reference's is up, a turned-over subject's is down. A groove or ridge is measured on the surface that
 * shows the deeper one. `line`: x0, y0, x1, y1 in the reference's face frame, mm.
 */
export function section(
  reference: { readonly mesh: Mesh; readonly face: Face },
  subject: { readonly mesh: Mesh; readonly face: Face },
  model: FitModel,
  turnedOver: boolean,
  line: Line,
  options: typeof sectionDefaults = sectionDefaults,
): Section {
  const fine = Math.min(reference.face.relief.pitch, subject.face.relief.pitch * model.scale);
  const length = Math.hypot(line[2] - line[0], line[3] - line[1]);
  const count = Math.min(options.mostSamples, Math.max(2, Math.ceil((length / fine) * options.perCell) + 1));
  const at = Float64Array.from({ length: count }, (_, i) => (length * i) / (count - 1));
  const still: FitModel = { ...model, warp: undefined, referenceFromSubject: identity } as unknown as FitModel;
  const own = cutProfile(reference.mesh, subjectMotion(reference.face, still), line, at, 1);
  const laid = cutProfile(subject.mesh, subjectMotion(reference.face, model), line, at, turnedOver ? -1 : 1);
  const groove = deeperGroove(at, own, laid, turnedOver);
  return { line, at, reference: own, subject: laid, ...(groove && { groove }) };
}

/** Of a large surface few triangles are crossed: the places of their corners alone are kept. */
function cutProfile(mesh: Mesh, motion: SubjectMotion, line: Line, at: Float64Array, outward: 1 | -1): Float64Array {
  const corners = cornersCrossed(mesh.triangles, sidesOf(mesh, motion, line));
  const places = new Float64Array(3 * corners.length);
  movePoints(motion, mesh.positions, 0, corners.length, places, corners);
  return profileOf(cutByPlane(places, Uint32Array.from(corners.keys()), line), at, outward);
}

/** 1 for the vertices that lie left of the line, or on it. */
function sidesOf({ positions }: Mesh, motion: SubjectMotion, line: Line): Uint8Array {
  const left = new Uint8Array(positions.length / 3);
  const atOnce = 4096;
  const places = new Float64Array(3 * atOnce);
  for (let from = 0; from < left.length; from += atOnce) {
    const to = Math.min(left.length, from + atOnce);
    movePoints(motion, positions, from, to, places);
    markLeft(places, line, left.subarray(from, to));
  }
  return left;
}

function deeperGroove(
  at: Float64Array,
  reference: Float64Array,
  subject: Float64Array,
  turnedOver: boolean,
): Groove | null {
  const own = measureGroove(at, reference);
  const laid = measureGroove(at, turnedOver ? subject.map((z) => -z) : subject);
  if (own && (!laid || own.depthMm >= laid.depthMm)) return { ...own, on: 'reference' };
  return laid && { ...laid, on: 'subject' };
}
