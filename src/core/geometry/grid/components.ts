/** Lists of cells that hang together over sides and corners, each list's first cell first met row by row. */
export function componentsOf(cells: Uint8Array, width: number): Int32Array[] {
  const seen = new Uint8Array(cells.length);
  const parts: Int32Array[] = [];
  const stack = new Int32Array(cells.length);
  for (let seed = 0; seed < cells.length; seed++) {
    if (!cells[seed] || seen[seed]) continue;
    let count = 0;
    let top = 0;
    const found: number[] = [];
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
    parts.push(Int32Array.from(found));
  }
  return parts;
}
