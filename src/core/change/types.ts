import type { Face } from '../face/index.ts';
import type { Fit } from '../fit/index.ts';
import type { HeightGrid, Mesh, Similarity } from '../geometry/index.ts';

/** The scan's surface in millimetres and the face found on it. */
export interface ChangeSide {
  readonly mesh: Mesh;
  readonly face: Face;
}

/** One date of an object, and what is stated of its scan. */
export interface ChangeInput extends ChangeSide {
  readonly scaleUncertaintyPercent: number;
  readonly scaleUncertaintyFrom: 'stated' | 'assumed';
  readonly material?: string;
  readonly kind: string;
}

/** A second scan of one date, fitted to the first. */
export interface Repeat {
  readonly scan: ChangeSide;
  readonly fit: Fit;
}

/** What can have made a change. Nothing of the surface says which. */
export type ChangeCause =
  | 'rubbed'
  | 'chipped'
  | 'pressed'
  | 'dirtTaken'
  | 'bloomTaken'
  | 'fillTaken'
  | 'crack'
  | 'scratch'
  | 'bloom'
  | 'dust'
  | 'dirt'
  | 'consolidant'
  | 'restored'
  | 'pushedUp'
  | 'fibre'
  | 'crackClosed'
  | 'brokenOff'
  | 'notScanned'
  | 'instrument';

/** One place that changed beyond its own noise. */
export interface Change {
  readonly id: string;
  /** `absent`: the later scan has no surface there. */
  readonly direction: 'lowered' | 'raised' | 'absent';
  readonly shape: 'area' | 'line';
  /** Clockwise from 12 o'clock in the impression's sense. */
  readonly at: { readonly deg: number; readonly hour: number; readonly radiusMm: number };
  readonly areaMm2: number;
  /** Later less earlier: mean over the area, and the farthest (mean over a fifth of a millimetre), mm; NaN where absent. */
  readonly meanMm: number;
  readonly farthestMm: number;
  /** Later less earlier, mm³, and its standard deviation; NaN where absent. */
  readonly volumeMm3: number;
  readonly volumeSdMm3: number;
  /** How many times the least height that counts as a change. */
  readonly timesLeast: number;
  /** Of a line: its way along the middle, and its apparent width at half its depth. */
  readonly lengthMm?: number;
  readonly widthMm?: number;
  /** Of a line: whether it goes on from a groove that the earlier scan shows already. */
  readonly goesOn?: boolean;
  readonly causes: readonly ChangeCause[];
  /** Outline in the earlier's face frame, x, y pairs, mm. */
  readonly outline: Float64Array;
}

export type ChangeLimit =
  | { readonly code: 'noRepeat' | 'oneRepeat' | 'evenChangeUnseen' | 'causesNotTold' | 'translucent' }
  | { readonly code: 'scaleNotStated'; readonly whose: ReadonlyArray<'earlier' | 'later'> }
  /** The sizes differ by more than the scans' scales are known to. */
  | { readonly code: 'sizeBeyondScales'; readonly percent: number; readonly knownPercent: number }
  | { readonly code: 'notCompared'; readonly share: number }
  | { readonly code: 'littleUnchanged'; readonly share: number }
  | { readonly code: 'bent'; readonly rmsMm: number }
  /** One of the two scans is blunter at every edge, as a Gaussian of so many mm would make it. */
  | { readonly code: 'blunter'; readonly which: 'earlier' | 'later'; readonly sigmaMm: number };

export type NotJudged = 'noFit' | 'otherSense' | 'mirrored' | 'littleInCommon';

/** Later ÷ earlier, said only where both scales are stated. */
export interface ChangeOfSize {
  readonly ratio: number;
  readonly sd: number;
  readonly reading: 'same' | 'larger' | 'smaller' | 'notStated';
}

/** What would have been found: the least mean change of height over an area, mm. */
export interface Sensitivity {
  readonly areaMm2: number;
  readonly heightMm: number;
}

/** What happened to one object between two scans. */
export interface ChangeFound {
  readonly judged: true;
  /** Rigid: earlier scan (centred, mm) ← later scan (centred, mm). */
  readonly earlierFromLater: Similarity;
  readonly size: ChangeOfSize;
  /** Standard deviations of the pose about the face's centre. */
  readonly rotationSdDeg: number;
  readonly translationSdMm: number;
  /** Share of the compared cells that the registration rests on. */
  readonly unchangedShare: number;
  /** Share of the earlier's face that was compared. */
  readonly comparedShare: number;
  readonly noise: {
    readonly from: 'pair' | 'oneRepeat' | 'repeats';
    /** Median over the cells, mm. */
    readonly cellMm: number;
    readonly pitchMm: number;
  };
  readonly sensitivity: readonly Sensitivity[];
  readonly bendingRmsMm: number;
  /** Standard deviation of the blur that one scan has over the other, mm, by which of them has it. */
  readonly blunt: { readonly which: 'earlier' | 'later'; readonly sigmaMm: number };
  readonly changes: readonly Change[];
  readonly total: {
    readonly loweredMm3: number;
    readonly loweredSdMm3: number;
    readonly raisedMm3: number;
    readonly raisedSdMm3: number;
    readonly areaMm2: number;
  };
  readonly limits: readonly ChangeLimit[];
  /** Later less earlier, mm, in the earlier's face frame (its own sense), mean over a fifth of a millimetre. */
  readonly map: HeightGrid;
  /** Least height that counts in each cell, mm, on the same cells; beyond it the cell belongs to a change. */
  readonly least: HeightGrid;
  /** 1 on the cells of a change. */
  readonly changed: Uint8Array;
}

export type ChangeResult = ChangeFound | { readonly judged: false; readonly why: NotJudged };
