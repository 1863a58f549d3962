import { type HeightGrid, xOf, yOf } from '../../geometry/index.ts';
import type { PlacedFragment } from '../../read/index.ts';

export const besideDefaults = {
  /** From the furthest of all edges to a letter, mm. */
  besideMm: 3,
  /** Between two letters, at least, mm; and how far a letter is turned at a time until it has that room, degrees. */
  apartMm: 5,
  stepDeg: 3,
};

/** Where a fragment's letter stands, mm. */
export interface LetterPlace {
  readonly x: number;
  readonly y: number;
}

/**
 * A place for each fragment's letter: in the direction from the face's centre to the fragment's middle, beyond the outline and beyond
 * all that any fragment carries there, so that none is printed on wax; turned round the face until it stands apart from the letters before it, since
 * an impression may lie over another's piece.
 */
export function besideEdges(placed: readonly PlacedFragment[], outline: ArrayLike<number>): LetterPlace[] {
  const edges = [...Array.from(outline), ...placed.flatMap(({ surface }) => rowEnds(surface))];
  const letters: LetterPlace[] = [];
  for (const { middle } of placed) {
    const toward = Math.hypot(...middle) < 1e-6 ? Math.PI / 2 : Math.atan2(middle[1], middle[0]);
    letters.push(firstFree(letters, (turn) => beyond(edges, toward + turn)));
  }
  return letters;
}

/** The place nearest to its own direction that has room; its own where there is none all round. */
function firstFree(taken: readonly LetterPlace[], at: (turn: number) => LetterPlace): LetterPlace {
  const step = (besideDefaults.stepDeg * Math.PI) / 180;
  for (let k = 0; k * step <= Math.PI; k++)
    for (const turn of [k * step, -k * step]) {
      const place = at(turn);
      if (taken.every(({ x, y }) => Math.hypot(x - place.x, y - place.y) >= besideDefaults.apartMm)) return place;
    }
  return at(0);
}

function beyond(edges: readonly number[], direction: number): LetterPlace {
  const [dx, dy] = [Math.cos(direction), Math.sin(direction)];
  let reach = 0;
  for (let i = 0; i < edges.length; i += 2) reach = Math.max(reach, edges[i] * dx + edges[i + 1] * dy);
  return { x: (reach + besideDefaults.besideMm) * dx, y: (reach + besideDefaults.besideMm) * dy };
}

/** First and last place with data of each row, x, y pairs, mm: nothing reaches further in any direction. */
function rowEnds(grid: HeightGrid): number[] {
  const ends: number[] = [];
  for (let row = 0; row < grid.height; row++) {
    const cells = grid.mask.subarray(row * grid.width, (row + 1) * grid.width);
    if (cells.includes(1))
      ends.push(xOf(grid, cells.indexOf(1)), yOf(grid, row), xOf(grid, cells.lastIndexOf(1)), yOf(grid, row));
  }
  return ends;
}
