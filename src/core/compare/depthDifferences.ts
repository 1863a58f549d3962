import type { Face } from '../face/index.ts';
import { closestOnSurface, newSurfacePoint, type Similarity, type SurfaceIndex } from '../geometry/index.ts';
import { type FaceRegion, faceRegion, isOnFace, isOverFace } from './faceRegion.ts';
import { movePoints, type SubjectMotion } from './motion.ts';

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
  const size = Math.max(face.outline.widthMm, face.outline.heightMm);
  return {
    index,
    faceFromScan: face.faceFromScan,
    region: faceRegion(face),
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
  const { rotation: r, translation: t } = target.faceFromScan;
  const { turn } = motion;
  const side = target.opposed ? -1 : 1;
  const foot = newSurfacePoint();
  const chunk = 4096;
  const moved = new Float64Array(3 * chunk);
  for (let start = from; start < to; start += chunk) {
    const end = Math.min(to, start + chunk);
    movePoints(motion, positions, start, end, moved);
    for (let i = start; i < end; i++) {
      out[i] = Number.NaN;
      const nx = normals[3 * i];
      const ny = normals[3 * i + 1];
      const nz = normals[3 * i + 2];
      if (nx === 0 && ny === 0 && nz === 0) continue;
      // The normal in the reference's face frame, then point and normal in the reference's scan.
      const fx = turn[0] * nx + turn[1] * ny + turn[2] * nz;
      const fy = turn[3] * nx + turn[4] * ny + turn[5] * nz;
      const fz = turn[6] * nx + turn[7] * ny + turn[8] * nz;
      const mx = r[0] * fx + r[3] * fy + r[6] * fz;
      const my = r[1] * fx + r[4] * fy + r[7] * fz;
      const mz = r[2] * fx + r[5] * fy + r[8] * fz;
      const k = 3 * (i - start);
      if (!isOverFace(target.region, moved[k], moved[k + 1])) continue;
      const px = moved[k] - t[0];
      const py = moved[k + 1] - t[1];
      const pz = moved[k + 2] - t[2];
      const x = r[0] * px + r[3] * py + r[6] * pz;
      const y = r[1] * px + r[4] * py + r[7] * pz;
      const z = r[2] * px + r[5] * py + r[8] * pz;
      const met = closestOnSurface(
        target.index,
        x,
        y,
        z,
        Math.abs(fz) < target.steepCosine ? target.steepLimitMm : target.limitMm,
        side * mx,
        side * my,
        side * mz,
        target.minCosine,
        foot,
      );
      if (!met) continue;
      const { x: qx, y: qy, z: qz, distance } = foot;
      const along = (x - qx) * mx + (y - qy) * my + (z - qz) * mz;
      if (foot.onBorder && distance ** 2 - along ** 2 > (target.borderLean * along) ** 2 + samePlace) continue;
      const onFace = isOnFace(
        target.region,
        r[0] * qx + r[1] * qy + r[2] * qz + t[0],
        r[3] * qx + r[4] * qy + r[5] * qz + t[1],
        r[6] * qx + r[7] * qy + r[8] * qz + t[2],
      );
      if (onFace) out[i] = along < 0 ? -distance : distance;
    }
  }
}
