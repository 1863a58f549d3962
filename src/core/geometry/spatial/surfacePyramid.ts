import { inStretches } from '../stretches.ts';
import type { Blocks } from './surfaceBlocks.ts';
import type { Columns } from './surfaceColumns.ts';

/** Bounds over ever wider squares of columns, of a SurfaceIndex. */

export interface Pyramid {
  readonly levelWidth: Int32Array;
  readonly levelHeight: Int32Array;
  readonly levelStart: Int32Array;
  readonly bounds: Float32Array;
}

export function buildPyramid(columns: Columns, blocks: Blocks): Pyramid {
  const widths = [columns.width];
  const heights = [columns.height];
  const starts = [0];
  let nodes = columns.width * columns.height;
  while (widths[widths.length - 1] > 1 || heights[heights.length - 1] > 1) {
    starts.push(nodes);
    widths.push(Math.ceil(widths[widths.length - 1] / 2));
    heights.push(Math.ceil(heights[heights.length - 1] / 2));
    nodes += widths[widths.length - 1] * heights[heights.length - 1];
  }
  const bounds = new Float32Array(6 * nodes);
  for (let i = 0; i < bounds.length; i++) bounds[i] = i % 6 < 3 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
  inStretches(boundColumns, { ...blocks, bounds }, blocks.columnStart.length - 1);
  for (let level = 1; level < widths.length; level++)
    inStretches(
      boundRows,
      { bounds, width: widths[level - 1], upper: widths[level], from: starts[level - 1], to: starts[level] },
      heights[level - 1],
      16,
    );
  return {
    levelWidth: Int32Array.from(widths),
    levelHeight: Int32Array.from(heights),
    levelStart: Int32Array.from(starts),
    bounds,
  };
}

function boundColumns(
  { columnStart, blockBounds, bounds }: Blocks & { readonly bounds: Float32Array },
  from: number,
  to: number,
): void {
  for (let k = from; k < to; k++)
    for (let b = columnStart[k]; b < columnStart[k + 1]; b++) widen(bounds, 6 * k, blockBounds, 6 * b);
}

interface Raised {
  readonly bounds: Float32Array;
  /** Nodes across the level below and the one above, and the first of each. */
  readonly width: number;
  readonly upper: number;
  readonly from: number;
  readonly to: number;
}

function boundRows({ bounds, width, upper, from, to }: Raised, fromRow: number, toRow: number): void {
  for (let row = fromRow; row < toRow; row++)
    for (let col = 0; col < width; col++)
      widen(bounds, 6 * (to + (row >> 1) * upper + (col >> 1)), bounds, 6 * (from + row * width + col));
}

function widen(into: Float32Array, at: number, from: Float32Array, k: number): void {
  for (let i = 0; i < 3; i++) {
    if (from[k + i] < into[at + i]) into[at + i] = from[k + i];
    if (from[k + i + 3] > into[at + i + 3]) into[at + i + 3] = from[k + i + 3];
  }
}
