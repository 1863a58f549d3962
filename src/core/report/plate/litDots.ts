import {
  type Box,
  dataBox,
  gaussianFilter,
  type HeightGrid,
  sampleCubic,
  sampleGrid,
  withHeights,
  xOf,
  yOf,
} from '../../geometry/index.ts';

/** A lit face in dots, row 0 at the top; clear where there is no data. */
export interface PlacedPicture {
  /** Dots from the left and the top of the plate. */
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly grey: Uint8ClampedArray;
  readonly mask: Uint8Array;
}

/** What is drawn round a face where there is no data, x and y in mm as in the picture. */
export interface PlateSurroundings {
  /** x, y pairs, closed implicitly. */
  readonly outline: ArrayLike<number>;
  readonly labels: ReadonlyArray<{ readonly x: number; readonly y: number; readonly text: string }>;
}

/** How a relief on dots is drawn. */
export type DrawDots = (grid: HeightGrid) => Uint8ClampedArray;

/** The relief on dots, drawn; its own margin without data cut off, but for what is drawn there. */
export function litDots(
  relief: HeightGrid,
  dotMm: number,
  draw: DrawDots,
  around: PlateSurroundings | undefined,
): Omit<PlacedPicture, 'left' | 'top'> & { readonly box: Box } {
  const smooth = dotMm > relief.pitch ? gaussianFilter(relief, 2 * dotMm) : relief;
  const box = around ? boxAround(dataBox(relief), around) : dataBox(relief);
  const width = Math.max(1, Math.round((box.right - box.left) / dotMm));
  const height = Math.max(1, Math.round((box.top - box.bottom) / dotMm));
  const grid: HeightGrid = {
    width,
    height,
    pitch: dotMm,
    left: box.left,
    top: box.top,
    z: new Float32Array(width * height),
    mask: new Uint8Array(width * height),
  };
  const cover = coverOf(relief);
  const whole = widened(smooth);
  for (let row = 0, i = 0; row < height; row++)
    for (let col = 0; col < width; col++, i++) {
      const [x, y] = [xOf(grid, col), yOf(grid, row)];
      const z = sampleCubic(whole, x, y);
      if (Number.isNaN(z) || sampleGrid(cover, x, y) < 0.5) continue;
      grid.z[i] = z;
      grid.mask[i] = 1;
    }
  return { width, height, grey: draw(grid), mask: grid.mask, box };
}

/** The mask smoothed by about a cell, over the whole grid: the edge of the data is drawn where it is a half, and not in steps. */
const coverOf = (relief: HeightGrid): HeightGrid =>
  gaussianFilter(
    withHeights(relief, Float32Array.from(relief.mask), new Uint8Array(relief.mask.length).fill(1)),
    5 * relief.pitch,
  );

/** The relief with one more cell round its data, each the mean of its neighbours: so much the smoothed edge cuts across corners. */
function widened(relief: HeightGrid): HeightGrid {
  const { width, height, z, mask } = relief;
  const out = withHeights(relief, z.slice(), mask.slice());
  for (let row = 1; row < height - 1; row++)
    for (let col = 1; col < width - 1; col++) {
      const i = row * width + col;
      if (mask[i]) continue;
      const around = [-width - 1, -width, -width + 1, -1, 1, width - 1, width, width + 1].filter(
        (step) => mask[i + step],
      );
      if (around.length === 0) continue;
      out.z[i] = around.reduce((sum, step) => sum + z[i + step], 0) / around.length;
      out.mask[i] = 1;
    }
  return out;
}

/** So much is left round labels, mm. */
const labelMm = 2;

function boxAround(data: Box, { outline, labels }: PlateSurroundings): Box {
  const x = [...labels.flatMap((label) => [label.x - labelMm, label.x + labelMm]), data.left, data.right];
  const y = [...labels.flatMap((label) => [label.y - labelMm, label.y + labelMm]), data.bottom, data.top];
  for (let k = 0; k < outline.length; k += 2) {
    x.push(outline[k]);
    y.push(outline[k + 1]);
  }
  return { left: Math.min(...x), right: Math.max(...x), bottom: Math.min(...y), top: Math.max(...y) };
}
