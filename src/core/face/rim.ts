import {
  componentsOf,
  countCells,
  erode,
  fitForm,
  gaussianFilter,
  type HeightGrid,
  lessForm,
  quantileOfSorted,
  withHeights,
} from '../geometry/index.ts';

export const rimDefaults = {
  /** A rim lies within this depth of the edge, as a share of the size; what is deeper is the inside. */
  depth: 0.12,
  /** With less of the face inside than this share nothing is called a rim. */
  leastInside: 0.25,
  /** A rim stands off the form of the inside by so many times what this share of the inside does. */
  beyond: 3,
  quantile: 0.95,
  /** Its own detail is at most so much of that height: a rim is smooth, letters are not. */
  mostDetail: 0.35,
};

/**
 * The cells that a lip of wax, a wall or a broken rim takes: near the edge, far off the form of the inside and smooth; and whatever they cut off from the
 * inside. `left`: 1 on the cells in question; `smoothMm`: heights are smoothed to waves of this length.
 */
export function rimCells(
  grid: HeightGrid,
  left: Uint8Array,
  sizeMm: number,
  smoothMm: number,
  options = rimDefaults,
): Uint8Array {
  const { width } = grid;
  const inside = erode(withoutHoles(left, width), width, Math.round((options.depth * sizeMm) / grid.pitch)).map(
    (there, i) => there & left[i],
  );
  const none = new Uint8Array(left.length);
  if (countCells(inside) < options.leastInside * countCells(left)) return none;
  const off = offForm(grid, left, inside);
  const smooth = gaussianFilter(off, smoothMm).z;
  const rough = gaussianFilter(
    withHeights(
      off,
      off.z.map((z, i) => Math.abs(z - smooth[i])),
    ),
    2 * smoothMm,
  ).z;
  const usual = quantileOfSorted(
    off.z
      .filter((_, i) => inside[i] === 1)
      .map(Math.abs)
      .sort(),
    options.quantile,
  );
  const high = left.map((there, i) => {
    const height = Math.abs(smooth[i]);
    return there && !inside[i] && height > options.beyond * usual && rough[i] < options.mostDetail * height ? 1 : 0;
  });
  return countCells(high) === 0 ? none : cutOff(left, inside, high, width);
}

/** The cells and the holes among them. */
function withoutHoles(cells: Uint8Array, width: number): Uint8Array {
  const out = new Uint8Array(cells.length).fill(1);
  const bare = cells.map((there) => (there ? 0 : 1));
  const atEdge = (i: number): boolean =>
    i < width || i >= cells.length - width || i % width === 0 || i % width === width - 1;
  for (const piece of componentsOf(bare, width)) if (piece.some(atEdge)) for (const i of piece) out[i] = 0;
  return out;
}

/** Heights off the second-order form of the cells `inside`, on the cells in question, mm. */
const offForm = (grid: HeightGrid, cells: Uint8Array, inside: Uint8Array): HeightGrid =>
  lessForm(withHeights(grid, grid.z, cells), fitForm(withHeights(grid, grid.z, inside), 2));

/** The high cells, and the pieces that are left without any cell of the inside once they are gone. */
function cutOff(left: Uint8Array, inside: Uint8Array, high: Uint8Array, width: number): Uint8Array {
  const rim = Uint8Array.from(high);
  const rest = left.map((there, i) => (there && !high[i] ? 1 : 0));
  for (const piece of componentsOf(rest, width)) if (!piece.some((i) => inside[i])) for (const i of piece) rim[i] = 1;
  return rim;
}
