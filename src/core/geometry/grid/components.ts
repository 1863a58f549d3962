/** Lists of cells that hang together over sides and corners, each list's first cell first met row by row. */
export function componentsOf(cells: Uint8Array, width: number): Int32Array[] {
  const n = cells.length;
  const walk: Walk = { cells, width, seen: new Uint8Array(n), stack: new Int32Array(n), found: new Int32Array(n) };
  const parts: Int32Array[] = [];
  for (let seed = 0; seed < n; seed++)
    if (cells[seed] && !walk.seen[seed]) parts.push(walk.found.slice(0, walked(walk, seed)));
  return parts;
}

interface Walk {
  readonly cells: Uint8Array;
  readonly width: number;
  readonly seen: Uint8Array;
  readonly stack: Int32Array;
  readonly found: Int32Array;
}

/** Lists all that hangs together with `seed`; how many cells. */
function walked({ cells, width, seen, stack, found }: Walk, seed: number): number {
  let count = 0;
  let top = 0;
  stack[top++] = seed;
  seen[seed] = 1;
  while (top > 0) {
    const i = stack[--top];
    found[count++] = i;
    const col = i % width;
    for (let dy = -width; dy <= width; dy += width)
      for (let dx = -1; dx <= 1; dx++) {
        const j = i + dy + dx;
        if (col + dx < 0 || col + dx >= width || j < 0 || j >= cells.length || seen[j] || !cells[j]) continue;
        seen[j] = 1;
        stack[top++] = j;
      }
  }
  return count;
}
