/** Cells of `region` more than `cells` steps along rows and columns from any cell outside it or off the picture. */
export function erode(region: Uint8Array, width: number, cells: number): Uint8Array {
  const height = region.length / width;
  let current = region;
  for (let round = 0; round < cells; round++) {
    const next = new Uint8Array(current.length);
    for (let row = 1; row < height - 1; row++)
      for (let col = 1; col < width - 1; col++) {
        const i = row * width + col;
        next[i] = current[i] & current[i - 1] & current[i + 1] & current[i - width] & current[i + width];
      }
    current = next;
  }
  return current;
}
