import { ScanError } from '../error.ts';
import type { FaceGatherer } from '../fan.ts';
import { type PlyElement, type PlyProperty, plySize } from './header.ts';
import { BinarySource, checkRoom, type PlySource, readListLength, skipProperty } from './source.ts';

/** Stands for a corner that is no vertex number; the check of the corners refuses it later. */
const noVertex = 0xffffffff;

const indexNames = /^vert(ex|ices)?[_ ]?(index|indices|ind)?$/i;

/** The list that holds the corners: by its usual names, else the first list. */
export function cornerList(element: PlyElement): PlyProperty | undefined {
  const lists = element.properties.filter(({ countType }) => countType);
  return lists.find(({ name }) => indexNames.test(name)) ?? lists[0];
}

/** Faces of any number of corners, as triangles. */
export function readPlyFaces(source: PlySource, element: PlyElement, gatherer: FaceGatherer): void {
  checkRoom(source, element);
  const list = requireList(element);
  const fast = source instanceof BinarySource && readTriangleLayout(source, element, list, gatherer);
  for (let i = fast ? gatherer.used / 3 : 0; i < element.count; i++) {
    for (const property of element.properties) {
      if (property !== list) {
        skipProperty(source, property);
        continue;
      }
      const corners = readListLength(source, property);
      for (let corner = 0; corner < corners; corner++) {
        const index = source.read(property.type);
        gatherer.corner(index >= 0 && index <= noVertex ? index : noVertex);
      }
      gatherer.endFace();
    }
    source.endEntry();
  }
}

/**
 * The usual binary layout, a list of three 32-bit corners with fixed bytes before and behind, read in one loop.
 * Stops before the first face that is not a triangle and leaves the rest to the general way. False where the layout
 * is another.
 */
function readTriangleLayout(
  source: BinarySource,
  element: PlyElement,
  list: PlyProperty,
  gatherer: FaceGatherer,
): boolean {
  const where = element.properties.indexOf(list);
  const others = element.properties.filter((property) => property !== list);
  const usual = list.countType === 'uint8' && (list.type === 'int32' || list.type === 'uint32');
  if (!usual || gatherer.used > 0 || others.some(({ countType }) => countType)) return false;
  const bytesOf = (properties: readonly PlyProperty[]) => properties.reduce((sum, { type }) => sum + plySize[type], 0);
  const before = bytesOf(element.properties.slice(0, where));
  const stride = before + 13 + bytesOf(element.properties.slice(where + 1));
  const { view, little } = source;
  const { triangles } = gatherer;
  let at = source.at + before;
  const lastStart = view.byteLength - stride + before;
  const wanted = Math.min(element.count * 3, triangles.length);
  let used = 0;
  for (; used < wanted && at <= lastStart && view.getUint8(at) === 3; used += 3, at += stride) {
    triangles[used] = view.getUint32(at + 1, little);
    triangles[used + 1] = view.getUint32(at + 5, little);
    triangles[used + 2] = view.getUint32(at + 9, little);
  }
  gatherer.used = used;
  source.at = at - before;
  return true;
}

/**
 * Strips: each corner after the second makes a triangle with the two before it, every other one turned so that all
 * wind alike; −1 begins a new strip.
 */
export function readPlyStrips(source: PlySource, element: PlyElement, gatherer: FaceGatherer): void {
  checkRoom(source, element);
  const list = requireList(element);
  for (let i = 0; i < element.count; i++) {
    for (const property of element.properties) {
      if (property === list) readStrip(source, property, gatherer);
      else skipProperty(source, property);
    }
    source.endEntry();
  }
}

function readStrip(source: PlySource, property: PlyProperty, gatherer: FaceGatherer): void {
  let before = 0;
  let last = 0;
  let run = 0;
  for (let left = readListLength(source, property); left > 0; left--) {
    const index = source.read(property.type);
    if (index < 0 || index === noVertex) {
      run = 0;
      continue;
    }
    if (run >= 2) {
      if (run % 2 === 0) gatherer.triangle(before, last, index);
      else gatherer.triangle(last, before, index);
    }
    before = last;
    last = index;
    run++;
  }
}

function requireList(element: PlyElement): PlyProperty {
  const list = cornerList(element);
  if (list) return list;
  throw new ScanError('malformed', `the PLY element "${element.name}" lists no corners; export the file again.`);
}

/** A first guess of the number of triangles that can never exceed what the file has room for. */
export function expectedTriangles(source: PlySource, element: PlyElement): number {
  checkRoom(source, element);
  const list = requireList(element);
  const fewest = source.smallest(list.countType ?? list.type) + 3 * source.smallest(list.type);
  return Math.min(element.count, Math.ceil(source.left() / fewest));
}
