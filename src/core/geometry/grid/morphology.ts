/**
 * Cells of `region` more than `cells` steps away from any cell outside it, steps going to the four neighbours; what
 * lies beyond the grid counts as outside. Two passes over the grid, whatever the width (distance transform of
 * Rosenfeld and Pfaltz 1966).
 */
export function erode(region: Uint8Array, width: number, cells: number): Uint8Array {
  if (cells <= 0) return region;
  const steps = stepsToOutside(region, width, cells + 1);
  const inner = new Uint8Array(region.length);
  for (let i = 0; i < inner.length; i++) inner[i] = steps[i] > cells ? 1 : 0;
  return inner;
}

/** Cells of `region` and their four neighbours. */
export function dilate(region: Uint8Array, width: number): Uint8Array {
  const grown = new Uint8Array(region.length);
  for (let i = 0, col = 0; i < grown.length; i++, col = col === width - 1 ? 0 : col + 1) {
    const side = (col > 0 && region[i - 1] === 1) || (col < width - 1 && region[i + 1] === 1);
    if (region[i] || side || region[i - width] || region[i + width]) grown[i] = 1;
  }
  return grown;
}

/** Steps from each cell to the nearest one outside the region, counted up to `most`; 0 outside. */
function stepsToOutside(region: Uint8Array, width: number, most: number): Uint16Array {
  const height = region.length / width;
  const steps = new Uint16Array(region.length);
  for (let row = 0, i = 0; row < height; row++)
    for (let col = 0; col < width; col++, i++) {
      if (!region[i]) continue;
      const above = row > 0 ? steps[i - width] : 0;
      const before = col > 0 ? steps[i - 1] : 0;
      steps[i] = Math.min(above + 1, before + 1, most);
    }
  for (let row = height - 1, i = region.length - 1; row >= 0; row--)
    for (let col = width - 1; col >= 0; col--, i--) {
      if (!region[i]) continue;
      const below = row < height - 1 ? steps[i + width] : 0;
      const after = col < width - 1 ? steps[i + 1] : 0;
      steps[i] = Math.min(below + 1, after + 1, steps[i]);
    }
  return steps;
}

/** How many cells a region has. */
export const countCells = (region: Uint8Array): number => region.reduce((sum, cell) => sum + cell, 0);
