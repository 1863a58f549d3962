import type { ZoneName } from '../../core/design/index.ts';
import type { FitStart, ModelName } from '../../core/fit/index.ts';
import type { Vec2 } from '../../core/geometry/index.ts';
import type { GroundCode } from '../../core/report/index.ts';
import type { Stated } from '../../workers/browser/protocol.ts';
import { emptyRead, type ReadDocument } from './readDocument.ts';

export const steps = ['bringIn', 'face', 'fit', 'compare', 'finding', 'read', 'show'] as const;
/** The room of one object on two dates stands beside the steps: no question of matrices is asked in it. */
export type Step = (typeof steps)[number] | 'change';

/** Where one is: at the front door, or in a step of the job. */
export type Room = Step | 'door';
export const rooms = [...steps, 'change', 'door'] as const;

/** How the two seals are laid out on the plate. */
export const looks = ['pair', 'over', 'turn', 'difference'] as const;
export type Look = (typeof looks)[number];

/** A file that was brought in. Its bytes are kept apart, under `id`. */
export interface ScanEntry {
  readonly id: string;
  readonly name: string;
  readonly stated: Stated;
  /** Says who made the object and where it is, for the captions; the user's own words. */
  readonly title: string;
  /** Computed, not scanned: said wherever it is shown. */
  readonly simulated?: boolean;
  /** The reduced surface that a saved file keeps of a scan, not the scan: said wherever it is shown. */
  readonly reduced?: boolean;
  /** Laid out by the page itself when it was first opened: gives way to the first scans of one's own. */
  readonly opening?: boolean;
}

export interface Camera {
  /** What lies in the middle of each pane, mm from the middle of the face. */
  readonly x: number;
  readonly y: number;
  /** Against the size at which the larger face fills its pane. */
  readonly zoom: number;
  /** Degrees the face is tipped about the picture's horizontal and vertical. */
  readonly tipDeg: number;
  readonly swingDeg: number;
}

export interface Lamp {
  /** Clockwise from the top of the picture. */
  readonly azimuthDeg: number;
  readonly heightDeg: number;
}

/** Ends on the plate, mm. */
export type Line = readonly [number, number, number, number];

/** What the plate shows: all that a saved view keeps. */
export interface PlateView {
  readonly look: Look;
  /** Whether an engraved face is shown as it is or as the impression it gives. */
  readonly engraved: 'asIs' | 'asImpression';
  readonly camera: Camera;
  readonly lamp: Lamp;
  /** Where the divider stands in the view one over the other, 0 left to 1 right. */
  readonly divider: number;
  /** Which lies on top in the view in turn. */
  readonly onTop: 'reference' | 'subject';
  /** End of the colour scale, mm; null: taken from the differences. */
  readonly rangeMm: number | null;
  readonly section: Line | null;
  /** Whether the outlines of marks are drawn. */
  readonly outlines: boolean;
  /** The zone of which the wear is drawn, or the whole; null: none. */
  readonly wear: ZoneName | null;
}

/** The user's word on a mark that the tool found. */
export interface MarkNote {
  readonly label?: string;
}

/** A region that is taken out of everything measured; the pair is measured again without it. */
export interface LeftOut {
  readonly id: string;
  readonly label: string;
  readonly why: string;
  readonly by: string;
  /** Drawn by the user; else it was a mark that the tool found, and will find again. */
  readonly own: boolean;
  /** On the plate, in the impression's sense, mm. */
  readonly outline: readonly Vec2[];
}

/** The same place marked on both faces by hand, each in its own face frame, mm; the other half may still be missing. */
export interface MarkedPair {
  readonly id: string;
  readonly reference: Vec2 | null;
  readonly subject: Vec2 | null;
}

/** A region that the user drew. */
export interface OwnMark {
  readonly id: string;
  readonly label: string;
  readonly outline: readonly Vec2[];
}

export interface Reading {
  readonly text: string;
  readonly by: string;
  /** Calendar day, ISO. */
  readonly on: string;
}

/** Scans of one object on two dates, by id: the user's word. Each date may have been scanned twice. */
export interface Dates {
  readonly earlierId: string | null;
  readonly laterId: string | null;
  readonly earlierAgainId: string | null;
  readonly laterAgainId: string | null;
}

/** One saved view of the seminar mode. */
export interface Slide {
  readonly id: string;
  readonly question: string;
  readonly caption: string;
  readonly view: PlateView;
  /** Shows the finding when it is reached. */
  readonly reveals: boolean;
  /** For the speaker alone: what speaks against it. */
  readonly notes?: string;
  /** The ground of the finding that has the plate. */
  readonly ground?: GroundCode;
  /** The scans that lie on the plate for it, a and b; without it, those that lie there. */
  readonly pair?: readonly [string, string];
  /** The two dates have the plate, so seen, with one of their changes or none. */
  readonly dates?: { readonly look: 'turn' | 'pair' | 'map'; readonly change?: string };
  /** A riddle: neither names nor marks stand at the seals until the finding is revealed. */
  readonly unnamed?: boolean;
}

/** Everything that is kept, undone and saved. Plain data. */
export interface Document {
  readonly scans: readonly ScanEntry[];
  readonly referenceId: string | null;
  readonly subjectId: string | null;
  /** Brought in or taken up last, and not all read yet: they take the plate by their roles as they are read. */
  readonly fresh: readonly string[];
  /** Whether the pair is to be compared: once asked for, it is compared again when something changes. */
  readonly compare: boolean;
  readonly model: ModelName | 'chosen';
  readonly view: PlateView;
  readonly marks: Readonly<Record<string, MarkNote>>;
  readonly ownMarks: readonly OwnMark[];
  readonly leftOut: readonly LeftOut[];
  readonly pairs: readonly MarkedPair[];
  /** Where the fit begins instead of where the search ends. */
  readonly start: FitStart | null;
  /** Landmarks put or corrected by hand, on the reference's face, mm; null: those that the tool finds. */
  readonly landmarks: readonly Vec2[] | null;
  readonly firstReading: Reading | null;
  readonly conclusion: Reading | null;
  readonly findingOpen: boolean;
  readonly slides: readonly Slide[];
  readonly read: ReadDocument;
  readonly dates: Dates;
}

export const restingCamera: Camera = { x: 0, y: 0, zoom: 1, tipDeg: 0, swingDeg: 0 };
export const upperLeft: Lamp = { azimuthDeg: 315, heightDeg: 25 };

export const restingView: PlateView = {
  look: 'pair',
  engraved: 'asImpression',
  camera: restingCamera,
  lamp: upperLeft,
  divider: 0.5,
  onTop: 'reference',
  rangeMm: null,
  section: null,
  outlines: true,
  wear: null,
};

export const noDates: Dates = { earlierId: null, laterId: null, earlierAgainId: null, laterAgainId: null };

export const emptyDocument: Document = {
  scans: [],
  referenceId: null,
  subjectId: null,
  fresh: [],
  compare: false,
  model: 'chosen',
  view: restingView,
  marks: {},
  ownMarks: [],
  leftOut: [],
  pairs: [],
  start: null,
  landmarks: null,
  firstReading: null,
  conclusion: null,
  findingOpen: false,
  slides: [],
  read: emptyRead,
  dates: noDates,
};

/** Whether only the pair lies there that the page laid out itself, and nothing was written or drawn on it. */
export const onlyOpening = ({ scans, ...rest }: Document): boolean =>
  scans.length > 0 &&
  scans.every((scan) => scan.opening) &&
  [rest.firstReading, rest.conclusion, rest.landmarks, rest.start].every((one) => one === null) &&
  [rest.ownMarks, rest.leftOut, rest.pairs, rest.slides].every((list) => list.length === 0);

/** Changes whenever the bytes or what is stated about them change. */
export const keyOf = (scan: ScanEntry): string => `${scan.id} ${JSON.stringify(scan.stated)}`;

export const scanById = (document: Document, id: string | null): ScanEntry | undefined =>
  document.scans.find((scan) => scan.id === id);
