import { gaussianFilter, type HeightGrid, resampleGrid, sigmaOfCutoff } from '../geometry/index.ts';

/** The relief smoothed to one standard deviation. */
export interface Level {
  readonly z: Float32Array;
  readonly sigmaMm: number;
}

export const scaleSpaceDefaults = {
  /** Cells along the longer side that the relief is brought to. */
  mostAcross: 256,
  /** First rung of the ladder, mm, and its least in cells. */
  firstMm: 0.0125,
  leastCells: 1,
  /** Greatest smoothing as a share of the longer side of what is there. */
  mostShare: 1 / 12,
  perOctave: 3,
};

/** The relief at a spacing that a search needs, smoothed before it is thinned. */
export function working(grid: HeightGrid, { mostAcross } = scaleSpaceDefaults): HeightGrid {
  const pitch = (Math.max(grid.width, grid.height) * grid.pitch) / mostAcross;
  if (pitch <= 1.2 * grid.pitch) return grid;
  return resampleGrid(gaussianFilter(grid, 2 * pitch), pitch);
}

/**
 * Gaussian scale space of a relief with holes, levels 2^(1/perOctave) apart on one ladder of millimetres for all faces, so that two
 * scans of one object stand on the same rungs whatever is left of it. Cells without data have no weight (normalised convolution).
 * Source: Lindeberg, Scale-Space Theory in Computer Vision, 1994; Lowe, IJCV 60(2), 2004 (levels an octave).
 */
export function scaleSpace(grid: HeightGrid, options = scaleSpaceDefaults): Level[] {
  const { firstMm, leastCells, mostShare, perOctave } = options;
  const longSide = Math.max(grid.width, grid.height) * grid.pitch;
  const first = Math.max(0, Math.ceil(perOctave * Math.log2((leastCells * grid.pitch) / firstMm)));
  const last = Math.max(first + 4, Math.ceil(perOctave * Math.log2((mostShare * longSide) / firstMm)));
  const levels: Level[] = [];
  for (let k = first; k <= last; k++) {
    const sigmaMm = firstMm * 2 ** (k / perOctave);
    levels.push({ z: gaussianFilter(grid, sigmaMm / sigmaOfCutoff(1)).z, sigmaMm });
  }
  return levels;
}
