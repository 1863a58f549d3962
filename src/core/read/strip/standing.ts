/** What judgement says of a witness against the reference: only like may be put together with like. */
export interface WitnessStanding {
  readonly name: string;
  /** The reference itself needs no finding. */
  readonly isReference?: boolean;
  readonly finding: 'supported' | 'against' | 'otherDesign' | 'undecided' | null;
  readonly state: 'sameState' | 'subjectEarlier' | 'subjectLater' | 'cannotJudge' | null;
  /** What was asked of the pair: a positive of this matrix, two positives of one matrix, two negatives of one parent. */
  readonly question?: 'madeFrom' | 'oneMatrix' | 'oneParent' | null;
  /** Lowers or raises this witness's weight everywhere; 1 unless stated, 0 leaves it out. */
  readonly weight?: number;
}

/** Two witnesses of which one was made from the other, or both from one: they count once. */
export interface Kinship {
  readonly one: string;
  readonly two: string;
  /** The one that is the copy; null where it is not known which. */
  readonly copy: string | null;
}
