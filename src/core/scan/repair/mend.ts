import { type Mesh, report, type Watch } from '../../geometry/index.ts';
import { ScanError } from '../error.ts';
import { checkSize } from '../limits.ts';
import type { Surface } from '../surface.ts';
import type { Repairs } from '../types.ts';
import { centre } from './centre.ts';
import { dropUseless } from './clean.ts';
import { dropDuplicates } from './duplicates.ts';
import { pairEdges } from './edges.ts';
import { dropStrayPieces, joinTriangles, severalPieces, type Union } from './pieces.ts';
import { unfoldPolygons } from './polygons.ts';
import { firstAtSamePlace, weld } from './weld.ts';
import { agreeWinding, turnInsideOut } from './winding.ts';

/**
 * A centred, mended mesh from a surface as read, and the count of everything that was done. The surface's arrays are
 * taken over. Vertices stay where they are in the order of the file, but for STL, whose equal corners are joined.
 * Throws `noTriangles` where nothing is left and `malformed` where a corner names no vertex.
 */
export function mend(surface: Surface, watch: Watch): { mesh: Mesh; repairs: Repairs } {
  const triangles = surface.triangles.length / 3;
  checkSize(surface.coordinates.length / 3 / (surface.weld ? 3 : 1), triangles);
  report(watch, 0, 'centring the surface');
  const centred = centre(surface.coordinates);
  const joined = surface.weld
    ? weld(centred.positions, surface.triangles, centred.invalid)
    : { ...centred, triangles: surface.triangles, welded: 0 };
  const { positions, invalid } = joined;
  if (surface.polygons) unfoldPolygons(positions, joined.triangles, surface.polygons);
  report(watch, 0.3, 'looking for faulty triangles');
  const clean = dropUseless(positions, joined.triangles, invalid);
  const shape = mendShape(positions, clean.triangles, invalid, surface.weld === true, watch);
  if (shape.triangles.length === 0) throw nothingLeft(positions.length / 3, triangles);
  return {
    mesh: { positions, triangles: shape.triangles, offset: centred.offset },
    repairs: {
      notANumber: centred.invalidCount,
      cornerNotANumber: clean.cornerNotANumber,
      degenerate: clean.degenerate + (surface.skippedFaces ?? 0),
      duplicate: shape.duplicate,
      unreferenced: clean.unreferenced,
      welded: joined.welded,
      flipped: shape.flipped,
      strayPieces: shape.strayPieces,
      strayTriangles: shape.strayTriangles,
    },
  };
}

/** What needs to know how triangles hang together: duplicates, winding and pieces. */
function mendShape(p: Float32Array, triangles: Uint32Array, invalid: Uint8Array | null, welded: boolean, watch: Watch) {
  const count = p.length / 3;
  const union = joinTriangles(count, triangles);
  const several = severalPieces(union, triangles);
  // Files that list vertices once per triangle or per texture patch fall apart: equal places then count as one vertex.
  const name = several && !welded ? firstAtSamePlace(p, invalid).first : null;
  report(watch, 0.5, 'pairing the edges');
  let pairs = pairEdges(triangles, count, name);
  let kept = triangles;
  const duplicate = pairs.suspects > 0 ? dropDuplicates(triangles, pairs.mate, pairs.suspects) : 0;
  if (duplicate > 0) {
    kept = triangles.slice(0, triangles.length - duplicate * 3);
    pairs = pairEdges(kept, count, name);
  }
  report(watch, 0.8, 'making the winding agree');
  const turned = pairs.disagreeing > 0 ? agreeWinding(p, kept, pairs.mate, name) : 0;
  const tidy = several
    ? dropStrayPieces(p, kept, joinEqualPlaces(union, name))
    : { triangles: kept, strayPieces: 0, strayTriangles: 0 };
  const insideOut = turnInsideOut(p, tidy.triangles);
  return { ...tidy, duplicate, flipped: insideOut > 0 ? insideOut - turned : turned };
}

function joinEqualPlaces(union: Union, name: Uint32Array | null): Union {
  if (name)
    for (let vertex = 0; vertex < name.length; vertex++) if (name[vertex] !== vertex) union.join(vertex, name[vertex]);
  return union;
}

function nothingLeft(vertices: number, triangles: number): ScanError {
  if (vertices === 0) return new ScanError('noTriangles', 'the file holds no surface; export the scan as triangles.');
  return new ScanError(
    'noTriangles',
    triangles === 0
      ? 'the file holds points but no triangles; export the scan as a triangle surface.'
      : 'none of the triangles of the file has an area; export the scan again.',
  );
}
