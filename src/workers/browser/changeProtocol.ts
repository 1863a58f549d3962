import type { Change } from '../../core/change/index.ts';
import type { HeightGrid, Vec2 } from '../../core/geometry/index.ts';
import type { Answer, ComparisonView, FaceView, ReportFiles, ScanOrder, Told } from './protocol.ts';

/** One object's scans on two dates, each with a second one of the same date where there is one. */
export interface DatedOrder {
  /** Changes whenever the answer would. */
  readonly key: string;
  readonly earlier: ScanOrder;
  readonly later: ScanOrder;
  readonly earlierAgain: ScanOrder | null;
  readonly laterAgain: ScanOrder | null;
}

/** One place that changed, as it is listed and pointed at. */
export interface ShownChange extends Omit<Change, 'outline' | 'causes'> {
  readonly words: string;
  readonly causes: readonly string[];
  /** On the plate, in the impression's sense, mm. */
  readonly outline: readonly Vec2[];
}

/** The map over the earlier face, in the impression's sense, mm. */
export interface ShownChangeMap {
  readonly map: HeightGrid;
  /** Least height that counts. */
  readonly levelOfDetection: HeightGrid;
  readonly levelOfDetectionMm: number;
  /** 1 on the cells of a change. */
  readonly significant?: Uint8Array;
  readonly endMm: number;
}

/** Everything the screen shows of one object on two dates. */
export interface ChangeView {
  readonly key: string;
  /** Given where the fit settled on another face than was found on a scan alone. */
  readonly earlier?: FaceView;
  readonly later?: FaceView;
  readonly judged: boolean;
  readonly sentence: string;
  /** How the later lies on the earlier, as the plate takes it; rigid, each at its own size. */
  readonly laid: ComparisonView;
  readonly map: ShownChangeMap | null;
  readonly changes: readonly ShownChange[];
  /** What would have been found, on what it rests, and whether the whole became larger or smaller. */
  readonly facts: readonly string[];
  readonly limits: readonly string[];
}

export interface ChangeReportOrder {
  readonly dates: DatedOrder;
  readonly version: string;
}

/** What the worker does for the room of two dates. */
export interface ChangeServices {
  change(dates: DatedOrder, told: Told): Promise<Answer<ChangeView>>;
  /** The two pages and the record, as on the command line. */
  changeReport(order: ChangeReportOrder): Promise<Answer<ReportFiles>>;
}
