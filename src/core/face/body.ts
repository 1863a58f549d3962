import { areaVector, type Mesh } from '../geometry/index.ts';

/** Whether a surface goes all the way round, and whether its triangles then look inward. */
export interface Body {
  readonly closed: boolean;
  readonly insideOut: boolean;
}

/** Open edges of a closed surface may leave this share of its area vector unbalanced: holes, a missing underside. */
const closedBelow = 0.25;

/**
 * Around a closed surface the area vectors sum to zero, over a sheet to nearly the whole area (divergence theorem);
 * the signed volume Σ a·(b × c)/6 about the middle is negative where the triangles look inward.
 */
export function bodyOf(mesh: Mesh): Body {
  const { positions: p, triangles: t } = mesh;
  let [sx, sy, sz, area, volume] = [0, 0, 0, 0, 0];
  const n = new Float64Array(3);
  for (let i = 0; i < t.length; i += 3) {
    areaVector(p, t, i, n);
    const [nx, ny, nz] = n;
    const a = t[i] * 3;
    sx += nx;
    sy += ny;
    sz += nz;
    area += Math.sqrt(nx * nx + ny * ny + nz * nz);
    volume += p[a] * nx + p[a + 1] * ny + p[a + 2] * nz;
  }
  const closed = Math.sqrt(sx * sx + sy * sy + sz * sz) < closedBelow * area;
  return { closed, insideOut: closed && volume < 0 };
}

/** The same surface looking the other way. */
export function reverseWinding(mesh: Mesh): Mesh {
  const triangles = mesh.triangles.slice();
  for (let i = 0; i < triangles.length; i += 3) {
    const b = triangles[i + 1];
    triangles[i + 1] = triangles[i + 2];
    triangles[i + 2] = b;
  }
  return { ...mesh, triangles };
}
