import type { ZoneName } from '../design/index.ts';
import type { Sense } from '../face/index.ts';
import type { LineSection } from './marks/lines/lineTypes.ts';

export type WearState =
  | 'sharp'
  /** The subject lacks height there; rubbed, pressed flat or not filled, which cannot be told. */
  | 'lower'
  | 'clogged'
  | 'lost'
  | 'added'
  | 'blurred'
  | 'cannotJudge';

export interface WearZone {
  readonly zone: ZoneName;
  readonly state: WearState;
  /** Height kept against the reference as it is today; may exceed 1. */
  readonly heightKept: number;
  readonly heightKeptSd: number;
  /** Share of the zone in this state. */
  readonly fraction: number;
}

/** State of the subject by zone, by wavelength, and where to draw it. */
export interface Wear {
  readonly zones: readonly WearZone[];
  readonly byWavelength: readonly WavelengthBand[];
  readonly zoneOutlines: readonly ZoneOutline[];
  readonly areas: readonly WearArea[];
  /** Share of the reference's face that the subject's surface does not reach, from the edge in: a piece lost. NaN without a fit. */
  readonly gone: number;
}

/** Where a zone lies: closed ways round it and round the holes in it (even-odd), x, y pairs in the reference's face frame, mm. */
export interface ZoneOutline {
  readonly zone: ZoneName;
  readonly outlines: readonly Float64Array[];
}

/** Where in a zone the subject is in a state other than sharp. */
export interface WearArea extends ZoneOutline {
  readonly state: WearState;
  readonly areaMm2: number;
}

/** Gain and coherence of the subject's relief against the reference's in one octave of wavelength. */
export interface WavelengthBand {
  readonly fromMm: number;
  readonly toMm: number;
  readonly gain: number;
  readonly coherence: number;
  /** Size of the subject's relief over the reference's in this octave, whether they agree or not, noise taken off. */
  readonly amplitude?: number;
  /** Share of the reference's power here that is relief and not noise. */
  readonly signal?: number;
}

export interface Mark {
  readonly id: string;
  readonly carriedBy: 'reference' | 'subject' | 'both';
  /** Clockwise from 12 o'clock in the impression's sense. */
  readonly at: { readonly deg: number; readonly hour: number; readonly radiusMm: number };
  readonly areaMm2: number;
  readonly depthMm: number;
  readonly volumeMm3: number;
  /** `line`: a cut, crack or scratch, which of them cannot be told. */
  readonly shape: 'cut' | 'crack' | 'scratch' | 'line' | 'pit' | 'chip' | 'bubble' | 'smear' | 'recut' | 'region';
  readonly onSubject: 'raised' | 'sunk' | 'absent';
  readonly readings: readonly MarkReading[];
  /** Of a line: its section and what that says of how it came about. */
  readonly section?: LineSection;
  /** Outline in the reference's face frame, x, y pairs, mm. */
  readonly outline: Float64Array;
}

/** A cause that a mark can have. */
export type MarkCause =
  | 'matrixHadItBefore'
  | 'accidentOfOneImpression'
  | 'lossOfOneImpression'
  | 'stoodOnMatrixOfBoth'
  | 'madeAfterIt'
  | 'castOfOneThatHadIt'
  | 'referenceLaterOrNotTaken'
  | 'orderUnknown'
  | 'anotherMatrixOrCopyBefore'
  | 'standsInReference'
  | 'subjectRaised'
  | 'matrixDamagedOrAddedToReference'
  | 'sharedSpeaksForMatrix'
  | 'referenceDamaged'
  | 'stoodOnMatrix'
  | 'subjectDamagedOrCopied'
  | 'standsInSubject'
  | 'subjectDamaged'
  | 'stoodOnMatrixOfSubject'
  | 'addedToSubject'
  | 'matrixHadIt'
  | 'matrixDamagedBetween';

/** One reading of a mark: a cause, and what of the mark and the two objects is named with it. */
export interface MarkReading {
  readonly code: MarkCause;
  readonly shape: Mark['shape'];
  readonly referenceSense: Sense;
  readonly subjectSense: Sense;
  /** Whether the other face is filled, unworn and scanned there. */
  readonly otherIsSound: boolean;
  /** The likeliest of the mark's readings, not an alternative to it. */
  readonly first: boolean;
}

/** Pieces that two positives lack alike, and how many outlines would agree as well by chance (`losses/sharedLosses.ts`). */
export interface LossesInCommon {
  readonly count: number;
  /** Of them, those at the edge of the image: no dirt on a matrix breaks an edge. */
  readonly atEdge: number;
  readonly areaMm2: number;
  readonly byChance: number;
  /** Of those at the edge, whether their floors are one broken surface; judgements of an earlier program have none. */
  readonly floors?: FloorsInCommon | null;
}

/** Floors of losses that two positives share, beyond what is smooth (`losses/floorsAlike.ts`). */
export interface FloorsInCommon {
  /** How surely they are one, standard deviations. */
  readonly sigma: number;
  /** Correlation of what smooth forms leave of them, and its root mean square, mm. */
  readonly alike: number;
  readonly roughMm: number;
}

/** Broken edge along which two positives run alike (`losses/sharedEdge.ts`). */
export interface EdgeInCommon {
  readonly lengthMm: number;
  /** What a smooth curve leaves of it, and what lies between the two, root mean square, mm. */
  readonly roughMm: number;
  readonly apartMm: number;
  /** How surely what the curve leaves is the same on both, standard deviations. */
  readonly sigma: number;
  /** Where both run: ways in the reference's face frame, x, y pairs, mm. */
  readonly stretches: ReadonlyArray<readonly number[]>;
}

/** Which of the two shows the later state of the matrix, or whether they show the same. */
export type StateName = 'sameState' | 'subjectEarlier' | 'subjectLater' | 'cannotJudge';

/** A mark on one object: shown, not shown although it could be, or not to be judged. */
export type Seen = 'present' | 'absent' | 'cannotJudge';

/** Why a reading of state is what it is. */
export type StateReason =
  | {
      readonly code:
        | 'bothWays'
        | 'referenceHas'
        | 'subjectHas'
        | 'hidden'
        | 'noneSeen'
        | 'shared'
        | 'twoMatrices'
        | 'undecided'
        | 'noFit';
    }
  /** Share of the face that could have shown a change, 0 to 1. */
  | { readonly code: 'tooLittleSound'; readonly soundFraction: number };

/** The reading, the marks it rests on, and its ground. */
export interface StateReading {
  readonly reading: StateName;
  readonly marks: readonly string[];
  readonly reason: StateReason;
}
