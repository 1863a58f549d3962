import type { Difference } from './compare/index.ts';
import type { Face, FaceOptions } from './face/index.ts';
import type { Fit } from './fit/index.ts';
import type { Judgement } from './judge/index.ts';
import type { Kind, ReadOptions, Scan } from './scan/index.ts';

/** One file and what the user states about it. */
export interface ScanInput extends ReadOptions, FaceOptions {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly kind?: Kind;
  readonly material?: string;
  /** Scale uncertainty of the scan, percent (1 σ); 0.3 where nothing is stated. */
  readonly scaleUncertaintyPercent?: number;
}

/** A scan in millimetres with its face found. */
export interface PreparedScan {
  readonly scan: Scan;
  readonly face: Face;
  readonly kind: Kind;
  readonly kindFrom: 'stated' | 'assumed';
  readonly material?: string;
  readonly scaleUncertaintyPercent: number;
  readonly scaleUncertaintyFrom: 'stated' | 'assumed';
}

export interface Comparison {
  readonly reference: PreparedScan;
  readonly subject: PreparedScan;
  readonly fit: Fit;
  /** Null where no fit was found. */
  readonly difference: Difference | null;
  readonly judgement: Judgement;
}
