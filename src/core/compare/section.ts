import type { Face } from '../face/index.ts';
import type { FitModel } from '../fit/index.ts';
import { identity, type Mesh } from '../geometry/index.ts';
import { measureGroove } from './groove.ts';
import { movePoints, type SubjectMotion, subjectMotion } from './motion.ts';
import { cutByPlane, profileOf } from './planeCut.ts';
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

function cutProfile(mesh: Mesh, motion: SubjectMotion, line: Line, at: Float64Array, outward: 1 | -1): Float64Array {
  const corners = new Float64Array(mesh.positions.length);
  movePoints(motion, mesh.positions, 0, mesh.positions.length / 3, corners);
  return profileOf(cutByPlane(corners, mesh.triangles, line), at, outward);
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
