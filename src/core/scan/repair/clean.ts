import { ScanError } from '../error.ts';

/** sin² of the smallest corner under which a triangle counts as a line. */
const flatSine2 = 1e-20;

export interface Cleaned {
  /** The triangles that stay, in the file's order. */
  readonly triangles: Uint32Array;
  readonly degenerate: number;
  readonly cornerNotANumber: number;
  /** Sound vertices that no triangle of the file uses. */
  readonly unreferenced: number;
}

/**
 * Drops triangles with a corner that is not a number, with two corners at one place, or without area
 * (|u × v|² ≤ 10⁻²⁰ |u|² |v|² for two sides u, v). `triangles` is overwritten.
 * Throws `malformed` where a triangle names a vertex that does not exist.
 */
export function dropUseless(positions: Float32Array, triangles: Uint32Array, invalid: Uint8Array | null): Cleaned {
  const count = positions.length / 3;
  const referenced = new Uint8Array(count);
  let kept = 0;
  let degenerate = 0;
  let cornerNotANumber = 0;
  for (let i = 0; i < triangles.length; i += 3) {
    const a = triangles[i];
    const b = triangles[i + 1];
    const c = triangles[i + 2];
    if (a >= count || b >= count || c >= count) throw noSuchVertex(count);
    referenced[a] = 1;
    referenced[b] = 1;
    referenced[c] = 1;
    if (invalid && (invalid[a] || invalid[b] || invalid[c])) cornerNotANumber++;
    else if (a === b || b === c || c === a || isFlat(positions, a * 3, b * 3, c * 3)) degenerate++;
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
  };
}

function isFlat(p: Float32Array, a: number, b: number, c: number): boolean {
  const ux = p[b] - p[a];
  const uy = p[b + 1] - p[a + 1];
  const uz = p[b + 2] - p[a + 2];
  const vx = p[c] - p[a];
  const vy = p[c + 1] - p[a + 1];
  const vz = p[c + 2] - p[a + 2];
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  return nx * nx + ny * ny + nz * nz <= flatSine2 * (ux * ux + uy * uy + uz * uz) * (vx * vx + vy * vy + vz * vz);
}

const noSuchVertex = (count: number): ScanError =>
  new ScanError('malformed', `a face names a vertex that is not among the ${count} of the file; export it again.`);
