import { ScanError } from './error.ts';

/** Far above what a seal needs at 10 µm, and what a machine of 16 GB can still compare. */
export const mostVertices = 25_000_000;
export const mostTriangles = 50_000_000;

/** Throws `tooLarge` beyond what is read, before memory is asked for. */
export function checkSize(vertices: number, triangles: number): void {
  if (vertices > mostVertices || triangles > mostTriangles)
    throw new ScanError(
      'tooLarge',
      `the surface has more than ${mostVertices / 1e6} million points; reduce it, or cut out the seal, and give it again.`,
    );
}
