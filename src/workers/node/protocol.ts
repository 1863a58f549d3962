import type { StepName } from '../../core/geometry/index.ts';
import type { FoundScan, ScanInput } from '../../core/pipeline.ts';
import type { ScanErrorCode, UnitChoice } from '../../core/scan/index.ts';
import type { VerifiedPair } from '../../store/verifiedPair.ts';

/** What goes into a reading thread: the input without its functions. */
export interface ReadingJob {
  readonly input: Omit<ScanInput, 'sha256'>;
  /** Index the surface as well: for the scan that the other will be fitted to. */
  readonly indexed: boolean;
}

/** What comes out of it. */
export type ReadingMessage =
  | { readonly kind: 'step'; readonly name: StepName }
  | { readonly kind: 'progress'; readonly fraction: number; readonly doing: string }
  | { readonly kind: 'found'; readonly found: FoundScan }
  | {
      readonly kind: 'refused';
      readonly code: ScanErrorCode;
      readonly message: string;
      readonly unitChoice?: UnitChoice;
    }
  | { readonly kind: 'failed'; readonly message: string };

/** A pair for the verifying thread: two kept faces. */
export interface VerifyJob {
  readonly id: number;
  readonly candidate: Uint8Array;
  readonly query: Uint8Array;
  /** Version and build of the tool. */
  readonly by: string;
}

export type VerifyMessage =
  | { readonly id: number; readonly pair: VerifiedPair }
  | { readonly id: number; readonly failed: string };
