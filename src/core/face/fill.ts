import { type HeightGrid, xOf, yOf } from '../geometry/index.ts';

/**
 * Share of the outline's area that carries data, and the number of holes inside it of more than ten cells: pieces
 * without data that do not reach the outline. `polygon` holds x, y pairs in the grid's frame.
 */
export function fillOf(relief: HeightGrid, polygon: Float64Array): { filled: number; holes: number } {
  const inside = insidePolygon(relief, polygon);
  const { area, data, empty } = cellsWithin(inside, relief.mask);
  return { filled: area > 0 ? data / area : 0, holes: countHoles(empty, inside, relief.width) };
}

/** How many cells lie inside, how many of them carry data, and 1 for those that do not. */
function cellsWithin(inside: Uint8Array, mask: Uint8Array): { area: number; data: number; empty: Uint8Array } {
  let area = 0;
  let data = 0;
  const empty = new Uint8Array(inside.length);
  for (let i = 0; i < inside.length; i++) {
    if (!inside[i]) continue;
    area++;
    if (mask[i]) data++;
    else empty[i] = 1;
  }
  return { area, data, empty };
}

/** 1 for the cells whose centre lies inside the polygon (even-odd rule, one scan line per row). */
export function insidePolygon(grid: HeightGrid, polygon: Float64Array): Uint8Array {
  const inside = new Uint8Array(grid.width * grid.height);
  for (let row = 0; row < grid.height; row++) {
    const crossings = crossingsAt(polygon, yOf(grid, row));
    for (let k = 0; k + 1 < crossings.length; k += 2) {
      const from = Math.max(0, Math.ceil((crossings[k] - xOf(grid, 0)) / grid.pitch));
      const to = Math.min(grid.width - 1, Math.floor((crossings[k + 1] - xOf(grid, 0)) / grid.pitch));
      if (to >= from) inside.fill(1, row * grid.width + from, row * grid.width + to + 1);
    }
  }
  return inside;
}

function crossingsAt(polygon: Float64Array, y: number): number[] {
  const xs: number[] = [];
  const count = polygon.length / 2;
  for (let i = 0; i < count; i++) {
    const j = (i + 1) % count;
    const y0 = polygon[i * 2 + 1];
    const y1 = polygon[j * 2 + 1];
    if (y0 <= y === y1 <= y) continue;
    xs.push(polygon[i * 2] + ((y - y0) / (y1 - y0)) * (polygon[j * 2] - polygon[i * 2]));
  }
  return xs.sort((a, b) => a - b);
}

function countHoles(empty: Uint8Array, inside: Uint8Array, width: number): number {
  const seen = new Uint8Array(empty.length);
  let holes = 0;
  for (let seed = 0; seed < empty.length; seed++) {
    if (!empty[seed] || seen[seed]) continue;
    const stack = [seed];
    seen[seed] = 1;
    let size = 0;
    let atRim = false;
    while (stack.length > 0) {
      const i = stack.pop() as number;
      size++;
      for (const j of [i - 1, i + 1, i - width, i + width]) {
        if (!inside[j]) atRim = true;
        else if (empty[j] && !seen[j]) {
          seen[j] = 1;
          stack.push(j);
        }
      }
    }
    if (size > 10 && !atRim) holes++;
  }
  return holes;
}
