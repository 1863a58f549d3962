import type { Watch } from '../../core/geometry/index.ts';
import type { Comparison, PreparedScan } from '../../core/pipeline.ts';
import type { Answer, ScanOrder, Told } from './protocol.ts';

/** What the worker lends to the reading room. */
export interface ReadingHost {
  prepared(order: ScanOrder, watch: Watch): Promise<PreparedScan>;
  compared(reference: ScanOrder, subject: ScanOrder, watch: Watch): Promise<Comparison>;
  answer<T>(work: () => Promise<T>): Promise<Answer<T>>;
  watchOf(told: Told): Watch;
}
