import {
  componentsOf,
  dilate,
  distanceTransform,
  everyNth,
  gaussianFilter,
  type HeightGrid,
  quantileOfSorted,
  removeForm,
  slopeX,
  slopeY,
  stepAcross,
  type Vec2,
  withHeights,
} from '../geometry/index.ts';
import { rimCells } from './rim.ts';
import { beyondWall } from './wall.ts';

export const imageDefaults = {
  /** Heights are smoothed to waves of this share of the face's size: strokes vanish, the flank of an edge stays. */
  smooth: 1 / 20,
  /** A flank is so many times as steep as the quieter third of the face, and at least so steep. */
  steeper: 5.5,
  quiet: 0.35,
  leastSlope: 0.15,
  /** It slopes across the edge of the data: cosine between its slope and the way inward, either way, at least. */
  across: 0.8,
  /** An edge is peeled from outside to at most this depth, as a share of the size. */
  depth: 0.12,
  /** Pieces that the flank leaves over beyond it are no image where they are smaller than this share of the largest. */
  scrap: 0.02,
  /** Most cells along a side while the edge is looked for. */
  mostAcross: 256,
};

/**
 * What the matrix printed, of a face: its relief without the bevel of a metal body, the lip and the rim of a cake of wax, or the
 * broken flank of a piece, and with the form taken off anew. These are steps that the other face lacks or has elsewhere. From
 * where the data end, cell by cell inward, as long as the smoothed relief is a steep flank across the edge, which the even field inside stops; then what lies beyond the
 * wall that the matrix left in a cake wider than itself (`wall.ts`; `inWax`: whether it may lie in one, `walled`: whether it does);
 * then what stands off the inside near the edge, as far and as smooth as no letter does (`rim.ts`).
 */
export function imageOf(
  relief: HeightGrid,
  sizeMm: number,
  inWax: boolean,
  options = imageDefaults,
): { readonly image: HeightGrid; readonly walled: boolean } {
  const step = stepAcross(relief, options.mostAcross);
  const coarse = removeForm(everyNth(relief, step), 2).detail;
  const flank = peeled(
    coarse,
    steepCells(coarse, sizeMm, options),
    Math.round((options.depth * sizeMm) / coarse.pitch),
  );
  const left = coarse.mask.map((there, i) => (there && !flank[i] ? 1 : 0));
  const wide = inWax ? beyondWall(withHeights(coarse, coarse.z, left), sizeMm) : new Uint8Array(left.length);
  const narrow = left.map((there, i) => (there && !wide[i] ? 1 : 0));
  const rim = rimCells(coarse, narrow, sizeMm, options.smooth * sizeMm);
  const gone = beyondData(
    withScraps(
      flank.map((cell, i) => cell | wide[i] | rim[i]),
      coarse,
      options.scrap,
    ),
    coarse,
  );
  return { image: removeForm(withoutCells(relief, gone, coarse, step), 2).detail, walled: wide.includes(1) };
}

/** The relief without the cells that are gone, each `step` of its own across. */
function withoutCells(relief: HeightGrid, gone: Uint8Array, coarse: HeightGrid, step: number): HeightGrid {
  const mask = new Uint8Array(relief.mask.length);
  const z = new Float32Array(relief.z.length);
  const columns = Int32Array.from({ length: relief.width }, (_, c) => Math.min(coarse.width - 1, Math.round(c / step)));
  for (let r = 0, i = 0; r < relief.height; r++) {
    const row = coarse.width * Math.min(coarse.height - 1, Math.round(r / step));
    for (let c = 0; c < relief.width; c++, i++) {
      if (!relief.mask[i] || gone[row + columns[c]]) continue;
      mask[i] = 1;
      z[i] = relief.z[i];
    }
  }
  return withHeights(relief, z, mask);
}

/** The cells that are gone, and the scraps of the grid that these leave over: the top of a lip beyond its flank, an end of it that was not steep. */
function withScraps(gone: Uint8Array, { mask, width }: HeightGrid, scrap: number): Uint8Array {
  const pieces = componentsOf(
    mask.map((there, i) => (there && !gone[i] ? 1 : 0)),
    width,
  );
  const largest = Math.max(...pieces.map(({ length }) => length));
  for (const piece of pieces) if (piece.length < scrap * largest) for (const i of piece) gone[i] = 1;
  return gone;
}

/** The same where the coarse grid has no data beside them: cells of the fine one that lie there are at the end of it too. */
function beyondData(gone: Uint8Array, { mask, width }: HeightGrid): Uint8Array {
  const near = dilate(gone, width);
  return gone.map((cell, i) => (cell || (!mask[i] && near[i]) ? 1 : 0));
}

/** 1 where the smoothed relief is steep across the edge of the data, as a flank is and strokes beside a break are not, or ends. */
function steepCells(grid: HeightGrid, sizeMm: number, options: typeof imageDefaults): Uint8Array {
  const { width, mask, pitch } = grid;
  const [{ z }, { z: depth }] = [grid, withHeights(grid, Float32Array.from(distanceTransform(mask, width)))].map(
    (heights) => gaussianFilter(heights, options.smooth * sizeMm),
  );
  const slopeOf = (heights: Float32Array, i: number): Vec2 => [
    slopeX(heights, i, pitch),
    slopeY(heights, i, width, pitch),
  ];
  const whole = (i: number): boolean => !!(mask[i] && mask[i - 1] && mask[i + 1] && mask[i - width] && mask[i + width]);
  const slope = new Float32Array(z.length);
  const inside = new Float32Array(z.length);
  let n = 0;
  for (let i = 0; i < z.length; i++) {
    if (!whole(i)) continue;
    slope[i] = Math.hypot(...slopeOf(z, i));
    inside[n++] = slope[i];
  }
  const least = Math.max(
    options.leastSlope,
    options.steeper * (quantileOfSorted(inside.subarray(0, n).sort(), options.quiet) || 0),
  );
  const isFlank = (i: number): boolean => slope[i] > least && alike(slopeOf(z, i), slopeOf(depth, i)) > options.across;
  return mask.map((m, i) => (m && (!whole(i) || isFlank(i)) ? 1 : 0));
}

/** Cosine between two directions, whichever way along them. */
const alike = ([ax, ay]: Vec2, [bx, by]: Vec2): number =>
  Math.abs(ax * bx + ay * by) / (Math.hypot(ax, ay) * Math.hypot(bx, by));

/** The steep cells that are joined to the outside within `depth` steps; holes of the scan are not outside. */
function peeled({ width, mask }: Pick<HeightGrid, 'width' | 'mask'>, steep: Uint8Array, depth: number): Uint8Array {
  const kind = new Uint8Array(mask.length);
  for (let i = 0; i < kind.length; i++) kind[i] = mask[i] ? (steep[i] ? flankCell : done) : bareCell;
  const flank = new Uint8Array(mask.length);
  const queue = new Int32Array(mask.length);
  let end = 0;
  for (let i = 0; i < mask.length; i++) {
    const atEdge = i < width || i >= mask.length - width || i % width === 0 || i % width === width - 1;
    if (!atEdge || kind[i] === done) continue;
    if (kind[i] === flankCell) flank[i] = 1;
    kind[i] = done;
    queue[end++] = i;
  }
  for (let at = 0; at < end; at++) if (!mask[queue[at]]) end = spread(kind, width, queue, end, queue[at], bareCell);
  for (let from = 0, k = 0; k < depth && from < end; k++) {
    const to = end;
    for (; from < to; from++) end = spread(kind, width, queue, end, queue[from], flankCell);
    for (let at = to; at < end; at++) flank[queue[at]] = 1;
  }
  return flank;
}

/** What a cell is that was not come to yet: without data, or steep. */
const [done, bareCell, flankCell] = [0, 1, 2];

/** Puts the neighbours of cell `i` of that kind into the queue, once each; its new end. */
function spread(kind: Uint8Array, width: number, queue: Int32Array, end: number, i: number, want: number): number {
  const column = i % width;
  const left = column > 0 && kind[i - 1] === want;
  const right = column < width - 1 && kind[i + 1] === want;
  const above = i >= width && kind[i - width] === want;
  const below = i + width < kind.length && kind[i + width] === want;
  let next = end;
  if (left) queue[next++] = i - 1;
  if (right) queue[next++] = i + 1;
  if (above) queue[next++] = i - width;
  if (below) queue[next++] = i + width;
  for (let at = end; at < next; at++) kind[queue[at]] = done;
  return next;
}
