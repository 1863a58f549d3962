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
  for (let t = -reach; t <= reach; t++) {
    const dc = Math.round(Math.cos(angle) * t);
    steps.push(-Math.round(Math.sin(angle) * t) * width + dc);
    columns.push(dc);
  }
  const least = 0.6 * steps.length;
  const cells = width * height;
  for (let i = 0; i < cells; i++) {
    if (!across.valid[i]) continue;
    const col = i % width;
    let [count, ridge, groove] = [0, 0, 0];
    for (let t = 0; t < steps.length; t++) {
      const j = i + steps[t];
      const c = col + columns[t];
      if (j < 0 || j >= cells || c < 0 || c >= width || !across.valid[j]) continue;
      count++;
      ridge += across.ridge[j];
      groove += across.groove[j];
    }
    if (count < least) continue;
    if (ridge > count * out.ridge[i]) {
      out.ridge[i] = ridge / count;
      out.ridgeAlong[i] = k;
    }
    if (groove > count * out.groove[i]) {
      out.groove[i] = groove / count;
      out.grooveAlong[i] = k;
    }
  }
}
