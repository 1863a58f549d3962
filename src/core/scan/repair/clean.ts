import { ScanError } from '../error.ts';
import { addTriangle, newTotals, type Totals } from './totals.ts';

export interface Cleaned {
  /** The triangles that stay, in their order. */
  readonly triangles: Uint32Array;
  readonly degenerate: number;
  readonly cornerNotANumber: number;
  /** Sound vertices that no triangle of the file uses. */
  readonly unreferenced: number;
  /** Of the triangles that stay. */
  readonly totals: Totals;
}

/**
 * Drops triangles with a corner that is not a number, with two corners at one place, or without area
 * (see totals.ts). `triangles` is overwritten. All corners must be vertices.
 */
export function dropUseless(positions: Float32Array, triangles: Uint32Array, invalid: Uint8Array | null): Cleaned {
  const count = positions.length / 3;
  const referenced = new Uint8Array(count);
  let kept = 0;
  let degenerate = 0;
  let cornerNotANumber = 0;
  const totals = newTotals();
  for (let i = 0; i < triangles.length; i += 3) {
    const a = triangles[i];
    const b = triangles[i + 1];
    const c = triangles[i + 2];
    referenced[a] = 1;
    referenced[b] = 1;
    referenced[c] = 1;
    if (invalid && (invalid[a] || invalid[b] || invalid[c])) cornerNotANumber++;
    else if (a === b || b === c || c === a || !addTriangle(totals, positions, a * 3, b * 3, c * 3)) degenerate++;
    else {
      triangles[kept] = a;
      triangles[kept + 1] = b;
      triangles[kept + 2] = c;
      kept += 3;
    }
  }
  let unreferenced = 0;
  for (let vertex = 0; vertex < count; vertex++) if (!referenced[vertex] && !invalid?.[vertex]) unreferenced++;
  return {
    triangles: kept === triangles.length ? triangles : triangles.slice(0, kept),
    degenerate,
    cornerNotANumber,
    unreferenced,
    totals,
  };
}

/** Throws `malformed` where a triangle names a vertex that does not exist. */
export function checkCorners(triangles: Uint32Array, vertexCount: number): void {
  let largest = 0;
  for (let i = 0; i < triangles.length; i++) if (triangles[i] > largest) largest = triangles[i];
  if (triangles.length > 0 && largest >= vertexCount)
    throw new ScanError(
      'malformed',
      `a face names a vertex that is not among the ${vertexCount} of the file; export it again.`,
    );
}
