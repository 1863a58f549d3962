import { layTriangles } from '../../../kernels/index.ts';
import { type Mesh, report, type Watch } from '../../geometry/index.ts';
import { ScanError } from '../error.ts';
import { checkSize } from '../limits.ts';
import type { Surface } from '../surface.ts';
import type { Repairs } from '../types.ts';
import { countEdges } from './census.ts';
import { centre } from './centre.ts';
import { type Cleaned, checkCorners, dropUseless } from './clean.ts';
import { dropDuplicates } from './duplicates.ts';
import { pairEdges } from './edges.ts';
import { isInsideOut, turnAll } from './insideOut.ts';
import { dropStrayPieces, joinTriangles, severalPieces, type Union } from './pieces.ts';
import { unfoldPolygons } from './polygons.ts';
import { inSpatialOrder, isScattered } from './spatialOrder.ts';
import { type Totals, totalsOf, turnedTotals } from './totals.ts';
import { firstAtSamePlace, weld } from './weld.ts';
import { agreeWinding } from './winding.ts';

/**
 * A centred, mended mesh from a surface as read, and the count of everything that was done. The surface's arrays are
 * taken over. Vertices stay where they are in the order of the file, but for STL, whose equal corners are joined;
 * triangles too, unless they jump about at random: then they come in the order of their places.
 * Throws `noTriangles` where nothing is left and `malformed` where a corner names no vertex.
 */
export function mend(surface: Surface, watch: Watch): { mesh: Mesh; repairs: Repairs; totals: Totals } {
  const triangles = surface.triangles.length / 3;
  checkSize(surface.coordinates.length / 3 / (surface.weld ? 3 : 1), triangles);
  report(watch, 0, 'centring the surface');
  const centred = centre(surface.coordinates);
  const joined = surface.weld
    ? weld(centred.positions, surface.triangles, centred.invalid)
    : { ...centred, triangles: surface.triangles, welded: 0 };
  const { positions, invalid } = joined;
  checkCorners(joined.triangles, positions.length / 3);
  if (surface.polygons) unfoldPolygons(positions, joined.triangles, surface.polygons);
  report(watch, 0.3, 'looking for faulty triangles');
  const ordered = isScattered(positions, joined.triangles)
    ? inSpatialOrder(positions, joined.triangles, invalid)
    : { positions, triangles: joined.triangles, invalid, originalOf: null };
  const clean = dropUseless(ordered.positions, ordered.triangles, ordered.invalid);
  const shape = mendShape(ordered.positions, clean, ordered.invalid, surface.weld === true, watch);
  if (ordered.originalOf) rename(shape.triangles, ordered.originalOf);
  if (shape.triangles.length === 0) throw nothingLeft(positions.length / 3, triangles);
  return {
    mesh: { positions, triangles: shape.triangles, offset: centred.offset },
    totals: shape.totals,
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

/**
 * What needs to know how triangles hang together: duplicates, winding and pieces. A sound scan of one piece is only
 * counted through; what costs more is done where the counts call for it.
 */
function mendShape(p: Float32Array, clean: Cleaned, invalid: Uint8Array | null, welded: boolean, watch: Watch) {
  const { triangles } = clean;
  const count = p.length / 3;
  const laid = layTriangles(triangles, count);
  const union = joinTriangles(count, triangles, laid);
  const several = severalPieces(union);
  // Files that list vertices once per triangle or per texture patch fall apart: equal places then count as one vertex.
  const name = several && !welded ? firstAtSamePlace(p, invalid).first : null;
  report(watch, 0.5, 'counting the edges');
  let census = countEdges(triangles, count, name, laid);
  // A triangle that is listed twice crowds its edges or disagrees with itself, unless it is a piece of its own.
  const suspicious = census.crowded > 0 || census.disagreeing > 0 || several || triangles.length <= 6;
  const duplicate = suspicious ? dropDuplicates(triangles, count) : 0;
  const kept = duplicate > 0 ? triangles.slice(0, triangles.length - duplicate * 3) : triangles;
  if (duplicate > 0) census = countEdges(kept, count, name);
  report(watch, 0.8, 'making the winding agree');
  const turned = census.disagreeing > 0 ? agreeWinding(p, kept, pairEdges(kept, count, name), name) : 0;
  const tidy = several
    ? dropStrayPieces(p, kept, joinEqualPlaces(union, name))
    : { triangles: kept, strayPieces: 0, strayTriangles: 0 };
  const changed = turned > 0 || tidy.triangles.length < triangles.length;
  const totals = changed ? totalsOf(p, tidy.triangles) : clean.totals;
  const insideOut = isInsideOut(totals);
  if (insideOut) turnAll(tidy.triangles);
  return {
    ...tidy,
    totals: insideOut ? turnedTotals(totals) : totals,
    duplicate,
    flipped: insideOut ? tidy.triangles.length / 3 - turned : turned,
  };
}

function rename(triangles: Uint32Array, originalOf: Uint32Array): void {
  for (let i = 0; i < triangles.length; i++) triangles[i] = originalOf[triangles[i]];
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
