import { type Face, longSide } from '../face/index.ts';
import {
  closestOnSurface,
  newSurfacePoint,
  type Similarity,
  type SurfaceIndex,
  type SurfacePoint,
} from '../geometry/index.ts';
import { type FaceRegion, faceRegion, isOnFace, isOverFace } from './faceRegion.ts';
import { movePoints, type SubjectMotion, turnNormals } from './motion.ts';
import { visitOrder } from './visitOrder.ts';

export const depthDefaults = {
  /** Farthest counterpart, as a share of the face's long side: deep enough for a chip, not for another part. */
  limitPerSize: 0.08,
  /** Least and greatest limit, mm. */
  leastLimitMm: 1.2,
  mostLimitMm: 4,
  /**
   * Counterparts do not face away from one another. A tighter test sends the flat top of a rubbed letter past the flanks
   * of its own groove to a wrong place farther off (docs/compare.md has the numbers).
   */
  minCosine: 0,
  /** A foot on an open edge is an answer only where it lies this nearly straight below the point (tangent of the lean). */
  borderLean: 0.3,
  /**
   * A place steeper than acos 0.35 = 70° against the face plane counts only within `steepLimitPerSize` of the face's
   * size: the flank of a letter lies that close to its own groove, the wall of a break does not.
   */
  steepCosine: 0.35,
  steepLimitPerSize: 0.013,
};

/** What differences are measured against: the reference's surface and where its face is. */
export interface DepthTarget {
  readonly index: SurfaceIndex;
  readonly faceFromScan: Similarity;
  readonly region: FaceRegion;
  /** Half the face's long side, mm. */
  readonly radiusMm: number;
  readonly limitMm: number;
  /** The same for places of the subject whose normal makes less than `steepCosine` with the face's. */
  readonly steepLimitMm: number;
  readonly steepCosine: number;
  readonly minCosine: number;
  readonly borderLean: number;
  /** Subject and reference lie face to face, their outward normals against one another. */
  readonly opposed: boolean;
}

/** Square of a distance that is no lean at all but rounding, mm². */
const samePlace = 1e-10;

/** Everything that the reference brings to the measurement; the index is shared, not copied. */
export function depthTarget(
  face: Face,
  index: SurfaceIndex,
  opposed: boolean,
  options: typeof depthDefaults = depthDefaults,
): DepthTarget {
  const size = longSide(face);
  return {
    index,
    faceFromScan: face.faceFromScan,
    region: faceRegion(face),
    radiusMm: size / 2,
    limitMm: Math.min(options.mostLimitMm, Math.max(options.leastLimitMm, options.limitPerSize * size)),
    steepLimitMm: options.steepLimitPerSize * size,
    steepCosine: options.steepCosine,
    minCosine: options.minCosine,
    borderLean: options.borderLean,
    opposed,
  };
}

/**
 * Signed depth differences, mm, of the subject's vertices `from` to `to`, written to the same places of `out`:
 *
 *   d = sign((p − q) · n) ‖p − q‖,  q the closest place of the reference's face to p whose normal does not face away from n,
 *
 * p the moved vertex and n the subject's outward normal as it lies on the reference. Where the two lie face to face
 * (`opposed`) the reference's outward normal at q is compatible with −n. So d > 0 where the subject stands higher than
 * the reference would make it, and d < 0 where it lacks height. NaN: p is not over the
 * reference's face; no compatible surface within the limit; q is not on the face; q lies on an open edge and p leans out over it; the vertex has no normal.
 * `normals` are unit vectors in scan coordinates, zero for a vertex that no triangle uses.
 * Ranges are independent of one another, so threads can share the work.
 */
export function depthDifferences(
  target: DepthTarget,
  positions: Float32Array,
  normals: Float32Array,
  motion: SubjectMotion,
  out: Float32Array,
  from = 0,
  to = positions.length / 3,
): void {
  const foot = newSurfacePoint();
  const points = new Float64Array(3 * chunk);
  const directions = new Float64Array(3 * chunk);
  const order = visitOrder(motion, positions, target.radiusMm, from, to);
  const first = order ? 0 : from;
  const last = order ? order.length : to;
  for (let start = first; start < last; start += chunk) {
    const end = Math.min(last, start + chunk);
    movePoints(motion, positions, start, end, points, order);
    turnNormals(motion, normals, start, end, directions, order);
    for (let at = start; at < end; at++)
      out[order ? order[at] : at] = differenceAt(target, points, directions, 3 * (at - start), foot);
  }
}

const chunk = 4096;

/** Difference of the point at `k` with its normal, both in the reference's face frame. */
function differenceAt(
  target: DepthTarget,
  points: Float64Array,
  directions: Float64Array,
  k: number,
  foot: SurfacePoint,
): number {
  const { region, borderLean } = target;
  const { rotation: r, translation: t } = target.faceFromScan;
  const fx = directions[k];
  const fy = directions[k + 1];
  const fz = directions[k + 2];
  if (fx === 0 && fy === 0 && fz === 0) return Number.NaN;
  if (!isOverFace(region, points[k], points[k + 1])) return Number.NaN;
  // Back into the reference's scan, where its index is.
  const px = points[k] - t[0];
  const py = points[k + 1] - t[1];
  const pz = points[k + 2] - t[2];
  const x = r[0] * px + r[3] * py + r[6] * pz;
  const y = r[1] * px + r[4] * py + r[7] * pz;
  const z = r[2] * px + r[5] * py + r[8] * pz;
  const nx = r[0] * fx + r[3] * fy + r[6] * fz;
  const ny = r[1] * fx + r[4] * fy + r[7] * fz;
  const nz = r[2] * fx + r[5] * fy + r[8] * fz;
  const side = target.opposed ? -1 : 1;
  const limit = Math.abs(fz) < target.steepCosine ? target.steepLimitMm : target.limitMm;
  const { index, minCosine } = target;
  if (!closestOnSurface(index, x, y, z, limit, side * nx, side * ny, side * nz, minCosine, foot)) return Number.NaN;
  const { x: qx, y: qy, z: qz, distance } = foot;
  const along = (x - qx) * nx + (y - qy) * ny + (z - qz) * nz;
  if (foot.onBorder && distance ** 2 - along ** 2 > (borderLean * along) ** 2 + samePlace) return Number.NaN;
  const onFace = isOnFace(
    region,
    r[0] * qx + r[1] * qy + r[2] * qz + t[0],
    r[3] * qx + r[4] * qy + r[5] * qz + t[1],
    r[6] * qx + r[7] * qy + r[8] * qz + t[2],
  );
  if (!onFace) return Number.NaN;
  return along < 0 ? -distance : distance;
}
