import type { HeightGrid } from '../geometry/index.ts';

/**
 * The largest piece of the grid whose cells lie within `reach` of zero height and whose neighbouring cells differ by
 * less than `step`. Returns 1 for the cells of that piece, row-major. Four neighbours count.
 */
export function largestRegion(grid: HeightGrid, reach: number, step: number): Uint8Array {
  const { width, z, mask } = grid;
  const label = new Int32Array(z.length);
  const beside = Int32Array.of(-1, -width, width, 1);
  const ground: Ground = { width, z, mask, reach, step, label, stack: new Int32Array(z.length), beside };
  let best = 0;
  let bestSize = 0;
  let current = 0;
  for (let seed = nextSeed(ground, 0); seed < z.length; seed = nextSeed(ground, seed + 1)) {
    const size = grown(ground, seed, ++current);
    if (size <= bestSize) continue;
    best = current;
    bestSize = size;
  }
  return bestSize > 0 ? cellsLabelled(label, best) : new Uint8Array(label.length);
}

/** From `from` on the first cell of a piece that has no label; past the last where there is none. */
function nextSeed(ground: Ground, from: number): number {
  let seed = from;
  while (seed < ground.z.length && (ground.label[seed] !== 0 || !isInside(ground, seed))) seed++;
  return seed;
}

function cellsLabelled(label: Int32Array, wanted: number): Uint8Array {
  const cells = new Uint8Array(label.length);
  for (let i = 0; i < label.length; i++) if (label[i] === wanted) cells[i] = 1;
  return cells;
}

interface Ground extends Pick<HeightGrid, 'width' | 'z' | 'mask'> {
  readonly reach: number;
  readonly step: number;
  /** Number of the piece that a cell belongs to; 0 before it is reached. */
  readonly label: Int32Array;
  readonly stack: Int32Array;
  /** From a cell to its neighbours: left, above, below, right. */
  readonly beside: Int32Array;
}

const isInside = ({ mask, z, reach }: Ground, i: number): boolean => mask[i] === 1 && Math.abs(z[i]) < reach;

/** Labels the piece about `seed`; its cells. */
function grown(ground: Ground, seed: number, current: number): number {
  const { width, beside, label, stack } = ground;
  let top = 0;
  let size = 0;
  stack[top++] = seed;
  label[seed] = current;
  while (top > 0) {
    const i = stack[--top];
    size++;
    const col = i % width;
    const last = col < width - 1 ? 3 : 2;
    for (let side = col > 0 ? 0 : 1; side <= last; side++) top = joined(ground, i + beside[side], i, current, top);
  }
  return size;
}

/** Labels cell j beside i and puts it on the stack where it joins; the stack's top. */
function joined(ground: Ground, j: number, i: number, current: number, top: number): number {
  const { z, label, stack, step } = ground;
  if (j < 0 || j >= z.length || label[j] !== 0 || !isInside(ground, j)) return top;
  if (!(Math.abs(z[j] - z[i]) <= step)) return top;
  label[j] = current;
  stack[top] = j;
  return top + 1;
}
