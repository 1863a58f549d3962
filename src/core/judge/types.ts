import type { Mark, SecondStrike, StateReading, Wear, WearAndDamage } from '../condition/index.ts';
import type { DoubtCode } from '../fit/index.ts';
import type { AskedCode } from './asked.ts';
import type { Landmark } from './landmarks.ts';

export type HypothesisId = 'sameMatrix' | 'copy' | 'otherMatrix' | 'unrelated';
export type Finding = 'supported' | 'against' | 'otherDesign' | 'undecided';
export type Strength = 'none' | 'weak' | 'moderate' | 'strong';

/** One piece of evidence: what it favours over what, by how much, and the numbers it rests on. */
export interface Evidence {
  readonly name: string;
  readonly favours: HypothesisId | 'neither';
  readonly over: HypothesisId | 'neither';
  readonly value: number;
  readonly unit: string;
  readonly words: string;
  /** One standard deviation of the value, where it is known. */
  readonly sd?: number;
}

export type GateCode =
  | 'scoreFor'
  | 'leastWithoutASector'
  | 'places'
  | 'outliers'
  | 'overlap'
  | 'rivalTurns'
  | 'mirroredFile'
  | 'scoreAgainst'
  | 'mostWithoutASector'
  | 'motifOff'
  | 'reliefKept'
  | 'pointsAcross'
  | 'struckTwice'
  | 'nothingCorresponds'
  | 'clear'
  | 'oneWhole'
  | 'reliefEverywhere'
  | 'growth'
  | 'areaShare';

/** One threshold, with the number held against it. The finding is a function of these and of nothing else: gates.ts. */
export interface Gate {
  readonly group: 'support' | 'against' | 'otherDesign';
  readonly code: GateCode;
  readonly value: number;
  readonly bound: 'atLeast' | 'atMost';
  readonly limit: number;
  readonly passed: boolean;
}

export interface Hypothesis {
  readonly id: HypothesisId;
  readonly over: HypothesisId;
  readonly words: string;
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

/** What stood in a finding's way or bounds what may be read from it. Decisions read the code, people the words. */
export type LimitCode =
  | 'leftOutByHand'
  | 'landmarksByHand'
  | 'startByHand'
  | 'struckTwice'
  | 'twoMatrices'
  | 'statedAgainstFit'
  | 'size'
  | 'smallerThanSeals'
  | 'noFit'
  | 'coarse'
  | 'calibration'
  | 'copyPasses'
  | 'notShown'
  | 'absentMark'
  | GateCode
  | DoubtCode;

export interface Limit {
  readonly code: LimitCode;
  readonly words: string;
}

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
  readonly sentence: string;
  readonly limits: readonly Limit[];
  readonly wear: Wear;
  readonly damage: readonly Mark[];
  /** What joining several subjects needs of this pair; null where it has no part in it: no fit, or two matrices. */
  readonly surfaces?: Pick<WearAndDamage, 'marks' | 'telling' | 'wearMap'> | null;
  /** Version of the score mapping that was used and where it comes from. */
  readonly calibration: string;
}
