import type { BesideJob } from '../../core/beside.ts';
import type { Face } from '../../core/face/index.ts';
import type { IndexWork, StepName } from '../../core/geometry/index.ts';
import type { ScanInput } from '../../core/pipeline.ts';
import type { ScanErrorCode, UnitChoice } from '../../core/scan/index.ts';
import type { VerifiedPair } from '../../store/verifiedPair.ts';

/** What the second thread is asked for: to read a scan (the input without its functions), or a part of a comparison. */
export type Asked =
  | {
      readonly input: Omit<ScanInput, 'sha256'>;
      /** Index the surface as well: for the scan that the other will be fitted to. */
      readonly indexed: boolean;
    }
  | { readonly job: BesideJob }
  /** A part of an index that is made in the first thread. */
  | { readonly help: IndexWork }
  /** To search where the face of the scan that it last read lies on this one. */
  | { readonly searchedOn: Face };

export interface Order<Asks = Asked> {
  readonly id: number;
  readonly asked: Asks;
}

/** What comes out of a thread: of an order, how far it is, and then its result or why there is none. */
export type Answer = { readonly id: number } & (
  | { readonly kind: 'step'; readonly name: StepName }
  | { readonly kind: 'progress'; readonly fraction: number; readonly doing: string }
  | { readonly kind: 'done'; readonly result: unknown }
  | {
      readonly kind: 'refused';
      readonly code: ScanErrorCode;
      readonly message: string;
      readonly unitChoice?: UnitChoice;
    }
  | { readonly kind: 'failed'; readonly message: string }
);

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
