import {
  bandPass,
  distanceTransform,
  gaussianFilter,
  type HeightGrid,
  quantile,
  withHeights,
} from '../geometry/index.ts';
import { toneOf } from './filters/index.ts';
import { gradients, strokeDirections } from './light/index.ts';
import type { LitPicture, RidgesShown } from './picture.ts';

/**
 * Finger marks on wax backs: whether ridges of skin seem to be there, and no more. No minutiae are extracted and nothing is
 * matched; historic marks may be a living handler's. Ridges have a period of about 0.5 mm (0.3 to 0.8 looked for).
 */
export const ridgeBandMm = { from: 0.3, to: 0.8 } as const;

export interface RidgeView {
  readonly grid: HeightGrid;
  /** Relief of 0.3 to 0.8 mm, mm. */
  readonly ridges: Float32Array;
  /** How much the ridges run one way within about 2 mm, 0 to 1. */
  readonly coherence: Float32Array;
  /** 1 where ridges of that period run one way and stand out of the noise. */
  readonly likely: Uint8Array;
  readonly areaMm2: number;
  /** A proposal for the record; the cataloguer decides. */
  readonly proposal: RidgesShown['proposal'];
}

/** Ridges of skin lie side by side: a patch holds a disc of this radius, mm, less than half a fingertip. */
const leastReachMm = 1.8;

/** Smallest area, mm², that is proposed as a mark: a fifth of a fingertip. */
const leastAreaMm2 = 20;

/**
 * Brings out ridges on the back: R = band pass 0.3–0.8 mm (Gaussian, ISO 16610-61), direction and coherence from its
 * structure tensor over 2 mm. A cell is likely where coherence > 0.6, local RMS of R > 1.2 × noise (of which the band lets little through), and the
 * mean period 2π √(⟨R²⟩/⟨|∇R|²⟩) lies between 0.3 and 0.8 mm, within 1.8 mm of a place that is likely 1.8 mm all round: a single step, the foot
 * of a handle or a rim, rings in the band too, in a belt narrower than that. Not judged where cells are wider than 0.12 mm.
 */
export function ridgeView(back: HeightGrid, noiseMm: number): RidgeView {
  const band = bandPass(back, ridgeBandMm.from, ridgeBandMm.to);
  const { coherence } = strokeDirections(band, 0.5);
  const { power, periodMm } = localWaves(band);
  const runs = new Uint8Array(band.z.length);
  for (let i = 0; i < runs.length; i++) {
    if (!back.mask[i]) continue;
    const stands = power[i] > (1.2 * noiseMm) ** 2;
    if (!stands || coherence[i] < 0.6 || periodMm[i] < ridgeBandMm.from || periodMm[i] > ridgeBandMm.to) continue;
    runs[i] = 1;
  }
  const likely = broadOnly(runs, band);
  const areaMm2 = likely.reduce((sum, value) => sum + value, 0) * back.pitch ** 2;
  const proposal = back.pitch > 0.12 ? 'notJudged' : areaMm2 >= leastAreaMm2 ? 'present' : 'absent';
  return { grid: back, ridges: band.z, coherence, likely, areaMm2, proposal };
}

/** The cells of a mask that lie within `leastReachMm` of one that is so far inside it. */
function broadOnly(mask: Uint8Array, { width, pitch }: HeightGrid): Uint8Array {
  const reach = leastReachMm / pitch;
  const deep = distanceTransform(mask, width);
  const fromDeep = distanceTransform(
    Uint8Array.from(deep, (cells) => (cells > reach ? 0 : 1)),
    width,
  );
  // Cells beyond the grid count as outside there, which is no deep cell.
  const any = deep.some((cells) => cells > reach);
  return mask.map((value, i) => (any && value && fromDeep[i] <= reach ? 1 : 0));
}

/**
 * Local mean square over 2 mm, and the mean period from ⟨|∇R|²⟩/⟨R²⟩ = (sin kp/p)², p the cell's side: the slope of a
 * wave read from whole cells comes out too low by sin(kp)/kp.
 */
function localWaves(band: HeightGrid): { power: Float32Array; periodMm: Float32Array } {
  const { dx, dy } = gradients(band);
  const local = (values: Float32Array): Float32Array => gaussianFilter(withHeights(band, values), 2).z;
  const power = local(band.z.map((value) => value * value));
  const steepness = local(dx.map((value, i) => value * value + dy[i] * dy[i]));
  const periodMm = power.map((square, i) => {
    const sine = band.pitch * Math.sqrt(steepness[i] / Math.max(1e-12, square));
    return (2 * Math.PI * band.pitch) / Math.asin(Math.min(1, Math.max(1e-6, sine)));
  });
  return { power, periodMm };
}

/**
 * Median period of the likely ridges, mm, or null where there are none. Only for those who ask for it: it tells neither age nor sex.
 */
export function ridgeSpacingMm({ grid, ridges, likely }: RidgeView): number | null {
  const { periodMm } = localWaves(withHeights(grid, ridges));
  const periods = Array.from(periodMm).filter((_, i) => likely[i] === 1);
  return periods.length > 0 ? quantile(periods, 0.5) : null;
}

/**
 * The view as a picture. For export it is blurred unless the user insists: then only where ridges lie can be seen, not how
 * they run.
 */
export function ridgePicture(view: RidgeView, options: { readonly sharp?: boolean } = {}): LitPicture {
  const { sharp = false } = options;
  const { grid, ridges, proposal, areaMm2 } = view;
  const shown = sharp ? ridges : gaussianFilter(withHeights(grid, ridges.map(Math.abs)), 4 * ridgeBandMm.to).z;
  const tone = toneOf(shown, grid.mask);
  const grey = new Uint8ClampedArray(tone.length);
  for (let i = 0; i < tone.length; i++) grey[i] = 255 * tone[i];
  return { width: grid.width, height: grid.height, grey, shown: { code: 'ridges', sharp, proposal, areaMm2 } };
}
