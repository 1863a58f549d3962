import type { HeightGrid } from '../../geometry/index.ts';

export const lineDefaults = {
  /** Directions looked along. */
  directions: 12,
  /** Length over which a line is averaged, mm. */
  lengthMm: 2.4,
  /** Distance of the places on both sides that a line must stand out from, mm; at least two cells. */
  besideMm: 0.75,
};

/** The strongest ridge and the strongest groove through each cell. */
export interface LineField {
  /** Mean height over both sides along the best direction, mm; 0 or more. */
  readonly ridge: Float32Array;
  readonly groove: Float32Array;
  /** Index of those directions: k · 180°/directions counter-clockwise from x. */
  readonly ridgeAlong: Uint8Array;
  readonly grooveAlong: Uint8Array;
}

/**
 * Oriented line detection. Across direction k with normal n, at distance s,
 *
 *   ridge(p) = z(p) − max(z(p + s n), z(p − s n)),  groove(p) = min(z(p + s n), z(p − s n)) − z(p),
 *
 * averaged along the direction over `lengthMm`, so that a step has neither and a short bump has little. Each cell keeps its
 * best direction. Of several grids on the same cells the least counts: what all of them show. Cells without data on
 * their sides take no part. Heights mm.
 */
export function lineField(grids: readonly HeightGrid[], options = lineDefaults): LineField {
  const [grid] = grids;
  const n = grid.z.length;
  const out: LineField = {
    ridge: new Float32Array(n),
    groove: new Float32Array(n),
    ridgeAlong: new Uint8Array(n),
    grooveAlong: new Uint8Array(n),
  };
  const beside = Math.max(2, options.besideMm / grid.pitch);
  const reach = Math.max(1, Math.round(options.lengthMm / 2 / grid.pitch));
  const across = { ridge: new Float32Array(n), groove: new Float32Array(n), valid: new Uint8Array(n) };
  for (let k = 0; k < options.directions; k++) {
    const angle = (k * Math.PI) / options.directions;
    grids.forEach((one, g) => {
      acrossDirection(one, angle, beside, across, g === 0);
    });
    alongDirection(grid, angle, reach, across, k, out);
  }
  return out;
}

interface Across {
  readonly ridge: Float32Array;
  readonly groove: Float32Array;
  readonly valid: Uint8Array;
}

function acrossDirection(
  { width, height, z, mask }: HeightGrid,
  angle: number,
  beside: number,
  out: Across,
  first: boolean,
): void {
  // Rows run downward: the normal of (cos, −sin) in cells.
  const dc = Math.round(Math.sin(angle) * beside);
  const dr = Math.round(Math.cos(angle) * beside);
  const step = dr * width + dc;
  if (first) out.valid.fill(1);
  for (let row = 0, i = 0; row < height; row++)
    for (let col = 0; col < width; col++, i++) {
      if (!out.valid[i]) continue;
      const within =
        row >= Math.abs(dr) && row < height - Math.abs(dr) && col >= Math.abs(dc) && col < width - Math.abs(dc);
      if (!(within && mask[i] && mask[i + step] && mask[i - step])) {
        out.valid[i] = 0;
        continue;
      }
      const one = z[i + step];
      const two = z[i - step];
      const ridge = z[i] - Math.max(one, two);
      const groove = Math.min(one, two) - z[i];
      out.ridge[i] = first || ridge < out.ridge[i] ? ridge : out.ridge[i];
      out.groove[i] = first || groove < out.groove[i] ? groove : out.groove[i];
    }
}

function alongDirection(
  { width, height }: HeightGrid,
  angle: number,
  reach: number,
  across: Across,
  k: number,
  out: LineField,
): void {
  const steps: number[] = [];
  const columns: number[] = [];
  const stride = Math.max(1, reach / 4);
  for (let t = -reach; t <= reach + 1e-9; t += stride) {
    const dc = Math.round(Math.cos(angle) * t);
    steps.push(-Math.round(Math.sin(angle) * t) * width + dc);
    columns.push(dc);
  }
  const count = steps.length;
  const least = Math.ceil(0.6 * count);
  const { valid } = across;
  // A cell that is no crest itself is none of the line's: two thirds of the cells are spared for either kind.
  const average = (values: Float32Array, best: Float32Array, along: Uint8Array): void => {
    for (let row = 0, i = 0; row < height; row++)
      for (let col = 0; col < width; col++, i++) {
        if (!valid[i] || values[i] <= 0) continue;
        let [n, sum] = [0, 0];
        for (let t = 0; t < count; t++) {
          const c = col + columns[t];
          const j = i + steps[t];
          if (c < 0 || c >= width || j < 0 || j >= values.length || valid[j] === 0) continue;
          n++;
          sum += values[j];
        }
        if (n >= least && sum > n * best[i]) {
          best[i] = sum / n;
          along[i] = k;
        }
      }
  };
  average(across.ridge, out.ridge, out.ridgeAlong);
  average(across.groove, out.groove, out.grooveAlong);
}
