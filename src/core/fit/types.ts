import type { Similarity } from '../geometry/index.ts';

export type ModelName = 'rigid' | 'oneScale' | 'smoothWarp';

/**
 * A smooth displacement of twelve parameters in the reference's face frame, after the similarity:
 * q = before · p, p ↦ q + Σ cₖ bₖ(q_x/R, q_y/R); see fit/warp.ts for the polynomial basis.
 */
export interface Warp {
  /**
   * The small part of the motion that the model's least-squares similarity leaves out, so that the displacement as a
   * whole has no turn, shift or size of its own over the face.
   */
  readonly before: Similarity;
  /** Radius that normalises x and y, mm. */
  readonly radiusMm: number;
  /** Coefficients, mm, in the order of the basis. */
  readonly coefficients: Float64Array;
}

export interface FitModel {
  readonly model: ModelName;
  /** Reference scan (centred, mm) ← subject scan (centred, mm). */
  readonly referenceFromSubject: Similarity;
  readonly warp?: Warp;
  /** Takes the subject to the reference: above 1 for wax that shrank. */
  readonly scale: number;
  readonly scaleSd: number;
  /** Root mean square of point-to-plane residuals over the trimmed overlap, mm. */
  readonly rmsMm: number;
  /** Same over held-out blocks of the face. */
  readonly heldOutRmsMm: number;
  /** Root mean square size of the warp over the overlap, mm. */
  readonly warpRmsMm?: number;
}

/** Another turn of the subject that fits nearly as well. */
export interface RivalTurn {
  /** Clockwise on the reference's face as seen, degrees, against the chosen fit. */
  readonly turnDeg: number;
  /** Correlation of the detail there. */
  readonly score: number;
}

export interface Fit {
  readonly found: boolean;
  /** Why the fit is not to be relied on; empty when it is. */
  readonly doubts: readonly string[];
  readonly chosen: ModelName;
  readonly turnedOver: boolean;
  /** The subject file is a mirror image: a reflection fits and no rotation does. */
  readonly mirrored: boolean;
  /** Share of the smaller face that lies on the other. */
  readonly overlap: number;
  /** Masked correlation of the detail at the chosen fit, and of the best rival. */
  readonly score: number;
  readonly rivalScore: number;
  /** atanh(score) · √(independent cells): standard deviations above chance; the best of all turns and sizes tried. */
  readonly significance: number;
  /** All three, in the order rigid, oneScale, smoothWarp. */
  readonly models: readonly FitModel[];
  readonly rotationSdDeg: number;
  readonly translationSdMm: number;
  /** 7 × 7 covariance of (rotation vector, translation, log scale) about the face's centre, row-major, rad and mm. */
  readonly covariance: Float64Array;
  /** Motions that the relief hardly resists (turn of rings, slide of a plane), in words. */
  readonly degenerate: readonly string[];
  readonly rivalTurns: readonly RivalTurn[];
}
