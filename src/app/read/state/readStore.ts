import { create } from 'zustand';
import type { SuppliedFrom } from '../../../core/read/index.ts';
import type {
  BackView,
  FacePicture,
  FoundBand,
  FragmentsView,
  LegiblePlaceView,
  StackView,
  StripView,
} from '../../../workers/browser/readingProtocol.ts';
import type { Keyed } from '../../jobs/progress.ts';
import type { Pen } from './pen.ts';

export const leaves = ['legend', 'back', 'fragments', 'card'] as const;
export type Leaf = (typeof leaves)[number];

/** What the worker was asked for, each the last of its kind. */
export interface Slots {
  readonly bands: readonly FoundBand[];
  readonly face: FacePicture;
  readonly strip: StripView;
  readonly stack: StackView;
  readonly back: BackView;
  readonly fragments: FragmentsView;
  readonly legible: readonly LegiblePlaceView[];
}
export type SlotName = keyof Slots;

/** The last result stays to be seen while the next one is worked out. */
export interface Slot<T> {
  readonly state: Keyed<T> | null;
  readonly shown: { readonly key: string; readonly value: T } | null;
}

/** A place on the face and on its strip at once. */
export interface Hovered {
  /** In the face frame, mm. */
  readonly x: number;
  readonly y: number;
  /** On the strip, cells; null beside it. */
  readonly column: number | null;
  readonly row: number | null;
}

/** What part of the strip is seen. */
export interface StripWindow {
  /** Null: letters as high as is comfortable. */
  readonly pxPerMm: number | null;
  readonly leftMm: number;
}

export interface FaceCamera {
  readonly x: number;
  readonly y: number;
  readonly zoom: number;
}
export const restingFaceCamera: FaceCamera = { x: 0, y: 0, zoom: 1 };

interface ReadState {
  readonly leaf: Leaf;
  readonly stacked: boolean;
  readonly slots: { readonly [N in SlotName]: Slot<Slots[N]> };
  readonly hovered: Hovered | null;
  readonly pen: Pen;
  /** Where supplied letters come from until something else is said. */
  readonly source: SuppliedFrom;
  readonly window: StripWindow;
  /** From and to on the strip, mm, as far as it is seen. */
  readonly seen: readonly [number, number] | null;
  readonly camera: FaceCamera;
  /** The expansion that is being typed; null: none. */
  readonly expanding: string | null;
  /** Which reading put aside the present one is compared with; null: none. */
  readonly comparedWith: number | null;
  /** Which place the reader is at, of those ranked by how legible they are: of what strip, by its key, and which look it had before; null: none. */
  readonly place: { readonly of: string; readonly rank: number; readonly lookBefore: string } | null;
  /** Keys of the scans that are laid together as fragments; null: all but the reference. */
  readonly pieces: readonly string[] | null;
  /** How far the film of the sweep has come, 0 to 1; null: none is made. */
  readonly filming: number | null;
}

const empty = { state: null, shown: null };

/** What the reading room shows and does not keep. */
export const useRead = create<ReadState>()(() => ({
  leaf: 'legend',
  stacked: false,
  slots: { bands: empty, face: empty, strip: empty, stack: empty, back: empty, legible: empty, fragments: empty },
  hovered: null,
  pen: { at: 0, alongMm: 0 },
  source: { from: 'conjecture' },
  window: { pxPerMm: null, leftMm: 0 },
  seen: null,
  camera: restingFaceCamera,
  expanding: null,
  comparedWith: null,
  place: null,
  pieces: null,
  filming: null,
}));

export const readNow = useRead.getState;
export const setRead = useRead.setState;
