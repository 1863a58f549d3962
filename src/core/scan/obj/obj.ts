import { ScanError } from '../error.ts';
import { FaceGatherer } from '../fan.ts';
import type { Surface } from '../surface.ts';
import { Cursor } from '../text/cursor.ts';
import { grownFloat64 } from '../text/growing.ts';

const letterV = 0x76;
const letterF = 0x66;
const hash = 0x23;
const backslash = 0x5c;

/** Stands for a corner that is no vertex number; the check of the corners refuses it later. */
const noVertex = 0xffffffff;

/**
 * Wavefront OBJ: `v` and `f` lines; corners may count from the end (negative), carry texture and normal numbers, and
 * name vertices that come later. Groups, objects, materials, lines, points and free-form surfaces are passed over.
 * Faces of fewer than three corners are skipped and counted. Throws `malformed` for a vertex of fewer than three
 * numbers or a corner that is no number.
 */
export function readObj(bytes: Uint8Array): Surface {
  const cursor = new Cursor(bytes);
  const faces = new FaceGatherer(Math.ceil(bytes.length / 60));
  let coordinates = new Float64Array(Math.ceil(bytes.length / 100) * 3);
  let used = 0;
  while (cursor.skipBlanks()) {
    const letter = bytes[cursor.at];
    const single = !(bytes[cursor.at + 1] > 32);
    if (letter === letterV && single) {
      cursor.at++;
      if (used + 3 > coordinates.length) coordinates = grownFloat64(coordinates, used + 3);
      for (let axis = 0; axis < 3; axis++) {
        if (!goesOn(cursor))
          throw new ScanError('malformed', 'a vertex of the OBJ file has fewer than three numbers; export it again.');
        coordinates[used++] = cursor.number();
      }
    } else if (letter === letterF && single) {
      cursor.at++;
      readFace(cursor, used / 3, faces);
    }
    cursor.skipLine();
  }
  return { coordinates: coordinates.slice(0, used), ...faces.result() };
}

function readFace(cursor: Cursor, verticesSoFar: number, faces: FaceGatherer): void {
  while (goesOn(cursor)) {
    const index = readWhole(cursor);
    cursor.skipWord();
    // Corners are kept in 32 bits: a larger number must not come round to a vertex that exists.
    if (index > 0) faces.corner(index <= noVertex ? index - 1 : noVertex);
    else faces.corner(index < 0 && -index <= verticesSoFar ? verticesSoFar + index : noVertex);
  }
  faces.endFace();
}

/** A signed whole number; what follows a stroke is left. */
function readWhole(cursor: Cursor): number {
  const { bytes } = cursor;
  let at = cursor.at;
  const negative = bytes[at] === 45;
  if (negative) at++;
  const first = at;
  let value = 0;
  for (let byte = bytes[at]; byte >= 48 && byte <= 57; byte = bytes[++at]) value = value * 10 + (byte - 48);
  if (at === first || (bytes[at] > 32 && bytes[at] !== 47 && bytes[at] !== backslash))
    throw new ScanError('malformed', `a face of the OBJ file names the corner "${cursor.word()}"; export it again.`);
  cursor.at = at;
  return negative ? -value : value;
}

/** True where more words follow on this line, or on the next one behind a backslash. */
function goesOn(cursor: Cursor): boolean {
  const { bytes } = cursor;
  while (cursor.skipBlanksInLine()) {
    if (bytes[cursor.at] === hash) return false;
    if (bytes[cursor.at] !== backslash || bytes[cursor.at + 1] > 32) return true;
    cursor.skipLine();
    if (bytes[cursor.at - 1] === 13 && bytes[cursor.at] === 10) cursor.at++;
  }
  return false;
}
