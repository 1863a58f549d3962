import { create } from 'zustand';
import type { WearState } from '../../core/condition/index.ts';
import type { ZoneName } from '../../core/design/index.ts';
import type { Vec2 } from '../../core/geometry/index.ts';
import type { GroundCode } from '../../core/report/index.ts';
import type { ComparisonView, FaceView } from '../../workers/browser/protocol.ts';
import type { Keyed } from '../jobs/progress.ts';
import { type Document, emptyDocument, type Lamp, type PlateView, type Room } from './document.ts';
import { acted, type History, historyOf, redone, settled, undone } from './history.ts';

/** What a drag on the plate does. */
export type Hand = 'look' | 'section' | 'mark' | 'pairs' | 'landmarks';

/** A part of the face that the hand is on, in the list of wear or on the plate. */
export interface WornPart {
  readonly zone: ZoneName;
  /** Null: all of the zone. */
  readonly state: WearState | null;
}
export interface Remedy {
  readonly words: string;
  run(): void;
}

export type Scheme = 'system' | 'light' | 'dark';

interface State {
  readonly history: History<Document>;
  /** By scan id. */
  readonly faces: Readonly<Record<string, Keyed<FaceView>>>;
  readonly comparison: Keyed<ComparisonView> | null;
  /** The last comparison that was finished. */
  readonly held: ComparisonView | null;
  /** What the saved file states that was opened last. */
  readonly opened: ComparisonView | null;
  readonly step: Room;
  readonly hand: Hand;
  readonly scheme: Scheme;
  readonly margin: boolean;
  readonly keysShown: boolean;
  /** The scan whose face is looked at in the step Face. */
  readonly faceId: string | null;
  readonly selectedMark: string | null;
  readonly selectedLandmark: number | null;
  /** A landmark on its way, by its number in the list, and where it is, mm on the reference's face. */
  readonly landmarkDrag: { readonly index: number; readonly at: Vec2 } | null;
  /** The zone pointed at in the list: its wear is drawn as long as the hand is there. */
  readonly wearPointed: ZoneName | null;
  /** The drawn part under the hand. */
  readonly wornPart: WornPart | null;
  /** The mark under the hand in the list. */
  readonly pointedMark: string | null;
  /** The ground of the finding that has taken over the plate. */
  readonly ground: GroundCode | null;
  /** What it, or a mark that is pointed at, sets of the view for so long; whatever the user moves is the user's again. */
  readonly standIn: Partial<PlateView> | null;
  /** Where the lamp is that the hand carries, at the front door and in the seminar; null until it is moved there. */
  readonly handLamp: Lamp | null;
  /** Where the hand points, mm on the plate. */
  readonly pointed: readonly [number, number] | null;
  /** One sentence for the user, with its remedy. */
  readonly notice: string | null;
  /** What can be done about it, in words for a button. */
  readonly remedy: Remedy | null;
  /** Work that another tab left in this browser and that can be gone on with. */
  readonly left: { readonly session: string /** When it was last kept, ms since 1970. */; readonly at: number } | null;
  readonly restored: boolean;
  /** Index of the slide that is presented, or null. */
  readonly presenting: number | null;
  /** How much of it has been told: 0 the question, 1 what is seen, 2 the finding. */
  readonly presentingPart: number;
  /** The speaker's own window beside the seminar. */
  readonly speaker: Window | null;
  /** Where the hand points on the drawn profile, mm from its start. */
  readonly profileAt: number | null;
  /** Turn of the plate that brings the design upright, degrees clockwise; follows from the faces. */
  readonly turnDeg: number;
  /** Whether shadows are cast; null: where there is a graphics card. */
  readonly shadows: boolean | null;
  /** A rival turn that the plate shows instead of the chosen fit, degrees clockwise. */
  readonly rivalTurnDeg: number | null;
  /** This page is a saved comparison by itself: nothing can be brought in or worked out. */
  readonly offline: boolean;
}

export const useStore = create<State>()(() => ({
  history: historyOf(emptyDocument),
  faces: {},
  comparison: null,
  held: null,
  opened: null,
  step: 'compare',
  hand: 'look',
  scheme: 'system',
  margin: true,
  keysShown: false,
  faceId: null,
  selectedMark: null,
  selectedLandmark: null,
  landmarkDrag: null,
  wearPointed: null,
  wornPart: null,
  pointedMark: null,
  ground: null,
  standIn: null,
  handLamp: null,
  pointed: null,
  notice: null,
  remedy: null,
  left: null,
  restored: false,
  presenting: null,
  presentingPart: 0,
  speaker: null,
  profileAt: null,
  turnDeg: 0,
  shadows: null,
  rivalTurnDeg: null,
  offline: false,
}));

export const { getState, setState } = useStore;
export const documentNow = (): Document => getState().history.present;
export const useDocument = <T>(pick: (document: Document) => T): T => useStore((state) => pick(state.history.present));

/** One act of the user, in words that the undo button can repeat. */
export function act(words: string, change: (document: Document) => Document, merge: string | null = null): void {
  setState(({ history }) => ({ history: acted(history, change(history.present), words, merge) }));
}

export function actOnView(words: string, change: Partial<PlateView>, merge: string | null = null): void {
  setState(({ standIn, handLamp }) => ({
    standIn: standIn && without(standIn, Object.keys(change)),
    handLamp: change.lamp ? null : handLamp,
  }));
  act(words, (document) => ({ ...document, view: { ...document.view, ...change } }), merge);
}

const without = (standIn: Partial<PlateView>, moved: readonly string[]): Partial<PlateView> =>
  Object.fromEntries(Object.entries(standIn).filter(([name]) => !moved.includes(name)));

/** What follows from an act once its work is done belongs to that act: undo takes both back at once. */
export function amend(change: (document: Document) => Document): void {
  setState((state) => {
    const present = change(state.history.present);
    return present === state.history.present ? state : { history: { ...state.history, present } };
  });
}

export const settle = (): void => setState(({ history }) => ({ history: settled(history) }));
export const undo = (): void => setState(({ history }) => ({ history: undone(history) }));
export const redo = (): void => setState(({ history }) => ({ history: redone(history) }));
export const notify = (notice: string | null, remedy: Remedy | null = null): void => setState({ notice, remedy });
