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

/** A motion that the relief may hardly resist: turns and slides about and along the axes of the reference's face, growth. */
export type FreeMotion = 'turnX' | 'turnY' | 'turnZ' | 'slideX' | 'slideY' | 'slideZ' | 'growth';

/** Why a start by hand was not taken. */
export type StartRefusal =
  | {
      readonly code: 'scaleOutOfRange';
      readonly scale: number;
      readonly leastScale: number;
      readonly mostScale: number;
    }
  | { readonly code: 'tooFewPairs' }
  | { readonly code: 'placesTooNear' }
  /** However one face is turned, its marked places stay so far from the other's. */
  | { readonly code: 'placesUnlike'; readonly restMm: number };

/** What makes a fit doubtful, with the numbers that say how much. */
export type Doubt =
  | { readonly code: 'noBetterThanUnrelated' | 'rivalTurn' | 'tooCoarse' | 'notSettled' | 'startDisagrees' }
  /** Overlap below this share of the smaller face. */
  | { readonly code: 'littleOverlap'; readonly leastShare: number }
  | { readonly code: 'sizeOutOfRange'; readonly leastScale: number; readonly mostScale: number }
  | { readonly code: 'hardlyResists'; readonly motions: readonly FreeMotion[] }
  | { readonly code: 'startRefused'; readonly why: StartRefusal }
  /** Standard deviations above chance, of the turn that the search prefers and of this one. */
  | { readonly code: 'searchPrefersAnother'; readonly searchSigma: number; readonly fitSigma: number }
  | { readonly code: 'leftMarkedPlaces'; readonly apartMm: number }
  /** Regions left out by hand leave less than this share of the reference's face. */
  | { readonly code: 'tooLittleLeft'; readonly leastShare: number };
export type DoubtCode = Doubt['code'];

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
  /** Reference scan ← subject scan as the search leaves that turn (centred, mm); no surface was fitted there. */
  readonly referenceFromSubject?: Similarity;
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
  readonly refused?: StartRefusal;
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
  /** Motions that the relief hardly resists (turn of rings, slide of a plane). */
  readonly degenerate: readonly FreeMotion[];
  readonly rivalTurns: readonly RivalTurn[];
  /** The same fit in the order it was made in, where that is not the caller's: see `reverseFit`. */
  readonly asFitted?: Fit;
  /** Given where the fit began at a place that was put by hand, not where the search put it. */
  readonly start?: StartTaken;
}
