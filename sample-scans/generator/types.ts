import type { Similarity } from '../../src/core/geometry/index.ts';

export const relations = [
  'same',
  'handCopy',
  'stockMotif',
  'unrelated',
  'castOfImpression',
  'recastMatrix',
  'sisterImpressions',
  'laterState',
  'earlierState',
] as const;
/** How the subject descends from the reference; docs/samples.md says what each is made of. */
export type Relation = (typeof relations)[number];

export const shapes = ['round', 'oval', 'pointedOval', 'shield', 'square'] as const;
export type DieShape = (typeof shapes)[number];

export type Sense = 'intaglio' | 'relief';
export type ScanUnit = 'mm' | 'cm' | 'm' | 'inch';
export const mmPerUnit: Readonly<Record<ScanUnit, number>> = { mm: 1, cm: 10, m: 1000, inch: 25.4 };

/** What a vertex is; several may be set. On the engraved side `face` is always set. */
export const bit = {
  face: 1,
  lip: 2,
  wall: 4,
  back: 8,
  worn: 16,
  notFilled: 32,
  pit: 64,
  chip: 128,
  damage: 256,
  spike: 512,
  debris: 1024,
  bump: 2048,
} as const;

/** Everything a pair is made from. `randomRecipe` fills what is not given. */
export interface Recipe {
  readonly seed: number;
  readonly relation: Relation;
  readonly shape: DieShape;
  /** Longest side of the die, mm. */
  readonly sizeMm: number;
  readonly motif: string;
  /** Fold of the design's turning symmetry, for the rosette. */
  readonly symmetryFold?: number;
  /** Damage that the die had before either was made; left to chance where not given. Not for pairs of two states. */
  readonly oldDamage?: readonly ('cut' | 'crack' | 'recut' | 'corrosion')[];
  /** What the die suffered between two states; left to chance where not given. For pairs of two states. */
  readonly stateDamage?: readonly ('cut' | 'crack' | 'recut' | 'corrosion')[];
  /** Shift of a second, weaker strike beside the first, mm; left to chance where not given. */
  readonly secondStrikeMm?: number;
  /** Share of the subject's face that survives, 0.2 to 1. */
  readonly coverage: number;
  /** 0 = as struck, 1 = rubbed until the letters are going. */
  readonly wear: number;
  /** Linear shrinkage of the subject against the die: size ratio 1 − shrink. Negative for growth. */
  readonly shrink: number;
  /** Largest displacement by bending and flow, mm. */
  readonly warpMm: number;
  /** Correlated scanner noise, 1 σ, mm; white noise is 0.3 to 1 of it. */
  readonly noiseMm: number;
  /** Standard deviation of a copyist's shifts, mm. */
  readonly jitterMm: number;
  /** Scan with back, wall and handle or wax cake; else the engraved side alone. */
  readonly whole: boolean;
  /** Overrides `whole` for one of the two. */
  readonly wholeReference?: boolean;
  readonly wholeSubject?: boolean;
  /** About how many vertices each scan has. */
  readonly vertices: number;
  readonly referenceUnit: ScanUnit;
  readonly subjectUnit: ScanUnit;
  /** Width of wax around the impression that an open sheet includes, mm. */
  readonly lipMm: number;
  /** 0 = clean, 1 = many chips, pits, scratches and scanning faults. */
  readonly clutter: number;
  readonly reversedWinding: boolean;
  /** The subject's file is a mirror image. */
  readonly mirrored: boolean;
  /** Largest coordinate offset of the pose, mm. */
  readonly offsetMm: number;
}

export interface GeneratedScan {
  /** xyz triples in the scan's unit. */
  readonly positions: Float64Array;
  readonly triangles: Uint32Array;
  /** One per vertex, see `bit`. */
  readonly bits: Uint16Array;
  readonly unit: ScanUnit;
  readonly sense: Sense;
  readonly kind: 'matrix' | 'mould' | 'impression' | 'cast';
  /** Subject only: signed closest distance to the reference without noise, mm; NaN off the face. */
  readonly trueDifference?: Float32Array;
  /** Scan coordinates in mm → face frame (x right, y up the design, z out of the face). */
  readonly faceFromScan: Similarity;
}

export interface TrueLetter {
  readonly char: string;
  /** Clockwise from the top in the impression's sense. */
  readonly angleDeg: number;
  /** Centre in the reference's face frame, mm. */
  readonly x: number;
  readonly y: number;
  readonly heightMm: number;
}

export interface TrueDamage {
  readonly kind: 'cut' | 'crack' | 'recut' | 'corrosion' | 'chip' | 'pit' | 'scratch' | 'bubble';
  readonly carriedBy: 'reference' | 'subject' | 'both';
  /** x, y pairs in the reference's face frame, mm. */
  readonly polyline: Float64Array;
  readonly depthMm: number;
  readonly widthMm: number;
  readonly lengthMm: number;
  readonly inSubject: boolean;
  /** Stands up on the object that carries it, in the positive's sense. */
  readonly raised: boolean;
}

export interface PairTruth {
  /** Both descend from the very die: neither is, or comes from, a copy of it or another die. */
  readonly sameMatrix: boolean;
  readonly relation: Relation;
  /** Least-squares similarity between corresponding sound face points, file coordinates in mm; null for other dies. */
  readonly referenceFromSubject: Similarity | null;
  readonly scale: number | null;
  /** Size of the subject over the reference's, as made. */
  readonly sizeRatio: number;
  readonly turnedOver: boolean;
  readonly mirrored: boolean;
  readonly referenceLegend: string;
  readonly subjectLegend: string;
  readonly letters: readonly TrueLetter[];
  readonly shape: DieShape;
  /** x, y pairs in the reference's face frame, mm, closed implicitly. */
  readonly outline: Float64Array;
  /** Distance inward from the outline of the legend band's outer and inner edge, mm. */
  readonly bandInnerOuterMm: readonly [number, number];
  readonly damage: readonly TrueDamage[];
  /**
   * Greatest height that rubbing took, mm, and its share of the face; the share of the reference's raised volume that the
   * subject still has where its surface survives (null for other dies).
   */
  readonly wear: {
    readonly amount: number;
    readonly deepestMm: number;
    readonly wornFraction: number;
    readonly heightKept: number | null;
  };
  readonly whiteNoiseMm: number;
}

export interface GeneratedPair {
  readonly recipe: Recipe;
  readonly reference: GeneratedScan;
  readonly subject: GeneratedScan;
  readonly truth: PairTruth;
}
