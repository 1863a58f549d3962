import { ScanError } from '../error.ts';
import type { Surface } from '../surface.ts';
import { facetBytes } from './recogniseStl.ts';

/**
 * Binary STL: 80 bytes of header, a count, then 50 bytes a facet: normal, three corners (float32, little-endian) and
 * two bytes that carry nothing here. The normals are not read: the order of the corners says the same.
 * A count of zero with facets behind it, as some programs leave it, is made good from the length; bytes behind the
 * last facet are passed over. Throws `truncated` where facets are missing.
 */
export function readBinaryStl(bytes: Uint8Array): Surface {
  if (bytes.length < 84)
    throw new ScanError('truncated', 'the STL file is shorter than its header; copy or export it again.');
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const room = Math.floor((bytes.length - 84) / facetBytes);
  const stated = view.getUint32(80, true);
  const count = stated === 0 ? room : stated;
  if (count > room)
    throw new ScanError(
      'truncated',
      `the STL file announces ${count} facets but holds ${room}; copy or export it again.`,
    );
  if (84 + count * facetBytes < bytes.length && convertedAsText(bytes))
    throw new ScanError('malformed', 'the STL file was damaged by being copied as text; copy it again as it is.');
  const coordinates = new Float32Array(count * 9);
  for (let i = 0, at = 84 + 12; i < coordinates.length; i += 9, at += facetBytes) {
    coordinates[i] = view.getFloat32(at, true);
    coordinates[i + 1] = view.getFloat32(at + 4, true);
    coordinates[i + 2] = view.getFloat32(at + 8, true);
    coordinates[i + 3] = view.getFloat32(at + 12, true);
    coordinates[i + 4] = view.getFloat32(at + 16, true);
    coordinates[i + 5] = view.getFloat32(at + 20, true);
    coordinates[i + 6] = view.getFloat32(at + 24, true);
    coordinates[i + 7] = view.getFloat32(at + 28, true);
    coordinates[i + 8] = view.getFloat32(at + 32, true);
  }
  return { coordinates, triangles: cornersInOrder(count * 3), weld: true };
}

/**
 * True where the body is strewn with EF BF BD, which stands in UTF-8 for "not a character": a program took the bytes
 * for text and wrote them back, so that every number with a high byte is lost.
 */
function convertedAsText(bytes: Uint8Array): boolean {
  let found = 0;
  for (let at = 84; at + 2 < Math.min(bytes.length, 1 << 16); at++)
    if (bytes[at] === 0xef && bytes[at + 1] === 0xbf && bytes[at + 2] === 0xbd) found++;
  return found >= 4;
}

/** 0, 1, 2, …: every triangle has its own three corners. */
export function cornersInOrder(count: number): Uint32Array {
  const corners = new Uint32Array(count);
  for (let i = 0; i < count; i++) corners[i] = i;
  return corners;
}
