import type { ZoneName } from '../design/index.ts';
import type { HeightGrid } from '../geometry/index.ts';
import type { LevelInput } from './levelOfDetection.ts';
import type { ChainEnd, Material, Range } from './materials.ts';

export interface DifferenceStatistics {
  readonly medianMm: number;
  /** Median absolute deviation, mm (not scaled). */
  readonly madMm: number;
  readonly rmsMm: number;
  /** 95th percentile of the absolute difference, mm. */
  readonly p95Mm: number;
  /** Share of the zone's reference area for which there is a difference. */
  readonly coveredFraction: number;
}

/** Signed depth differences of a fitted pair, of each vertex and, in all else, of the reference's image (`imageHull`); sign as in docs/compare.md. */
export interface Difference {
  /** One per subject vertex, in the file's order, mm, after the one-scale similarity; NaN without a counterpart. */
  readonly perVertexMm: Float32Array;
  /** The same after the smooth warp, where one was chosen. */
  readonly perVertexWarpedMm?: Float32Array;
  /** The chosen model's differences on the reference's face plane, impression's sense. */
  readonly map: HeightGrid;
  /** Level of detection at 95 % on the same cells, mm. */
  readonly levelOfDetection: HeightGrid;
  /** 1 for the map's cells that stand against chance over the whole image (false discovery rate 5 %). */
  readonly significant?: Uint8Array;
  /** Median level of detection, mm. */
  readonly levelOfDetectionMm: number;
  /** What the level was worked out from: reference first, then subject. */
  readonly level?: LevelParts;
  readonly whole: DifferenceStatistics;
  readonly zones: ReadonlyArray<DifferenceStatistics & { readonly zone: ZoneName }>;
  readonly size: SizeTest;
}

/** Noise of each scan, mm, effective neighbours that a place averages, what the map shows of both, and what is added for light inside wax, mm. */
export type LevelParts = Omit<LevelInput, 'covariance'>;

/** One thing that the size ratio says against the chain of materials. */
export type SizeReading =
  /** `same`: the ratio is 1 within one standard deviation. */
  | { readonly code: 'ratio'; readonly ratio: number; readonly sd: number; readonly same: boolean }
  /** Whose scale uncertainty nobody stated, and what it was taken as. */
  | {
      readonly code: 'scaleAssumed';
      readonly whose: ReadonlyArray<'reference' | 'subject'>;
      readonly percent: number;
    }
  | { readonly code: 'ratioUncertain' }
  /** Which of the two is the negative is not sure, and the chain of materials begins there. */
  | { readonly code: 'rolesUnsure' }
  /** Without a copy between, subject ÷ reference would lie in `range`. */
  | {
      readonly code: 'oneMatrix';
      readonly reference: ChainEnd;
      readonly subject: ChainEnd;
      readonly range: Range;
      readonly agrees: boolean;
    }
  /** The negative recast from the positive, directly or by way of a wax model. */
  | { readonly code: 'recast'; readonly direct: Range; readonly throughWax: Range; readonly agrees: boolean }
  /** The negative moulded from the matrix. */
  | { readonly code: 'copyOfMatrix'; readonly range: Range; readonly passes: boolean }
  | { readonly code: 'uneven'; readonly x: number; readonly y: number; readonly sd: number }
  | { readonly code: 'depthUnknown' | 'depthAsSize' }
  /** The relief as a whole lacks so much of its height that its depth says nothing of size. */
  | { readonly code: 'depthWorn'; readonly lacksPercent: number }
  | { readonly code: 'shallower' | 'deeper'; readonly percent: number };

/** Of two positives of one descent the only one that can be the copy, and why the other cannot. */
export interface OnlyCopy {
  readonly copyIs: 'reference' | 'subject';
  /** How much larger the other is than it, percent, and the standard error. */
  readonly largerPercent: number;
  readonly sdPercent: number;
  /** How much larger than its original the other could be, were it the copy, percent; negative where its material shrinks. */
  readonly mostPercent: number;
  /** What the other is stated to be made of, an impression wax; null where nothing was said, and it is taken for plaster. */
  readonly material: Material | null;
}

/** Signed size ratio, subject ÷ reference: below 1 for wax that shrank. */
export interface SizeTest {
  readonly ratio: number;
  readonly sd: number;
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  /** Standard errors of x, y and depth, without the scans' own scale uncertainty, which all three share. */
  readonly sdX?: number;
  readonly sdY?: number;
  readonly sdDepth?: number;
  /** What the ratio speaks for: a descent without a copy between, or a copy; and which of the two the copy would be. */
  readonly favours: 'direct' | 'copy' | 'neither';
  readonly copyIs: 'reference' | 'subject' | 'either';
  /** Null or absent where either may be the copy. */
  readonly onlyCopy?: OnlyCopy;
  readonly reading: readonly SizeReading[];
}

/** Two profiles along one line on the face plane. */
export interface Section {
  /** Ends in the reference's face frame, mm: x0, y0, x1, y1. */
  readonly line: readonly [number, number, number, number];
  /** Distance along the line, mm. */
  readonly at: Float64Array;
  /** Heights, mm, NaN where there is no surface. */
  readonly reference: Float64Array;
  readonly subject: Float64Array;
  readonly groove?: Groove;
}

/** A groove or ridge measured in a section. */
export interface Groove {
  readonly depthMm: number;
  /** Full width at half depth, mm. */
  readonly widthMm: number;
  /** Angles of the two flanks above the line of the shoulders, degrees. */
  readonly flankDeg: readonly [number, number];
  /** The surface that was measured, and whether the shape is sunk or raised in its own outward sense. */
  readonly on?: 'reference' | 'subject';
  readonly sunk?: boolean;
  /** Where its deepest place lies along the line, mm. */
  readonly atMm?: number;
}
