import type { StateName } from '../../condition/index.ts';
import type { AskedCode, Finding, Strength } from '../../judge/index.ts';

/** What a verified pair says, from its record; a is the reference, b the subject. */
export interface Link {
  readonly a: string;
  readonly b: string;
  readonly finding: Finding;
  readonly question: AskedCode;
  /** Null where no fit was found. */
  readonly score: number | null;
  readonly strength: Strength;
  /** A code of the judge's, or of the record's. */
  readonly descent: string | null;
  /** Share of the image that either carries, lips not counted (imageLeft.ts); null without a fit. */
  readonly imageLeft: readonly [a: number, b: number] | null;
  /** How b stands to a in state, by marks; left out: nothing is known. */
  readonly state?: StateName;
  /** Places of letters and ornaments, as `packPlaces` writes them; left out: none were kept. */
  readonly places?: string;
}

/** What somebody decided by hand. `join`: all members are of one group; `split`: no two of them are. The later decision holds. */
export interface Decision {
  readonly kind: 'join' | 'split' | 'name' | 'note';
  readonly members: readonly string[];
  readonly by: string;
  /** ISO 8601. */
  readonly at: string;
  readonly words: string;
}

/** What the manifest states of two objects: a is a cast of b; both are sides of one piece; both are scans of one object. */
export interface Known {
  readonly a: string;
  readonly b: string;
  readonly relation: 'castOf' | 'sidesOf' | 'scansOf';
}

export interface GroupedObject {
  readonly id: string;
  /** Share of the image that is left, where it is known otherwise than from the links. */
  readonly imageLeft?: number;
}

/** One step of a group's descent; `by`: stated in the manifest or read from the pair. */
export interface DescentStep {
  readonly a: string;
  readonly b: string;
  /** `castOf`: a goes back to b. `oneDescent`: a direction is not known. */
  readonly relation: 'castOf' | 'scansOf' | 'oneDescent';
  readonly by: 'stated' | 'read';
}

export interface StateStep {
  readonly earlier: string;
  readonly later: string;
}

/** Objects that verified pairs tie to one matrix or faithful copies of it. */
export interface Group {
  /** That of the first member in the order of ids. */
  readonly id: string;
  readonly members: readonly string[];
  /** By the score of the weakest tie; null where a person's decision or a stated relation alone ties it. */
  readonly strength: Strength | null;
  /** The pair without whose score the group falls apart first; null as above. */
  readonly weakest: { readonly a: string; readonly b: string; readonly score: number } | null;
  /** Independent links that have to be false before the group falls in two: 1 (a strong one), or the least number over all ways. */
  readonly leastLinks: number;
  /** Fragments that a verified pair ties to a member, with the best pair. */
  readonly possibleMembers: readonly { readonly id: string; readonly with: string; readonly score: number }[];
  readonly descent: readonly DescentStep[];
  /** Partial order of the states that members show, without steps that follow from others. */
  readonly states: readonly StateStep[];
  /** Sets of members whose readings of state contradict one another. */
  readonly stateContradictions: readonly (readonly string[])[];
  /** Pairs inside the group that speak against it and were outweighed. */
  readonly against: readonly {
    readonly a: string;
    readonly b: string;
    readonly finding: Finding;
    readonly score: number | null;
  }[];
  /** Decisions that the group rests on or carries. */
  readonly decisions: readonly Decision[];
  readonly name: string | null;
}

/** What would have been one group, and is better explained by two matrices of which one copies the other carefully. */
export interface PartedGroups {
  readonly sides: readonly [readonly string[], readonly string[]];
  /** How far places are off in the same way in the pairs across: 0 by chance, 1 at most; by how much, mm; over how many places of two pairs. */
  readonly agreement: number;
  readonly commonMm: number;
  readonly places: number;
  /** Whether pairs without an object in common show it. */
  readonly independent: boolean;
}

/** Scores that tie: see `thresholdsFor`. */
export interface Thresholds {
  /** From this score on one link ties by itself. */
  readonly alone: number;
  /** From this score on two independent links do. */
  readonly two: number;
  /** From this score on three do. */
  readonly three: number;
  /** Expected number of false merges in the whole collection, at most. */
  readonly expectedFalseMerges: number;
}

export interface Grouping {
  /** Of two members and more, or of one with possible members; in the order of ids. */
  readonly groups: readonly Group[];
  /** Objects in no group, in the order of ids. */
  readonly single: readonly string[];
  /** Groups tied by two sides of one piece: the two sides, and the objects that say so. */
  readonly sides: readonly {
    readonly groups: readonly [string, string];
    readonly by: readonly (readonly [string, string])[];
  }[];
  /** Supported pairs that tie nothing as yet: too weak alone, and no second beside them, or outweighed. Not what a person keeps apart. */
  readonly waiting: readonly { readonly a: string; readonly b: string; readonly score: number }[];
  /** Sets that stand apart though their pairs would tie them: copies made by hand. */
  readonly parted: readonly PartedGroups[];
  readonly compared: number;
  readonly thresholds: Thresholds;
  readonly expectedFalseMerges: number;
}
