import { ScanError } from '../error.ts';
import { FaceGatherer } from '../fan.ts';
import type { Surface } from '../surface.ts';
import { expectedTriangles, readPlyFaces, readPlyStrips } from './faces.ts';
import { readPlyHeader } from './header.ts';
import { type RangeGrid, readRangeGrid, trianglesOfRangeGrid } from './rangeGrid.ts';
import { plySource, skipElement } from './source.ts';
import { readPlyVertices } from './vertices.ts';

/**
 * Reads a PLY file: ascii or binary of either byte order; faces of any number of corners, triangle strips or a range
 * grid; property types, lists and further elements as the header declares them.
 * Source: G. Turk, The PLY Polygon File Format, 1994.
 */
export function readPly(bytes: Uint8Array): Surface {
  const header = readPlyHeader(bytes);
  const source = plySource(bytes, header);
  let coordinates: Float32Array | Float64Array | undefined;
  let gatherer = new FaceGatherer(0);
  let grid: RangeGrid | undefined;
  for (const element of header.elements) {
    if (element.name === 'vertex') coordinates = readPlyVertices(source, element);
    else if (element.name === 'face' && element.count > 0) {
      gatherer = new FaceGatherer(expectedTriangles(source, element));
      readPlyFaces(source, element, gatherer);
    } else if (element.name === 'tristrips') readPlyStrips(source, element, gatherer);
    else if (element.name === 'range_grid') grid = readRangeGrid(source, element, header);
    else skipElement(source, element);
  }
  if (!coordinates)
    throw new ScanError('noTriangles', 'the PLY file has no vertices; export the surface as triangles.');
  if (gatherer.used === 0 && grid) return { coordinates, triangles: trianglesOfRangeGrid(grid, coordinates) };
  return { coordinates, ...gatherer.result() };
}
