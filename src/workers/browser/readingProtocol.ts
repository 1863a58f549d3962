import type { Band } from '../../core/design/index.ts';
import type { Outline, Sense, SizedShape } from '../../core/face/index.ts';
import type { HeightGrid } from '../../core/geometry/index.ts';
import type {
  FacingArc,
  FacingDoubt,
  InEveryLanguage,
  LookInput,
  RidgeView,
  SenseOfLetters,
  StripPiece,
  StripStart,
  View,
} from '../../core/read/index.ts';
import type { PlateSize, PrintOptions, PrintPlate } from '../../core/report/index.ts';
import type { Kind } from '../../core/scan/index.ts';
import type { ChangeServices } from './changeProtocol.ts';
import type { Answer, ComparisonServices, ScanOrder, Told } from './protocol.ts';

/** A face that came out of a saved file: its scan is not here, its relief is reduced. */
export interface StoredRelief {
  readonly key: string;
  readonly sense: Sense;
  readonly outline: Outline;
  readonly relief: HeightGrid;
  readonly noiseMm: number;
}

/** What is read: the scan itself, or what a saved file kept of it. */
export type ReadSource = { readonly scan: ScanOrder } | { readonly stored: StoredRelief };

/** A legend band with what was made out on it. */
export interface FoundBand {
  readonly band: Band;
  readonly letters: SenseOfLetters;
  readonly facing: 'inward' | 'outward';
  /** Arcs by the way their letters face; one where all face one way. */
  readonly arcs: readonly FacingArc[];
  readonly facingDoubts: readonly FacingDoubt[];
  /** Where the strip begins by itself, and why. */
  readonly startDeg: number;
  readonly startsAt: StripStart;
  readonly crossDeg: number | null;
}

export interface StripOrder {
  readonly band: Band;
  readonly startDeg: number;
  readonly facing: 'inward' | 'outward';
  /** More than one: letters face two ways, and `facing` says nothing. */
  readonly arcs?: readonly FacingArc[];
}

/** Grey picture with its mask (1 where there is data); row 0 at the top. */
export interface GreyPicture {
  readonly width: number;
  readonly height: number;
  readonly grey: Uint8ClampedArray<ArrayBuffer>;
  readonly mask: Uint8Array<ArrayBuffer>;
  /** In English, as the screens are. */
  readonly caption: string;
  /** For what is printed. */
  readonly captions: InEveryLanguage;
}

/** Where the cells of a strip lie: all of a `Strip` but its heights. */
export interface StripPlaces {
  readonly band: Band;
  readonly facing: 'inward' | 'outward';
  readonly pieces: readonly StripPiece[];
  readonly grid: Omit<HeightGrid, 'z' | 'mask'>;
  readonly x: Float64Array<ArrayBuffer>;
  readonly y: Float64Array<ArrayBuffer>;
  readonly upX: Float64Array<ArrayBuffer>;
  readonly upY: Float64Array<ArrayBuffer>;
  readonly roundMm: number;
}

export interface StripView {
  /** How well the picture parts strokes from ground, and how well plain light from the upper left does (`strokeContrast`). */
  readonly contrast: { readonly shown: number; readonly plain: number };
  readonly places: StripPlaces;
  readonly picture: GreyPicture;
  /** Mean height of the relief's detail in each column between tops and feet of the letters: where letters stand. */
  readonly ink: Float32Array<ArrayBuffer>;
}

/** How a face is shown: which way, and turned upright by so many degrees clockwise, in the impression's sense. */
export interface ShownFace {
  readonly view: View;
  readonly turnDeg: number;
}

/** A face's picture in the frame it is shown in, after its turn: x right, y up, mm. */
export interface FacePicture extends GreyPicture {
  /** Turn of this picture against the face as it was found, degrees clockwise as seen. */
  readonly turnDeg: number;
  readonly pitch: number;
  readonly left: number;
  readonly top: number;
  readonly view: View;
  readonly sense: Sense;
}

export interface StackRow {
  readonly name: string;
  readonly picture: GreyPicture;
  /** Share of the strip with data. */
  readonly filled: number;
  /** How the finding stands, in words; empty for the reference itself. */
  readonly standing: string;
}

export type CompositeView =
  | { readonly refused: true; readonly reason: string }
  | {
      readonly refused: false;
      readonly picture: GreyPicture;
      /** Index of the witness that gives most at each cell, 255 where none. */
      readonly contributor: Uint8Array<ArrayBuffer>;
      readonly shares: readonly number[];
      readonly caption: string;
    };

export interface StackView {
  readonly places: StripPlaces;
  readonly rows: readonly StackRow[];
  readonly composite: CompositeView;
  readonly ink: Float32Array<ArrayBuffer>;
}

/** A place of the legend, about a letter wide (`legiblePlaces`): where it lies on the strip, and by what it is best seen. */
export interface LegiblePlaceView {
  /** Along the strip, mm, and degrees clockwise from 12 o'clock of the face as it was found. */
  readonly fromMm: number;
  readonly toMm: number;
  readonly deg: number;
  /** The look's name, and the stroke contrast under it. */
  readonly look: string;
  readonly contrast: number;
}

export interface BackView {
  readonly sharp: GreyPicture;
  readonly blurred: GreyPicture;
  readonly pitch: number;
  readonly left: number;
  readonly top: number;
  readonly proposal: RidgeView['proposal'];
  readonly areaMm2: number;
}

export interface Witnessing {
  readonly scan: ScanOrder;
  readonly name: string;
}

/** Fragments of one seal in their places. */
export interface FragmentsView {
  readonly plate: PrintPlate;
  /** How the finding stands of each that was fitted, in words. */
  readonly standings: readonly { readonly name: string; readonly words: string }[];
  /** Which of them are of two impressions, since both carry the same places: sentences. */
  readonly overlaps: readonly string[];
  /** Those that could not be fitted. */
  readonly left: readonly string[];
}

/** An object on a plate for print. */
export interface PlateOrder {
  readonly source: ReadSource;
  readonly shown: ShownFace;
  readonly kind: Kind;
  readonly outline: SizedShape;
  readonly shelfmark?: string | undefined;
}

/** How a plate is printed: its size and its light as the reader states them. */
export interface PlatePrinting extends Omit<PrintOptions, 'printScale' | 'look'> {
  readonly size: PlateSize;
  /** In place of the plates' own lamps. */
  readonly look?: LookInput | undefined;
}

/** What the worker does for the reading room. */
export interface ReadingServices {
  bands(source: ReadSource, told: Told): Promise<Answer<readonly FoundBand[]>>;
  strip(source: ReadSource, order: StripOrder, look: LookInput, told: Told): Promise<Answer<StripView>>;
  /** The same plate as the command line makes: its dots, and the marks that the page draws round them. */
  plate(objects: readonly PlateOrder[], printing: PlatePrinting, told: Told): Promise<Answer<PrintPlate>>;
  face(source: ReadSource, look: LookInput, shown: ShownFace, told: Told): Promise<Answer<FacePicture>>;
  stack(
    reference: Witnessing,
    subjects: readonly Witnessing[],
    order: StripOrder,
    look: LookInput,
    told: Told,
  ): Promise<Answer<StackView>>;
  /** The places of a strip from the clearest to the most doubtful, each with the one of these looks that serves it best. */
  legible(
    source: ReadSource,
    order: StripOrder,
    looks: readonly LookInput[],
    told: Told,
  ): Promise<Answer<readonly LegiblePlaceView[]>>;
  /** The same plate as the command line makes. */
  fragments(
    reference: Witnessing,
    pieces: readonly Witnessing[],
    options: PrintOptions,
    told: Told,
  ): Promise<Answer<FragmentsView>>;
  back(source: ReadSource, told: Told): Promise<Answer<BackView>>;
  /** Only for those who ask: see the caution that goes with it. Null where no ridges are. */
  ridgeSpacing(source: ReadSource): Promise<Answer<number | null>>;
}

/** All that the worker does. */
export interface WorkerServices extends ComparisonServices, ReadingServices, ChangeServices {}
