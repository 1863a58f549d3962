import type { Mesh } from '../geometry/index.ts';
import { type Totals, totalsOf } from '../scan/index.ts';

/** Whether a surface goes all the way round, and whether its triangles then look inward. */
export interface Body {
  readonly closed: boolean;
  readonly insideOut: boolean;
}

/** Open edges of a closed surface may leave this share of its area vector unbalanced: holes, a missing underside. */
const closedBelow = 0.25;

/**
 * Around a closed surface the area vectors sum to zero, over a sheet to nearly the whole area (divergence theorem);
 * the signed volume Σ a·(b × c)/6 about the middle is negative where the triangles look inward. `totals`: of this mesh,
 * where they were summed already.
 */
export function bodyOf(mesh: Mesh, totals: Totals = totalsOf(mesh.positions, mesh.triangles)): Body {
  const { area, volume, x, y, z } = totals;
  const closed = Math.sqrt(x * x + y * y + z * z) < closedBelow * area;
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
