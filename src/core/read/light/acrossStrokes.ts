import { gaussianFilter, type HeightGrid, withHeights } from '../../geometry/index.ts';
import type { LitPicture } from '../picture.ts';
import { heldBelowWhite } from './highlights.ts';
import { towardLamp } from './lamp.ts';
import { type LightOptions, lightDefaults } from './light.ts';
import { gradients, normalsOf } from './normals.ts';
import { viewGrid } from './view.ts';

export interface AcrossOptions
  extends Pick<LightOptions, 'view' | 'sense' | 'exaggeration' | 'fieldGrey' | 'emptyGrey' | 'holdHighlights'> {
  /** Width of a stroke, mm: directions are averaged over about this size. */
  readonly strokeMm?: number;
  /** Height of the lamp above the face plane, degrees. */
  readonly heightDeg?: number;
  /** The lamp stands on the half circle round this azimuth, degrees. */
  readonly middleAzimuthDeg?: number;
}

export const acrossDefaults = { strokeMm: 0.4, heightDeg: 20, middleAzimuthDeg: 315 } as const;

/** Which way strokes run at each cell. */
export interface StrokeDirections {
  /** cos 2φ and sin 2φ of the direction *across* the stroke, φ from x toward y (up). */
  readonly cos2: Float32Array;
  readonly sin2: Float32Array;
  /** 0: no direction stands out; 1: slopes run one way only. */
  readonly coherence: Float32Array;
}

/**
 * Direction across the strokes from the structure tensor J = G ∗ (∇z ∇zᵀ), G a Gaussian of cut-off 4 × stroke width:
 * tan 2φ = 2 J12/(J11 − J22), coherence √((J11 − J22)² + 4 J12²)/(J11 + J22).
 * Source: Bigün and Granlund, ICCV 1987; coherence after Weickert, Int. J. Computer Vision 31, 1999.
 */
export function strokeDirections(grid: HeightGrid, strokeMm: number): StrokeDirections {
  const { dx, dy } = gradients(grid);
  const difference = new Float32Array(dx.length);
  const product = new Float32Array(dx.length);
  const total = new Float32Array(dx.length);
  for (let i = 0; i < dx.length; i++) {
    difference[i] = dx[i] * dx[i] - dy[i] * dy[i];
    product[i] = 2 * dx[i] * dy[i];
    total[i] = dx[i] * dx[i] + dy[i] * dy[i];
  }
  const smooth = (values: Float32Array): Float32Array => gaussianFilter(withHeights(grid, values), 4 * strokeMm).z;
  const cos2 = smooth(difference);
  const sin2 = smooth(product);
  const coherence = smooth(total);
  for (let i = 0; i < cos2.length; i++) {
    const size = Math.sqrt(cos2[i] ** 2 + sin2[i] ** 2);
    coherence[i] = coherence[i] > 0 ? Math.min(1, size / coherence[i]) : 0;
    cos2[i] = size > 0 ? cos2[i] / size : 1;
    sin2[i] = size > 0 ? sin2[i] / size : 0;
  }
  return { cos2, sin2, coherence };
}

/**
 * Light across each stroke, chosen automatically: at every cell the lamp stands at right angles to the stroke there, on
 * the half circle round the middle azimuth, so that what is raised is lit from above everywhere.
 *
 * With u the direction across the stroke, turned so that u · m ≥ 0 (m toward the middle azimuth), c the coherence and
 * s = min(1, u · m/0.15): the lamp's azimuth is that of c s u + (1 − c s) m, and grey = fieldGrey · max(0, n · l)/sin h.
 * Strokes within 9° of lying along m would have to be lit from both ends of the half circle; there the lamp swings back to m,
 * and contrast falls to what a single lamp gives. No rule is free of such a seam, because a direction across has no
 * sign and a lamp has. The rule is this project's own; shading as in `light`.
 */
export function lightAcross(grid: HeightGrid, options: AcrossOptions = {}): LitPicture {
  const settings = { ...lightDefaults, ...acrossDefaults, ...options };
  const { strokeMm, heightDeg, middleAzimuthDeg, fieldGrey, emptyGrey, view, sense, exaggeration } = settings;
  const shown = viewGrid(grid, view);
  const { cos2, sin2, coherence } = strokeDirections(shown, strokeMm);
  const normals = normalsOf(shown, exaggeration);
  const [mx, my] = towardLamp({ azimuthDeg: middleAzimuthDeg, heightDeg: 0 });
  const [, cosine, sine] = towardLamp({ azimuthDeg: 0, heightDeg });
  const gain = fieldGrey === 'plain' ? 255 : fieldGrey / sine;
  const level = settings.holdHighlights && fieldGrey !== 'plain' ? fieldGrey : null;
  const grey = new Uint8ClampedArray(shown.z.length).fill(emptyGrey);
  for (let i = 0; i < grey.length; i++) {
    if (!shown.mask[i]) continue;
    // φ halved from its double without trigonometry.
    const ux = Math.sqrt(Math.max(0, 0.5 * (1 + cos2[i])));
    const uy = Math.sqrt(Math.max(0, 0.5 * (1 - cos2[i]))) * (sin2[i] < 0 ? -1 : 1);
    const toward = ux * mx + uy * my;
    const share = coherence[i] * Math.min(1, Math.abs(toward) / seam) * (toward < 0 ? -1 : 1);
    const x = share * ux + (1 - Math.abs(share)) * mx;
    const y = share * uy + (1 - Math.abs(share)) * my;
    const across = (x * normals.x[i] + y * normals.y[i]) / Math.sqrt(x * x + y * y);
    const value = gain * (cosine * across + sine * normals.z[i]);
    grey[i] = level === null ? value : heldBelowWhite(value, level);
  }
  return {
    ...{ width: shown.width, height: shown.height, grey },
    shown: { code: 'across', strokeMm, middleAzimuthDeg, heightDeg, exaggeration, view, sense },
  };
}

/** sin 9°: where the lamp begins to swing back to the middle. */
const seam = 0.15;
