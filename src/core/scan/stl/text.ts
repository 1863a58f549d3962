import { ScanError } from '../error.ts';
import { FaceGatherer } from '../fan.ts';
import type { Surface } from '../surface.ts';
import { Cursor } from '../text/cursor.ts';
import { grownFloat64 } from '../text/growing.ts';

/** Fewest bytes of a corner in text: "vertex 0 0 0" and a line end. */
const cornerBytes = 13;

/**
 * Text STL, with any number of solids, in any mixture of cases and white space. Only the corners are read; what
 * stands around them need not be well formed, but each loop has three corners or more and the last solid is ended,
 * or the file is taken to be cut short.
 */
export function readTextStl(bytes: Uint8Array): Surface {
  const cursor = new Cursor(bytes);
  const faces = new FaceGatherer(0);
  let coordinates = new Float64Array(Math.ceil(bytes.length / (cornerBytes * 4)) * 3);
  let used = 0;
  let cornersInLoop = 0;
  let open = false;
  while (cursor.skipBlanks()) {
    // The second letter tells most words apart without comparing them.
    const letter = cursor.bytes[cursor.at] | 32;
    if (letter === 0x76 && cursor.takeWord('vertex')) {
      if (used + 3 > coordinates.length) coordinates = grownFloat64(coordinates, used + 3);
      coordinates[used++] = cursor.number();
      coordinates[used++] = cursor.number();
      coordinates[used++] = cursor.number();
      faces.corner(used / 3 - 1);
      cornersInLoop++;
    } else if (letter === 0x65 && cursor.takeWord('endloop')) {
      if (cornersInLoop < 3) throw brokenLoop(cornersInLoop);
      faces.endFace();
      cornersInLoop = 0;
    } else if (letter === 0x65 && cursor.takeWord('endsolid')) {
      open = false;
      cursor.skipLine();
    } else if (letter === 0x73 && cursor.takeWord('solid')) {
      open = true;
      skipName(cursor);
    } else cursor.skipWord();
  }
  if (open || cornersInLoop > 0)
    throw new ScanError('truncated', 'the STL file ends before its last "endsolid"; copy or export it again.');
  return { coordinates: coordinates.slice(0, used), ...faces.result(), weld: true };
}

const brokenLoop = (corners: number): ScanError =>
  new ScanError('malformed', `the STL file has a facet of ${corners} corners; export it again.`);

/** A name may hold any word, even "vertex"; but some writers put everything on one line. */
function skipName(cursor: Cursor): void {
  while (cursor.skipBlanksInLine()) {
    if ((cursor.bytes[cursor.at] | 32) === 0x66) {
      const at = cursor.at;
      const facet = cursor.takeWord('facet') && cursor.skipBlanksInLine() && cursor.takeWord('normal');
      if (facet) return;
      cursor.at = at;
    }
    cursor.skipWord();
  }
}
