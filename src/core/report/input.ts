import type { StepName } from '../geometry/index.ts';

/** The one place where this step takes the shapes of the whole pipeline. */
export type { Comparison, PreparedScan } from '../pipeline.ts';

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
