import { type HeightGrid, rigidRow, sampleGrid, withHeights, xOf, yOf } from '../geometry/index.ts';

/**
 * Level of detection at 95 %: 1.96 (√(σ₁²/n₁ + σ₂²/n₂) + reg), mm. σ: noise of each scan, mm; n: effective neighbours
 * that the difference averages (noise is correlated, so fewer than points); reg: standard uncertainty of the
 * registration, mm, outside the root because it does not average out.
 * Source: Lague, Brodu and Leroux, ISPRS Journal of Photogrammetry and Remote Sensing 82, 2013.
 */
export function levelOfDetection(sigma1: number, n1: number, sigma2: number, n2: number, reg: number): number {
  return 1.96 * (Math.sqrt(sigma1 ** 2 / n1 + sigma2 ** 2 / n2) + reg);
}

/**
 * Effective neighbours of a Gaussian mean with standard deviation `meanSigmaMm`: its equivalent area 4π s² over the
 * area of one independent sample (a square of the noise's correlation length, at least a cell); never below 1.
 */
export function effectiveNeighbours(meanSigmaMm: number, pitchMm: number, noiseLengthMm: number): number {
  return Math.max(1, (4 * Math.PI * meanSigmaMm ** 2) / Math.max(pitchMm, noiseLengthMm) ** 2);
}

export interface LevelInput {
  readonly sigmaMm: readonly [number, number];
  readonly neighbours: readonly [number, number];
  /** Noise of the mean as the map itself shows it, mm; it counts where it is less, since what one scan shows is an upper bound. */
  readonly mapSigmaMm?: number;
  /** 7 × 7 over turn, shift, log size about the face's centre, in the reference's face frame. */
  readonly covariance: Float64Array;
  /** Standard uncertainty that no averaging removes and no pose explains (light inside translucent wax), mm. */
  readonly systematicMm: number;
}

/**
 * The level of detection in every cell of `map`, mm. reg² = gᵀ C g + systematic² with C the covariance of the pose and
 * g = (r × n, n, r · n), how far a small turn, shift or growth moves the place r = (x, y, z) of the reference along its
 * normal n. Heights and slopes are read from `relief`, the reference's, in the same frame.
 */
export function levelGrid(map: HeightGrid, relief: HeightGrid, input: LevelInput): HeightGrid {
  const { sigmaMm, neighbours, mapSigmaMm = Number.POSITIVE_INFINITY, covariance, systematicMm } = input;
  const [s1, s2] = sigmaMm.map((sigma, k) => sigma / Math.sqrt(neighbours[k]));
  const noise = Math.min(Math.hypot(s1, s2), mapSigmaMm);
  const z = new Float32Array(map.z.length);
  const g = new Float64Array(7);
  const step = Math.max(map.pitch, relief.pitch);
  for (let row = 0, i = 0; row < map.height; row++)
    for (let col = 0; col < map.width; col++, i++) {
      if (!map.mask[i]) continue;
      motionAlongNormal(relief, xOf(map, col), yOf(map, row), step, g);
      const reg = Math.sqrt(Math.max(0, quadraticForm(covariance, g)) + systematicMm ** 2);
      z[i] = levelOfDetection(noise, 1, 0, 1, reg);
    }
  return withHeights(map, z);
}

/** g at (x, y). Without relief there the face plane stands in. */
function motionAlongNormal(relief: HeightGrid, x: number, y: number, step: number, g: Float64Array): void {
  const at = (dx: number, dy: number): number => sampleGrid(relief, x + dx, y + dy);
  const z = orZero(at(0, 0));
  const dx = orZero((at(step, 0) - at(-step, 0)) / (2 * step));
  const dy = orZero((at(0, step) - at(0, -step)) / (2 * step));
  const length = Math.sqrt(dx * dx + dy * dy + 1);
  const [nx, ny, nz] = [-dx / length, -dy / length, 1 / length];
  rigidRow(x, y, z, nx, ny, nz, g);
  g[6] = x * nx + y * ny + z * nz;
}

const orZero = (value: number): number => (Number.isNaN(value) ? 0 : value);

function quadraticForm(c: Float64Array, g: Float64Array): number {
  let sum = 0;
  for (let a = 0; a < 7; a++) for (let b = 0; b < 7; b++) sum += g[a] * c[7 * a + b] * g[b];
  return sum;
}
