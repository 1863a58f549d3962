import type { Face } from '../face/index.ts';
import type { Fit } from '../fit/index.ts';
import type { StepName } from '../geometry/index.ts';

/** The one place where this step takes the shapes of the whole pipeline. */
export type { ChangeComparison } from '../changeBetween.ts';

import type { Comparison, Measured, PreparedScan } from '../pipeline.ts';

export type { Comparison, PreparedScan };

/** Two scans and how one lies on the other, before anything is measured. */
export type LaidPair = Pick<Comparison, 'reference' | 'subject' | 'fit'>;

/** … and then, with the places weighed; marks and wear are not known yet. */
export type MeasuredPair = LaidPair & Pick<Measured, 'difference' | 'weighed' | 'places'>;

/** Two faces and how one lies on the other: all that plates need. */
export interface Pair {
  readonly reference: { readonly face: Face };
  readonly subject: { readonly face: Face };
  readonly fit: Fit;
}

/** How a comparison was made; core has no clock, so the caller says when and how long. */
export interface Paradata {
  /** Version of this program. */
  readonly version: string;
  /** The source's commit that it was built from, as far as that is known. */
  readonly build?: string;
  /** What the user set or stated, by name. */
  readonly stated: Readonly<Record<string, unknown>>;
  /** ISO 8601, with an offset or Z. */
  readonly startedAt: string;
  readonly seconds: Readonly<Record<StepName, number>>;
  /** What was typed, where it was typed. */
  readonly commandLine?: string;
}

export { type StepName, stepNames } from '../geometry/index.ts';
