import {
  bandPass,
  columnOf,
  erode,
  gaussianFilter,
  type HeightGrid,
  rowOf,
  withHeights,
  xOf,
  yOf,
} from '../geometry/index.ts';

/**
 * What the search compares: a square picture of the relief, band-passed, each place divided by the strength of the
 * relief around it, and clipped, so that faint letters count as much as a deep figure and one chip does not decide.
 */
export interface Signal {
  readonly size: number;
  /** Cell side, mm; the face's origin lies at the middle, (size − 1)/2 in both directions. */
  readonly pitch: number;
  /** Row-major; 0 without data. */
  readonly value: Float32Array;
  readonly mask: Uint8Array;
}

/** Relief is not blown up further where it is weaker than a share of this quantile of its strength. */
export interface StrengthFloor {
  readonly share: number;
  readonly of: number;
}

export const signalDefaults = {
  /** Values beyond this many times the local strength are clipped. */
  clip: 2.5,
  /** The local strength is taken over this many times the longest wavelength kept. */
  strengthOver: 1.5,
  /** Where the relief is weaker than this share of its median strength, it is not blown up further. */
  floor: { share: 0.4, of: 0.5 },
  /**
   * Width of the margin left out along every edge of the data, as a share of the longest wavelength kept: the rim of a
   * die and the lip of wax that rises beside it are steps that the other face lacks.
   */
  margin: 0.35,
};

/** Band fromMm to toMm of the detail, on `size` × `size` cells of `pitch` mm about the face's origin. */
export function signalOf(
  detail: HeightGrid,
  size: number,
  pitch: number,
  fromMm: number,
  toMm: number,
  floor: StrengthFloor = signalDefaults.floor,
): Signal {
  const coarse = shrink(gaussianFilter(detail, Math.max(fromMm, 2 * pitch)), size, pitch);
  const band = bandPass(coarse, 0, toMm);
  const strength = localStrength(band, signalDefaults.strengthOver * toMm, floor);
  const mask = erode(coarse.mask, size, Math.round((signalDefaults.margin * toMm) / pitch));
  const value = new Float32Array(band.z.length);
  for (let i = 0; i < value.length; i++) if (mask[i]) value[i] = clamp(band.z[i] / strength[i], signalDefaults.clip);
  return { size, pitch, value, mask };
}

const clamp = (value: number, most: number): number => Math.max(-most, Math.min(most, value));

/** Nearest cells of a smoothed grid on a square grid about the origin. */
function shrink(grid: HeightGrid, size: number, pitch: number): HeightGrid {
  const half = ((size - 1) / 2) * pitch;
  const z = new Float32Array(size * size);
  const mask = new Uint8Array(size * size);
  const square: HeightGrid = { width: size, height: size, pitch, left: -half, top: half, z, mask };
  for (let row = 0, i = 0; row < size; row++)
    for (let col = 0; col < size; col++, i++) {
      const c = Math.round(columnOf(grid, xOf(square, col)));
      const r = Math.round(rowOf(grid, yOf(square, row)));
      if (c < 0 || r < 0 || c >= grid.width || r >= grid.height) continue;
      mask[i] = grid.mask[r * grid.width + c];
      z[i] = grid.z[r * grid.width + c];
    }
  return square;
}

/** Root of the smoothed square, kept above the floor so that empty field stays quiet. */
function localStrength(band: HeightGrid, overMm: number, { share, of }: StrengthFloor): Float32Array {
  const square = withHeights(
    band,
    band.z.map((z) => z * z),
  );
  const strength = gaussianFilter(square, overMm).z.map((value) => Math.sqrt(Math.max(0, value)));
  const inside = strength.filter((_, i) => band.mask[i] === 1).sort();
  const floor = share * (inside[Math.floor(of * inside.length)] ?? 0) + 1e-12;
  return strength.map((value) => Math.max(value, floor));
}
