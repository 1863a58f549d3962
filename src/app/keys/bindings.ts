import { toggleLandmarks } from '../compare/Landmarks.tsx';
import { toggleMarking } from '../fit/ByHand.tsx';
import { turnedLamp } from '../plate/ring.ts';
import { leaveShow, nextSlide, previousSlide } from '../show/present.ts';
import { type Camera, type Room, restingCamera, steps } from '../state/document.ts';
import { viewNow } from '../state/ground.ts';
import { actOnView, documentNow, getState, redo, setState, undo } from '../state/store.ts';
import { turnDegNow } from '../state/upright.ts';

export interface Binding {
  readonly keys: readonly string[];
  readonly command?: boolean;
  readonly shift?: boolean;
  /** As the sheet of keys prints it. */
  readonly print: string;
  readonly does: string;
  run(): void;
}

const camera = (change: (camera: Camera) => Partial<Camera>) => (): void => {
  const now = documentNow().view.camera;
  actOnView('Plate moved', { camera: { ...now, ...change(now) } }, 'camera');
};
const lamp = (azimuth: number, height: number) => (): void =>
  actOnView('Lamp moved', { lamp: turnedLamp(viewNow().lamp, azimuth, height) }, 'lamp');
/** To the right and up as seen, whatever the turn that brings the design upright. */
const pan = (x: number, y: number) =>
  camera((now) => {
    const a = (turnDegNow() * Math.PI) / 180;
    const [right, up] = [x / now.zoom, y / now.zoom];
    return { x: now.x + right * Math.cos(a) - up * Math.sin(a), y: now.y + right * Math.sin(a) + up * Math.cos(a) };
  });
const tip = (tipDeg: number, swingDeg: number) =>
  camera((now) => ({ tipDeg: now.tipDeg + tipDeg, swingDeg: now.swingDeg + swingDeg }));

function putDown(): void {
  if (getState().presenting !== null) leaveShow();
  else setState({ hand: 'look', selectedMark: null, selectedLandmark: null });
}

function markPlaces(): void {
  setState({ step: 'fit', margin: true });
  toggleMarking();
}

function correctLandmarks(): void {
  setState({ step: 'compare', margin: true });
  toggleLandmarks();
}

function turnLeaf(): void {
  const { view } = documentNow();
  actOnView('Turned the leaf', { look: 'turn', onTop: view.onTop === 'reference' ? 'subject' : 'reference' }, 'turn');
}

function pageOr(turn: () => void, otherwise?: () => void): () => void {
  return () => (getState().presenting === null ? otherwise?.() : turn());
}

/** Every key. The lamp's are the hours of the rim. */
export const bindings: readonly Binding[] = [
  { keys: [' '], print: 'page down, space', does: 'next view, in the seminar', run: pageOr(nextSlide) },
  {
    keys: ['ArrowLeft'],
    shift: false,
    print: '← → ↑ ↓',
    does: 'move the plate (next and before in the seminar)',
    run: pageOr(previousSlide, pan(-2, 0)),
  },
  { keys: ['ArrowRight'], shift: false, print: '', does: '', run: pageOr(nextSlide, pan(2, 0)) },
  { keys: ['ArrowUp'], shift: false, print: '', does: '', run: pan(0, 2) },
  { keys: ['ArrowDown'], shift: false, print: '', does: '', run: pan(0, -2) },
  { keys: ['ArrowLeft'], shift: true, print: 'shift with ← → ↑ ↓', does: 'tip the face', run: tip(0, -5) },
  { keys: ['ArrowRight'], shift: true, print: '', does: '', run: tip(0, 5) },
  { keys: ['ArrowUp'], shift: true, print: '', does: '', run: tip(-5, 0) },
  { keys: ['ArrowDown'], shift: true, print: '', does: '', run: tip(5, 0) },
  { keys: ['+', '='], print: '+', does: 'larger', run: camera((now) => ({ zoom: Math.min(40, now.zoom * 1.2) })) },
  { keys: ['-'], print: '−', does: 'smaller', run: camera((now) => ({ zoom: Math.max(0.4, now.zoom / 1.2) })) },
  { keys: ['Home'], print: 'home', does: 'lay the plate straight', run: camera(() => restingCamera) },
  ...[1, 2, 3, 4, 5, 6, 7, 8, 9, 0].map((hour) => ({
    keys: [`${hour}`],
    print: hour === 1 ? '1 … 9, 0' : '',
    does: 'the lamp goes to that hour; 0 is twelve o’clock',
    run: () => actOnView('Lamp moved', { lamp: { ...viewNow().lamp, azimuthDeg: 30 * hour } }, 'lamp'),
  })),
  { keys: ['PageUp'], print: '', does: '', run: pageOr(previousSlide, lamp(0, 5)) },
  { keys: ['PageDown'], print: '', does: '', run: pageOr(nextSlide, lamp(0, -5)) },
  { keys: ['t'], print: 't', does: 'turn the leaf: a and b, or two dates, in one place', run: turnLeaf },
  {
    keys: ['e'],
    print: 'e',
    does: 'engraved face as it is, or as its impression',
    run: () =>
      actOnView('Engraved face shown otherwise', {
        engraved: documentNow().view.engraved === 'asIs' ? 'asImpression' : 'asIs',
      }),
  },
  {
    keys: ['o'],
    print: 'o',
    does: 'pointers to marks on or off',
    run: () => actOnView('Outlines', { outlines: !documentNow().view.outlines }),
  },
  { keys: ['x'], print: 'x', does: 'draw a section', run: () => setState({ hand: 'section' }) },
  { keys: ['r'], print: 'r', does: 'mark a region', run: () => setState({ hand: 'mark' }) },
  { keys: ['p'], print: 'p', does: 'mark places on both seals, for the fit', run: markPlaces },
  { keys: ['k'], print: 'k', does: 'landmarks on or off, to correct them', run: correctLandmarks },
  { keys: ['Escape'], print: 'esc', does: 'put the tool down; leave the seminar', run: putDown },
  { keys: ['z'], command: true, shift: false, print: 'ctrl z', does: 'undo', run: undo },
  { keys: ['z'], command: true, shift: true, print: 'ctrl shift z', does: 'redo', run: redo },
  { keys: ['y'], command: true, print: '', does: '', run: redo },
  { keys: ['['], print: '[  ]', does: 'step before, next step', run: () => stepBy(-1) },
  { keys: [']'], print: '', does: '', run: () => stepBy(1) },
  { keys: ['m'], print: 'm', does: 'margin on or off', run: () => setState((s) => ({ margin: !s.margin })) },
  // These are read where the hand is: on the legend strip.
  {
    keys: [],
    print: 'on the strip',
    does: 'letters write; ? [ < { & ! - . ( say how a letter stands',
    run: () => undefined,
  },
  {
    keys: [],
    print: '← →  shift ← →',
    does: 'on the strip: from letter to letter, the pen alone',
    run: () => undefined,
  },
  { keys: ['?'], print: '?', does: 'this sheet', run: () => setState((s) => ({ keysShown: !s.keysShown })) },
];

function stepBy(by: number): void {
  // From the front door, and from two dates, the first step is the next.
  const at = (steps as readonly Room[]).indexOf(getState().step) + by;
  setState({ step: steps[Math.min(steps.length - 1, Math.max(0, at))] });
}
