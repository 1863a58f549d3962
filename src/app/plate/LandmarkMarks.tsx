import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import type { Vec2 } from '../../core/geometry/index.ts';
import type { Picture } from '../scene/Painter.tsx';
import { moveLandmark, removeLandmark, type ShownLandmark, useLandmarks } from '../state/landmarks.ts';
import { getState, setState, settle, useStore } from '../state/store.ts';
import { toPixels, toPlate } from './project.ts';

/**
 * The landmarks on one pane. A ring is seen on both and where the others put it, a diamond is not where they put it, a
 * cross is not seen on the subject. One of them is in the way of the tab key; page keys go from one to the next.
 */
export function LandmarkMarks({ picture, flip }: { picture: Picture; flip: 1 | -1 }) {
  const shown = useLandmarks();
  const selected = useStore((state) => state.selectedLandmark);
  const fixed = useStore((state) => state.offline);
  return (
    <g className={fixed ? 'landmarks fixed' : 'landmarks'}>
      {shown.map((landmark, i) => (
        <LandmarkMark
          // biome-ignore lint/suspicious/noArrayIndexKey: a landmark is its place in the list
          key={i}
          count={shown.length}
          landmark={landmark}
          index={i}
          picture={picture}
          flip={flip}
          selected={i === selected}
          reached={i === Math.min(selected ?? 0, shown.length - 1)}
        />
      ))}
    </g>
  );
}

const shapes: Readonly<Record<ShownLandmark['how'], string>> = {
  agrees: 'M-4 0A4 4 0 1 0 4 0A4 4 0 1 0 -4 0',
  off: 'M0 -5.5L5.5 0L0 5.5L-5.5 0Z',
  unseen: 'M-4 -4L4 4M-4 4L4 -4',
  new: 'M-4 0A4 4 0 1 0 4 0A4 4 0 1 0 -4 0M-1 0H1M0 -1V1',
};

export const howWords: Readonly<Record<ShownLandmark['how'], string>> = {
  agrees: 'where the others put it',
  off: 'not where the others put it',
  unseen: 'not seen on b',
  new: 'not looked at yet',
};

interface MarkProps {
  readonly count: number;
  readonly landmark: ShownLandmark;
  readonly index: number;
  readonly picture: Picture;
  readonly flip: 1 | -1;
  readonly selected: boolean;
  readonly reached: boolean;
}

function LandmarkMark(props: MarkProps) {
  const { landmark, index, picture, flip, selected, reached } = props;
  const events = useLandmarkHand(props);
  const [x, y] = placeOnPlate(landmark, picture, flip);
  const [px, py] = toPixels(picture.projection, x, y);
  const side = picture.pane.role === 'reference' ? 'a' : 'b';
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button cannot stand inside a drawing
    <g
      className={selected ? 'landmark selected' : 'landmark'}
      data-landmark={`${side} ${index}`}
      transform={`translate(${px.toFixed(1)} ${py.toFixed(1)})`}
      role="button"
      tabIndex={reached ? 0 : -1}
      aria-label={`Landmark ${index + 1} on ${side}, ${howWords[landmark.how]}: arrows move it, page keys go to the next, delete removes it`}
      {...events}
    >
      <circle className="place-reach" r={11} />
      <path className="halo" d={shapes[landmark.how]} />
      <path d={shapes[landmark.how]} />
      <text className="landmark-number" x={8} y={-6}>
        {index + 1}
      </text>
    </g>
  );
}

/** Where it lies on the pane's face, plate mm: on the subject where it was found there. */
function placeOnPlate({ at, placed }: ShownLandmark, picture: Picture, flip: 1 | -1): Vec2 {
  const onSubject = picture.pane.role === 'subject' && placed;
  const [x, y] = onSubject ? [at[0] + placed.dx, at[1] + placed.dy] : at;
  return [picture.mirror ? -flip * x : flip * x, y];
}

/** A drag begins where the hand has moved so far, in pixels. */
const dragFromPx = 3;

/** Mouse, touch and keys on one landmark. A drag is one act, made where it ends. */
function useLandmarkHand({ landmark, index, picture, flip, count }: MarkProps) {
  const down = useRef<{ readonly px: Vec2; readonly place: Vec2; readonly at: Vec2 } | null>(null);
  const fixed = useStore((state) => state.offline);
  const across = picture.mirror ? -flip : flip;
  const place = (event: PointerEvent): Vec2 => {
    const box = event.currentTarget.closest('svg')?.getBoundingClientRect();
    const [x, y] = toPlate(picture.projection, event.clientX - (box?.left ?? 0), event.clientY - (box?.top ?? 0));
    return [across * x, y];
  };
  const letGo = (): void => {
    down.current = null;
    setState({ landmarkDrag: null });
  };
  return {
    onPointerDown(event: PointerEvent): void {
      event.stopPropagation();
      setState({ selectedLandmark: index });
      if (fixed || event.button !== 0) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      down.current = { px: [event.clientX, event.clientY], place: place(event), at: landmark.at };
    },
    onPointerMove(event: PointerEvent): void {
      if (!down.current) return;
      event.stopPropagation();
      const { px, place: from, at } = down.current;
      const moved = Math.hypot(event.clientX - px[0], event.clientY - px[1]);
      if (moved < dragFromPx && getState().landmarkDrag === null) return;
      const now = place(event);
      setState({ landmarkDrag: { index, at: [at[0] + now[0] - from[0], at[1] + now[1] - from[1]] } });
    },
    onPointerUp(event: PointerEvent): void {
      event.stopPropagation();
      const { landmarkDrag } = getState();
      letGo();
      if (landmarkDrag?.index !== index) return;
      settle();
      moveLandmark(index, landmarkDrag.at);
      settle();
    },
    onPointerCancel: letGo,
    onFocus: () => setState({ selectedLandmark: index }),
    onBlur: settle,
    onKeyDown(event: KeyboardEvent): void {
      if (!onKey(event, { at: landmark.at, count, index, across, fixed })) return;
      event.preventDefault();
      event.stopPropagation();
    },
  };
}

interface KeyPlace {
  readonly at: Vec2;
  readonly index: number;
  readonly count: number;
  readonly across: number;
  readonly fixed: boolean;
}

/** True where the key meant this landmark. */
function onKey(event: KeyboardEvent, { at, index, count, across, fixed }: KeyPlace): boolean {
  const side = event.currentTarget.getAttribute('data-landmark')?.split(' ')[0] ?? 'a';
  const turn = { PageDown: 1, PageUp: -1 }[event.key];
  if (turn) {
    focusLandmark(side, (index + turn + count) % count);
    return true;
  }
  if (fixed) return false;
  if (event.key === 'Delete' || event.key === 'Backspace') {
    removeLandmark(index);
    requestAnimationFrame(() => focusLandmark(side, Math.min(index, count - 2)));
    return true;
  }
  const mm = event.shiftKey ? 1 : 0.1;
  const seen = { ArrowLeft: [-mm, 0], ArrowRight: [mm, 0], ArrowUp: [0, mm], ArrowDown: [0, -mm] }[event.key];
  if (!seen) return false;
  moveLandmark(index, [at[0] + across * seen[0], at[1] + seen[1]]);
  return true;
}

const focusLandmark = (side: string, index: number): void =>
  document.querySelector<SVGElement>(`[data-landmark="${side} ${index}"]`)?.focus();
