import type { OnlyCopy } from '../compare/index.ts';
import type {
  EdgeInCommon,
  LossesInCommon,
  Mark,
  SecondStrike,
  StateReading,
  Wear,
  WearAndDamage,
} from '../condition/index.ts';
import type { ImageShape } from '../face/index.ts';
import type { Doubt } from '../fit/index.ts';
import type { AskedCode } from './asked.ts';
import type { Landmark } from './landmarks.ts';
import type { ClaimCode } from './question.ts';

/** Size of what the matrix printed: the size of the seal, mm. */
export interface ImageSize {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly shape: ImageShape;
  readonly edge: 'matrixEdge' | 'border';
  /** From the object itself, or from its partner's image, scaled by the fit: then an estimate. */
  readonly from: 'itself' | 'partner';
}

export type HypothesisId = 'sameMatrix' | 'copy' | 'otherMatrix' | 'unrelated';
export type Finding = 'supported' | 'against' | 'otherDesign' | 'undecided';
export type Strength = 'none' | 'weak' | 'moderate' | 'strong';

/** One piece of evidence: what it favours over what, by how much, and the numbers it rests on. */
export type Evidence = EvidenceCode & {
  readonly favours: HypothesisId | 'neither';
  readonly over: HypothesisId | 'neither';
  readonly value: number;
  /** One standard deviation of the value, where it is known. */
  readonly sd?: number;
};

/** What a piece of evidence is a number of. */
export type EvidenceCode =
  /** Standard deviations above chance; `chanceSigma`: what the same search reaches where the faces cannot agree. */
  | { readonly code: 'wholeFace'; readonly chanceSigma: number }
  /** log10 of the places' likelihood over a rival's. */
  | { readonly code: 'overHandCopy' | 'overStockMotif' }
  /** mm. */
  | { readonly code: 'scatter' }
  | { readonly code: 'nowhereNear' }
  | { readonly code: 'congruentCells'; readonly compared: number; readonly sideMm: number }
  | { readonly code: 'size' | 'sharpness' }
  | { readonly code: 'accidentsShared'; readonly found: number };

export type GateCode =
  | 'scoreFor'
  | 'leastWithoutASector'
  | 'places'
  | 'outliers'
  | 'overLegendAnew'
  | 'overlap'
  | 'rivalTurns'
  | 'mirroredFile'
  | 'scoreAgainst'
  | 'mostWithoutASector'
  | 'motifOff'
  | 'legendAnew'
  | 'wholePlaces'
  | 'struckTwice'
  | 'nothingCorresponds'
  | 'nothingByHeight'
  | 'clear'
  | 'reachedAnywhere'
  | 'oneDesign'
  | 'oneWhole'
  | 'facesTried'
  | 'reliefEverywhere'
  | 'carriedShare'
  | 'onlyNoise'
  | 'oneWay'
  | 'growth'
  | 'areaShare'
  | 'pieceLength';

/** One threshold, with the number held against it. The finding is a function of these and of nothing else: gates.ts. */
export interface Gate {
  readonly group: 'support' | 'against' | 'otherDesign';
  readonly code: GateCode;
  readonly value: number;
  readonly bound: 'atLeast' | 'atMost';
  readonly limit: number;
  readonly passed: boolean;
}

/** How a hypothesis stands after the finding. */
export type Verdict =
  | {
      readonly code:
        | 'supported'
        | 'notSupported'
        | 'notDecided'
        | 'notWeighed'
        | 'designsAgree'
        | 'designsNotSeenToAgree';
    }
  /** Of a copy: what size and sharpness say, and which of the two is the blunter. */
  | { readonly code: 'bySize'; readonly size: SizeSays; readonly blunter: 'reference' | 'subject' | null };

export interface Hypothesis {
  readonly id: HypothesisId;
  readonly over: HypothesisId;
  readonly verdict: Verdict;
  /** log10 of the likelihood ratio; null unless the user's own pairs calibrated it. */
  readonly log10Lr: number | null;
}

export interface CongruentCells {
  readonly compared: number;
  readonly congruent: number;
  readonly cells: readonly Cell[];
  /** The pair's own least correlation of a congruent cell, and the side of a cell, mm. */
  readonly leastCorrelation?: number;
  readonly sideMm?: number;
}

/** One cell of the reference face and where its detail lies on the subject. */
export interface Cell {
  /** Centre in the reference's face frame, mm. */
  readonly x: number;
  readonly y: number;
  /** In-plane shift of the subject's detail after the fit, mm, and turn, degrees. */
  readonly dx: number;
  readonly dy: number;
  readonly turnDeg: number;
  /** Length of the shift against the median over all cells, as far as the cell's relief can tell, mm. */
  readonly offsetMm: number;
  readonly correlation: number;
  readonly congruent: boolean;
}

/** A landmark of the reference and where the subject has it, after the smooth fit. */
export interface PlacedLandmark extends Landmark {
  /** Shift of the subject's against the reference's, mm. */
  readonly dx: number;
  readonly dy: number;
  /** What all others leave unexplained of it, mm: after the flow that they follow. */
  readonly aloneSmooth: readonly [dx: number, dy: number];
  /** Half axes, mm, and direction, degrees counter-clockwise from x, of the 95 % error ellipse of its place. */
  readonly ellipse: { readonly majorMm: number; readonly minorMm: number; readonly deg: number };
  readonly correlation: number;
}

/** Places of letters and ornaments compared, as they are shown: how far each lies from where the others put it. */
export interface Constellation {
  readonly landmarks: readonly PlacedLandmark[];
  readonly found: number;
  /** Those of the reference that the subject does not show, though its relief there is that of a design. */
  readonly unseen: readonly Landmark[];
  /** Median distance left over, mm, leave-one-out. */
  readonly smoothMm: number;
  /** Share of landmarks whose remainder lies outside its own 95 % error ellipse, widened by what wax flows locally. */
  readonly outside: number;
}

/** What size says of a copy, between a negative and a positive or (`oneSense`) two of one sense. Ratio subject ÷ reference. */
export interface SizeSays {
  readonly favours: 'direct' | 'copy' | 'neither';
  readonly copyIs: 'reference' | 'subject' | 'either';
  readonly oneSense: boolean;
  readonly ratio: number;
  readonly sd: number;
}

/**
 * What size says against the plain reading of a finding of one matrix: it speaks for a copy, or the positive is larger
 * than its negative by more than any material grows.
 */
export type SizeCaution =
  | ({ readonly kind: 'copy' } & SizeSays)
  | { readonly kind: 'grown'; readonly grownPercent: number; readonly sdPercent: number };

/**
 * How the two stand in descent: the one a copy that goes back to the other (which then stands nearer the original), or of one
 * descent without a direction. What it was read from is in `descentBy`.
 */
export type DescentCode = 'subjectFromReference' | 'referenceFromSubject' | 'oneDescent' | 'cannotJudge';

export interface DescentBy {
  /** Size speaks for a copy, with both scales stated. */
  readonly size: boolean;
  /** Where a loss or an edge says one descent, what lets only one of the two be the copy; null where nothing does. */
  readonly step: OnlyCopy | null;
  /** Pieces that two positives lack alike; null where they are no two positives or share none. */
  readonly losses: LossesInCommon | null;
  /** Broken edge along which two positives run alike; null likewise. */
  readonly edge: EdgeInCommon | null;
}

/** What the sentence of the finding counts. */
export type Counted =
  | { readonly code: 'noFit' | 'fewPlaces' }
  | { readonly code: 'cells'; readonly compared: number; readonly congruent: number }
  | {
      readonly code: 'places';
      readonly seen: number;
      /** Half of the places lie within this of where the others put them. */
      readonly halfWithinMm: number;
      readonly outsideEllipse: number;
      readonly unseen: number;
      readonly compared: number;
      readonly congruent: number;
    };

/** The thresholds of support, each of which may be why it was not given. */
export const supportCodes = [
  'scoreFor',
  'leastWithoutASector',
  'places',
  'outliers',
  'overLegendAnew',
  'overlap',
  'rivalTurns',
  'mirroredFile',
] as const satisfies readonly GateCode[];

/** What stood in a finding's way or bounds what may be read from it, with its numbers. */
export type Limit =
  | { readonly code: 'leftOutByHand'; readonly why: string; readonly by: string; readonly areaMm2: number }
  | { readonly code: 'landmarksByHand'; readonly landmarks: number }
  /** At marked pairs, or at a turn against the one that the search prefers. */
  | { readonly code: 'startByHand'; readonly pairs?: number; readonly turnDeg?: number }
  | ({ readonly code: 'struckTwice' } & SecondStrike)
  | { readonly code: 'twoMatrices' | 'statedAgainstFit' | 'noFit' | 'copyPasses' | 'notShown' | 'absentMark' }
  | ({ readonly code: 'size' } & SizeCaution)
  | { readonly code: 'smallerThanSeals'; readonly sizeMm: number; readonly leastMm: number }
  | { readonly code: 'coarse'; readonly pointsAcross: number; readonly finePoints: number }
  /** The user's own known pairs; null where there are none. */
  | { readonly code: 'calibration'; readonly known: { name: string; same: number; different: number } | null }
  | { readonly code: (typeof supportCodes)[number]; readonly value: number; readonly limit: number }
  | Doubt;
export type LimitCode = Limit['code'];

export interface Judgement {
  /** Areal correlation of the detail over the overlap. */
  readonly correlation: number;
  /** Topography difference D_s = Σ(b − a)² / Σa². */
  readonly topographyDifference: number;
  readonly cells: CongruentCells;
  /** The score the finding rests on; above 0 for one matrix. A score, no likelihood ratio. */
  readonly score: number;
  /** Least and greatest score with each sector of the face left out; null without a fit. */
  readonly interval: readonly [least: number, most: number] | null;
  readonly question: AskedCode;
  /** The fit contradicts both stated kinds: a file wound the wrong way or a kind misstated; which, is not known. */
  /** How sure it is which of the two is what: below `leastNamed` nobody is called matrix or impression. */
  readonly rolesConfidence: number;
  /** Sizes of the images of reference and subject, where they can be told from the cake's. */
  readonly images: readonly [reference: ImageSize | null, subject: ImageSize | null];
  readonly statedAgainstFit: boolean;
  /** Places of letters and ornaments; null where no fit was found. */
  readonly constellation: Constellation | null;
  /** A slip or second strike that the subject shows; null where none is seen. */
  readonly secondStrike: SecondStrike | null;
  readonly evidence: readonly Evidence[];
  /** The finding's thresholds with the numbers held against them; empty where no fit was found. */
  readonly gates: readonly Gate[];
  readonly hypotheses: readonly Hypothesis[];
  readonly state: StateReading;
  readonly finding: Finding;
  readonly strength: Strength;
  /** What the sentence of the finding says: the claim, what it rests on, and what size says against it. */
  readonly claim: ClaimCode;
  readonly counted: Counted;
  readonly caution: SizeCaution | null;
  /** Null where the finding is not `supported`. */
  readonly descent: DescentCode | null;
  readonly descentBy: DescentBy;
  readonly limits: readonly Limit[];
  readonly wear: Wear;
  readonly damage: readonly Mark[];
  /** What joining several subjects needs of this pair; null where it has no part in it: no fit, or two matrices. */
  readonly surfaces?: Pick<WearAndDamage, 'marks' | 'telling' | 'wearMap'> | null;
  /** Version of the score mapping that was used and where it comes from. */
  readonly calibration: string;
}
