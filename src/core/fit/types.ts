import type { Similarity, Vec2 } from '../geometry/index.ts';
import type { Chance } from './chance.ts';

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

/** What makes a fit doubtful. Decisions read the code, people the words. */
export type DoubtCode =
  | 'noBetterThanUnrelated'
  | 'rivalTurn'
  | 'littleOverlap'
  | 'tooCoarse'
  | 'notSettled'
  | 'sizeOutOfRange'
  | 'hardlyResists'
  | 'startRefused'
  | 'startDisagrees'
  | 'searchPrefersAnother'
  | 'leftMarkedPlaces'
  | 'tooLittleLeft';

export interface Doubt {
  readonly code: DoubtCode;
  readonly words: string;
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

/** The same place marked on both faces, each in its own face frame, mm. */
export interface PointPair {
  readonly reference: Vec2;
  readonly subject: Vec2;
}

/** Where a person wants the fit to begin. */
export type FitStart =
  | {
      readonly from: 'turn';
      /** Clockwise on the reference's face as seen, degrees, against the turn that the search prefers. */
      readonly turnDeg: number;
      /** Takes the subject to the reference; the search's own where it is not given. */
      readonly scale?: number;
    }
  | { readonly from: 'pairs'; readonly pairs: readonly PointPair[] };

/** That a fit began where a person put it, and what came of it. */
export interface StartTaken {
  readonly by: 'hand';
  readonly start: FitStart;
  /** Why the start was not taken; the fit is then the search's own and counts as not found. */
  readonly refused?: string;
  /** Pairs: root mean square distance, mm of the reference, that the best similarity of the plane leaves. */
  readonly pairsRestMm?: number;
  /** The same under the fit that came of it. */
  readonly pairsApartMm?: number;
  /** Turn of the fit against the one that the search prefers by itself, clockwise on the reference's face, degrees. */
  readonly fromSearchDeg?: number;
  /** Significance of the turn that the search prefers by itself. */
  readonly searchSignificance: number;
}

export interface Fit {
  readonly found: boolean;
  /** Why the fit is not to be relied on; empty when it is. */
  readonly doubts: readonly Doubt[];
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
  /** What these two faces reach where they cannot agree, and how likely chance is to reach `significance`. */
  readonly chance: Chance;
  /** All three, in the order rigid, oneScale, smoothWarp. */
  readonly models: readonly FitModel[];
  readonly rotationSdDeg: number;
  readonly translationSdMm: number;
  /** 7 × 7 covariance of (rotation vector, translation, log scale) about the face's centre, row-major, rad and mm. */
  readonly covariance: Float64Array;
  /** Motions that the relief hardly resists (turn of rings, slide of a plane), in words. */
  readonly degenerate: readonly string[];
  readonly rivalTurns: readonly RivalTurn[];
  /** Given where the fit began at a place that was put by hand, not where the search put it. */
  readonly start?: StartTaken;
}
