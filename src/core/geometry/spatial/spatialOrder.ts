/**
 * An order in which to visit points so that successive ones lie near one another: cell by cell of a cubic grid, rows of
 * cells run to and fro. Counting sort, O(points). Searches that start from the last answer gain by it; the points
 * themselves stay where they are. `positions` are xyz triples; `cells` is the number along the longest extent.
 */
export function spatialOrder(positions: Float32Array, cells = 96): Uint32Array {
  const count = positions.length / 3;
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let i = 0, axis = 0; i < positions.length; i++, axis = axis === 2 ? 0 : axis + 1) {
    if (positions[i] < low[axis]) low[axis] = positions[i];
    if (positions[i] > high[axis]) high[axis] = positions[i];
  }
  const extent = Math.max(high[0] - low[0], high[1] - low[1], high[2] - low[2]) || 1;
  const scale = (cells - 1) / extent;
  const key = new Uint32Array(count);
  const start = new Uint32Array(cells ** 3 + 1);
  for (let i = 0, k = 0; i < count; i++, k += 3) {
    const z = Math.floor((positions[k + 2] - low[2]) * scale);
    const row = Math.floor((positions[k + 1] - low[1]) * scale);
    const y = z & 1 ? cells - 1 - row : row;
    const col = Math.floor((positions[k] - low[0]) * scale);
    const x = y & 1 ? cells - 1 - col : col;
    key[i] = (z * cells + y) * cells + x;
    start[key[i] + 1]++;
  }
  for (let cell = 0; cell < cells ** 3; cell++) start[cell + 1] += start[cell];
  const order = new Uint32Array(count);
  for (let i = 0; i < count; i++) order[start[key[i]]++] = i;
  return order;
}
