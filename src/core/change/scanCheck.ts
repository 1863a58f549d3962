import { isTranslucent } from '../compare/index.ts';
import { bodyOf, type Face } from '../face/index.ts';
import {
  distanceTransform,
  formRemoved,
  gaussianFilter,
  type HeightGrid,
  type Mesh,
  medianEdge,
  quantile,
} from '../geometry/index.ts';
import { cutoffOf } from './scales.ts';

export const scanCheckDefaults = {
  /** Points across a narrow stroke of the design. */
  pointsAcross: 4,
  /** Relief over noise. */
  reliefOverNoise: 30,
  /** Least share of the outline that carries data. */
  filled: 0.97,
  /** Greatest scale uncertainty, percent. */
  scalePercent: 0.1,
  /** Waves longer than this are form and no stroke, mm; the share of strokes that are narrower than what is called narrow. */
  formMm: 4,
  narrowShare: 0.25,
};

/** What a scan must be like so that a later one can be held against it. */
export type ScanRequirement =
  | { readonly code: 'unit'; readonly passes: boolean; readonly unit: string }
  | {
      readonly code: 'spacing';
      readonly passes: boolean;
      readonly spacingMm: number;
      readonly strokeMm: number;
      readonly neededMm: number;
    }
  | {
      readonly code: 'noise';
      readonly passes: boolean;
      readonly noiseMm: number;
      readonly reliefMm: number;
      readonly neededMm: number;
    }
  | { readonly code: 'filled'; readonly passes: boolean; readonly share: number; readonly holes: number }
  | { readonly code: 'bothSides'; readonly passes: boolean }
  | {
      readonly code: 'scaleCheck';
      readonly passes: boolean;
      readonly percent: number | null;
      readonly neededPercent: number;
    }
  | { readonly code: 'repeat'; readonly passes: boolean }
  /** `null`: translucent, and whether that matters cannot be told from one scan. */
  | { readonly code: 'material'; readonly passes: boolean | null; readonly material: string | null };

export interface CheckedScan {
  readonly mesh: Mesh;
  readonly face: Face;
  readonly unit: string;
  readonly unitFrom: 'stated' | 'file' | 'assumed';
  readonly material?: string | undefined;
  readonly scaleUncertaintyPercent: number;
  readonly scaleUncertaintyFrom: 'stated' | 'assumed';
  /** Measured on a repeat, mm; undefined without one. */
  readonly repeatNoiseMm: number | undefined;
}

/** Each requirement with what was measured and whether it is met, in the order in which a scan is planned. */
export function scanCheck(scan: CheckedScan, options = scanCheckDefaults): ScanRequirement[] {
  const { mesh, face, material = null } = scan;
  const spacingMm = medianEdge(mesh);
  const strokeMm = strokeWidth(face, options);
  const neededMm = strokeMm / options.pointsAcross;
  const noiseMm = scan.repeatNoiseMm ?? face.noiseMm;
  const reliefMm = reliefDepth(face.detail);
  const most = reliefMm / options.reliefOverNoise;
  const percent = scan.scaleUncertaintyFrom === 'stated' ? scan.scaleUncertaintyPercent : null;
  return [
    { code: 'unit', passes: scan.unitFrom !== 'assumed', unit: scan.unit },
    { code: 'spacing', passes: spacingMm <= neededMm, spacingMm, strokeMm, neededMm },
    { code: 'noise', passes: noiseMm <= most, noiseMm, reliefMm, neededMm: most },
    { code: 'filled', passes: face.filled >= options.filled, share: face.filled, holes: face.holes },
    { code: 'bothSides', passes: bodyOf(mesh).closed },
    {
      code: 'scaleCheck',
      passes: percent !== null && percent <= options.scalePercent,
      percent,
      neededPercent: options.scalePercent,
    },
    { code: 'repeat', passes: scan.repeatNoiseMm !== undefined },
    { code: 'material', passes: material === null ? false : isTranslucent(material) ? null : true, material },
  ];
}

/**
 * Width of the narrow strokes of the design, mm. The parts that stand higher (on an engraving, lie deeper) than half of the
 * usual relief are opened by discs: the diameter of the least disc that takes `narrowShare` of their area away. A scan
 * too coarse for its strokes shows them two cells wide, and no narrower.
 */
export function strokeWidth({ image, sense }: Face, options = scanCheckDefaults): number {
  const { width, pitch, mask } = image;
  const smooth = gaussianFilter(formRemoved(image, options.formMm), cutoffOf(0.7 * pitch));
  const up = sense === 'intaglio' ? -1 : 1;
  const level =
    0.5 *
    quantile(
      smooth.z.filter((_, i) => mask[i] === 1).map((z) => up * z),
      0.95,
    );
  const raised = Uint8Array.from(smooth.z, (z, i) => (mask[i] && up * z > level ? 1 : 0));
  const whole = raised.reduce((sum, r) => sum + r, 0);
  const inner = distanceTransform(raised, width);
  for (let radius = 1; radius * pitch < options.formMm; radius += 0.5) {
    const beyond = Uint8Array.from(inner, (d) => (d > radius ? 0 : 1));
    const toInner = distanceTransform(beyond, width);
    const left = toInner.reduce((sum, d, i) => sum + (raised[i] && d < radius + 0.5 ? 1 : 0), 0);
    if (left < (1 - options.narrowShare) * whole) return 2 * radius * pitch;
  }
  return options.formMm;
}

/** From the low to the high of the relief, its form removed: 5 to 95 % of it, mm. */
function reliefDepth({ z, mask }: HeightGrid): number {
  const heights = z.filter((_, i) => mask[i] === 1);
  return quantile(heights, 0.95) - quantile(heights, 0.05);
}
