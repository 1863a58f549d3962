import type { DifferenceStatistics, Section, SizeTest } from '../../core/compare/index.ts';
import type { WearState, WearZone } from '../../core/condition/index.ts';
import type { ZoneName } from '../../core/design/index.ts';
import type { FaceCandidate, Outline, Sense, SizedShape } from '../../core/face/index.ts';
import type { Fit } from '../../core/fit/index.ts';
import type { HeightGrid, Similarity, Vec2 } from '../../core/geometry/index.ts';
import type { Judgement } from '../../core/judge/index.ts';
import type { Given, ScanInput } from '../../core/pipeline.ts';
import type { Ground } from '../../core/report/index.ts';
import type { Kind, Repairs, ScanErrorCode, Unit, UnitChoice, UnitFrom } from '../../core/scan/index.ts';
import type { Prepared } from '../../core/session.ts';
import type { PlateMesh } from './plateMesh.ts';
import type { ReliefPicture } from './reliefPicture.ts';
import type { StoredPicture } from './storedPicture.ts';
import type { Thumbnail } from './thumbnail.ts';

/** What the screen states about a scan; the bytes travel as a Blob, which is cheap to send. */
export type Stated = Omit<ScanInput, 'name' | 'bytes'>;

export interface ScanOrder {
  /** Changes whenever the bytes or what is stated about them change. */
  readonly key: string;
  readonly name: string;
  readonly file: Blob;
  readonly stated: Stated;
}

/** Everything the screen shows of one scan. */
export interface FaceView {
  readonly key: string;
  readonly name: string;
  readonly format: string;
  readonly sha256: string;
  readonly kind: Kind;
  readonly kindFrom: 'stated' | 'assumed';
  readonly sense: Sense;
  readonly senseConfidence: number;
  readonly unit: Unit;
  readonly unitFrom: UnitFrom;
  readonly vertices: number;
  readonly triangles: number;
  readonly repairs: Repairs;
  readonly outline: Outline;
  /** What a matrix prints, by its own edge. */
  readonly image?: SizedShape;
  readonly noiseMm: number;
  readonly filled: number;
  readonly holes: number;
  readonly upFrom: string;
  /** Turn that seems to bring the top up, degrees clockwise on the face as seen, and from what; a guess. */
  readonly upright?: { readonly turnDeg: number; readonly from: 'motif' | 'cross' };
  readonly candidates: readonly FaceCandidate[];
  readonly candidate: number;
  readonly picture: ReliefPicture;
  readonly mesh: PlateMesh;
  /** The edge of what is scanned, seen from the middle, x and y pairs in the face frame, mm. */
  readonly rim: Float32Array;
  readonly thumbnail: Thumbnail;
  /** The same turned as `upright` says. */
  readonly uprightThumbnail?: Thumbnail;
  /** It came out of a saved file: nothing of it was measured here. */
  readonly fromFile?: 'reduced' | 'full';
}

/** Everything the screen shows of a comparison. */
export interface ComparisonView {
  readonly key: string;
  /** Given where the comparison settled on another face of an object than was found on it alone. */
  readonly reference?: FaceView;
  readonly subject?: FaceView;
  readonly fit: Fit;
  /** Reference's face frame ← subject's face frame, by model. */
  readonly referenceFaceFromSubjectFace: Readonly<Record<string, Similarity>>;
  readonly difference: {
    readonly map: HeightGrid;
    readonly levelOfDetection: HeightGrid;
    /** 1 for the map's cells that stand against chance over the whole face. */
    readonly significant?: Uint8Array;
    readonly levelOfDetectionMm: number;
    readonly whole: DifferenceStatistics;
    readonly zones: ReadonlyArray<DifferenceStatistics & { readonly zone: ZoneName }>;
    readonly size: SizeTest;
  } | null;
  /** The answer, as long as what the surfaces show is not joined to it. */
  readonly weighed?: Pick<Judgement, 'finding' | 'strength'>;
  /** Null as long as the surfaces are looked at, and where a file states the results. */
  readonly judgement: Judgement | null;
  /** What the finding rests on, in the order of its weight, and the state that joins the answer; once it is judged. */
  readonly grounds?: readonly Ground[];
  readonly stateSentence?: string;
  /** What a saved file states of the pair. It was not worked out here and is never shown as if it were. */
  readonly stated?: StatedResults;
}

/** What a saved file says of a pair and draws on it: plain text and outlines in the reference's face frame, mm. */
export interface StatedResults {
  readonly sentence: string;
  /** How strong the finding is called, and for or against what. */
  readonly strength: string;
  readonly limits: readonly string[];
  readonly ground: readonly string[];
  /** What the finding rests on, in the order of its weight; files of before have none. */
  readonly grounds?: ReadonlyArray<Pick<Ground, 'title' | 'figure' | 'says' | 'against' | 'overturn' | 'how'>>;
  readonly doubts: readonly string[];
  readonly size: readonly string[];
  readonly marks: ReadonlyArray<{
    readonly id: string;
    readonly label: string;
    readonly words: readonly string[];
    readonly outline: readonly Vec2[];
  }>;
  readonly zones: readonly WearZone[];
  readonly zoneOutlines: ReadonlyArray<{ readonly zone: ZoneName; readonly outlines: readonly FlatOutline[] }>;
  readonly areas: ReadonlyArray<{
    readonly zone: ZoneName;
    readonly state: WearState;
    readonly areaMm2: number;
    readonly outlines: readonly FlatOutline[];
  }>;
}
/** x, y pairs, mm. */
export type FlatOutline = ArrayLike<number>;

/** A prepared scan on its way from one worker to another, its arrays moved and not copied. */
export interface Moved extends Prepared {
  readonly key: string;
}

export interface Failure {
  readonly ok: false;
  readonly code: ScanErrorCode | 'unexpected';
  readonly message: string;
  /** With `unitNeeded`: the units to choose from and the longer side of the face in the file's own unit. */
  readonly unitChoice?: UnitChoice;
}
export type Answer<T> = { readonly ok: true; readonly value: T } | Failure;

/** Called by a long step: share of the whole done, 0 to 1, and what is being done. */
export type Told = (fraction: number, doing: string) => void;

export interface ReportOrder {
  readonly key: string;
  readonly version: string;
  /** One of the scans is computed. */
  readonly simulated: boolean;
  readonly conclusion: { readonly text: string; readonly by: string; readonly on: string } | null;
  readonly section?: Section;
}

/** A report: its page, and its record as JSON. */
export interface ReportFiles {
  readonly page: string;
  readonly record: string;
}

/** What the worker does. It keeps what it prepared by key; after a restart it prepares again what it is asked for. */
export interface ComparisonServices {
  /** Does parts of comparisons that are asked for through the port. */
  helpAt(port: MessagePort): Promise<void>;
  /** Asks there for parts of its own comparisons. */
  helpedBy(port: MessagePort): Promise<void>;
  prepare(order: ScanOrder, partner: ScanOrder | null, told: Told): Promise<Answer<FaceView>>;
  /** Gives a prepared scan away, to be taken by another worker; null where it is not here. */
  give(key: string): Promise<Moved | null>;
  take(moved: Moved): Promise<void>;
  /** `shown` is called as soon as there is something to show: when the finding stands, and when depth differences are measured. */
  compare(
    reference: ScanOrder,
    subject: ScanOrder,
    given: Given,
    told: Told,
    shown: (view: ComparisonView) => void,
  ): Promise<Answer<ComparisonView>>;
  section(key: string, line: readonly [number, number, number, number]): Promise<Answer<Section>>;
  /** The report page and the record, as on the command line. */
  report(order: ReportOrder): Promise<Answer<ReportFiles>>;
  /** The pictures of a relief that came out of a saved file. */
  picture(relief: HeightGrid): Promise<Answer<StoredPicture>>;
}
