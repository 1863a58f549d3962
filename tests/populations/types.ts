/** Two scans are a negative and a positive, two positives or two negatives. */
export type Question = 'negativePositive' | 'twoPositives' | 'twoNegatives';

/**
 * How the second object stands to the first: `state`: the matrix was cut between the two; `cast`: the subject was moulded
 * from an impression; `recast`: the subject comes of a matrix that was moulded from an impression; `handCopy`: traced and
 * cut by hand; `sameMotif`: the motif freely cut anew under another legend; `legendRecut`: the same matrix, its legend
 * erased and cut anew.
 */
export type Relation = 'same' | 'state' | 'cast' | 'recast' | 'handCopy' | 'sameMotif' | 'legendRecut' | 'unrelated';

export type Amount = 'none' | 'some' | 'many';
export type Shape = 'round' | 'oval' | 'pointed' | 'shield';
export type BorderKind = 'plain' | 'beaded' | 'cable' | 'none';
/** What the scan shows of the object: its face alone, the face and the table it lies on, or the closed body. */
export type Support = 'trimmed' | 'table' | 'closed';
export type Unit = 'um' | 'mm' | 'cm' | 'm' | 'inch';
export type ObjectKind = 'matrix' | 'mould' | 'impression' | 'cast';

/** What a pair is to be; a field left out is drawn from the seed. */
export interface PairRecipe {
  readonly question: Question;
  readonly relation: Relation;
  /** Root mean square displacement of letters and strokes in a hand copy, µm. */
  readonly displacementUm?: number;
  readonly lip: Amount;
  readonly accidents: Amount;
  /** What the matrix suffered between two states; drawn where left out. */
  readonly wound?: 'cut' | 'matrixCrack' | 'letterRecut';
  /** The share of the image that breaks leave on the subject, 0.2 to 1; holes and unfilled wax take more. */
  readonly imageLeft: number;
  readonly spacingMm: number;
  readonly sizeMm?: number;
  readonly shape?: Shape;
  readonly motif?: string;
  readonly referenceSupport?: Support;
  readonly subjectSupport?: Support;
  readonly unit?: Unit;
  /** Standard deviation of white noise along the view, µm. */
  readonly noiseUm?: number;
  /** The spacing grows until a scan has no more vertices than this; 40,000 if left out. */
  readonly maxVertices?: number;
}

/** What became of the surface at a vertex; `body`: edge, back, handle, table; `recut`: a legend cut anew lies here. */
export const conditions = ['sound', 'worn', 'unfilled', 'lost', 'lip', 'accident', 'recut', 'body'] as const;
export type Condition = (typeof conditions)[number];
export const conditionCode = Object.fromEntries(conditions.map((name, i) => [name, i])) as Record<Condition, number>;

export type MarkKind =
  | 'cut'
  | 'matrixCrack'
  | 'letterRecut'
  | 'clogged'
  | 'break'
  | 'chip'
  | 'waxCrack'
  | 'bubble'
  | 'pit'
  | 'rubbed'
  | 'dirt'
  | 'smear';

export type OnFace = 'raised' | 'sunk' | 'absent';

/** A mark where it lies on the reference, or would lie if it had it. */
export interface TrueMark {
  readonly kind: MarkKind;
  readonly carrier: 'reference' | 'subject' | 'both';
  readonly shape: 'line' | 'spot' | 'area';
  readonly onReference: OnFace;
  readonly onSubject: OnFace;
  /** x, y, z triples in the reference's file, mm: the line's course, or the spot's place. Null where no place corresponds. */
  readonly path: readonly number[] | null;
  /** Degrees clockwise from the top in the impression's sense, and distance from the centre, of the middle. */
  readonly atDeg: number;
  readonly radiusMm: number;
  readonly widthMm: number;
  readonly depthMm: number;
}

export interface MadeScan {
  /** x, y, z triples in the file's unit. */
  readonly positions: Float32Array;
  readonly triangles: Uint32Array;
  /** Binary little-endian PLY. */
  readonly bytes: Uint8Array;
  /** One code of `conditions` a vertex. */
  readonly conditionPerVertex: Uint8Array;
  /** The noiseless place of every vertex in the file, mm. */
  readonly truePositions: Float64Array;
  /** x, y of every vertex in the design's plane, mm, impression's sense: the material point. */
  readonly designPlace: Float32Array;
}

export interface TrueLetter {
  readonly letter: string;
  readonly ring: number;
  /** Middle in the design's plane, mm, impression's sense. */
  readonly x: number;
  readonly y: number;
  /** Height as laid out, mm. */
  readonly heightMm: number;
}

export interface PairTruth {
  /** One matrix in any state, or a faithful copy of it by moulding. */
  readonly same: boolean;
  readonly relation: Relation;
  readonly question: Question;
  /** Row-major similarity, mm to mm: least squares over vertices sound on both. For a hand copy, the tracing; else null. */
  readonly subjectToReference: readonly number[] | null;
  readonly scale: number | null;
  /** What remains between the two surfaces after it, root mean square over the sound vertices, mm. */
  readonly residualRmsMm: number | null;
  readonly kinds: { readonly reference: ObjectKind; readonly subject: ObjectKind };
  /** Share of the reference's image where the subject's image is present, scanned, neither lost nor unfilled. */
  readonly imageLeft: number;
  /** Share of the subject's own image that is lost. */
  readonly lostShare: number;
  readonly damage: readonly TrueMark[];
  /** Which side of the cut the subject is on, for `state`. */
  readonly state: 'subjectEarlier' | 'subjectLater' | null;
  readonly displacementUm: number | null;
  readonly referenceLetters: readonly TrueLetter[];
  readonly subjectLetters: readonly TrueLetter[];
  readonly shape: Shape;
  readonly sizeMm: number;
  /** How far each object's plane goes on beyond that outline, mm: a matrix ends there. */
  readonly edgeMm: { readonly reference: number; readonly subject: number };
  readonly motif: string;
  readonly border: BorderKind;
  readonly noiseUm: number;
  readonly spacingMm: { readonly reference: number; readonly subject: number };
  readonly unit: Unit;
}

export interface MadePair {
  readonly reference: MadeScan;
  readonly subject: MadeScan;
  readonly truth: PairTruth;
}
