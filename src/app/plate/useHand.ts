import { type PointerEvent, type RefObject, useEffect, useRef } from 'react';
import { apply, invert, type Vec2 } from '../../core/geometry/index.ts';
import type { Picture } from '../scene/Painter.tsx';
import { markPlace } from '../state/byHand.ts';
import type { Camera } from '../state/document.ts';
import { addLandmark } from '../state/landmarks.ts';
import { actOnView, documentNow, getState, setState, settle } from '../state/store.ts';
import { paneAt } from './panes.ts';
import { mirroredCamera, toPlate, zoomedAt } from './project.ts';
import { lampOver, ringOf } from './ring.ts';

export interface HandEvents {
  onPointerDown(event: PointerEvent): void;
  onPointerMove(event: PointerEvent): void;
  onPointerUp(event: PointerEvent): void;
  onPointerLeave(): void;
  onDoubleClick(): void;
}

const setCamera = (camera: Camera): void => actOnView('Plate moved', { camera }, 'camera');

/**
 * The hand on the plate: drag moves the seals (or draws, where a tool is taken up), wheel and pinch enlarge, drag with
 * the right button or with Alt tips the face. Both panes move together. `flip`: from the plate to the reference's face.
 */
export function useHand(
  plate: RefObject<HTMLElement | null>,
  pictures: readonly Picture[],
  draw: (phase: 'start' | 'move' | 'end', at: Vec2) => void,
  flip: 1 | -1,
): HandEvents {
  const latest = useRef(pictures);
  latest.current = pictures;
  const touches = useRef(new Map<number, Vec2>());
  const wentDown = useRef<Vec2 | null>(null);
  useWheel(plate, latest);
  const place = (event: { clientX: number; clientY: number }): { picture: Picture; at: Vec2; px: Vec2 } | null =>
    placeOn(plate.current, latest.current, event);
  return {
    onPointerDown(event) {
      if (!event.isPrimary && event.pointerType !== 'touch') return;
      touches.current.set(event.pointerId, [event.clientX, event.clientY]);
      plate.current?.setPointerCapture(event.pointerId);
      wentDown.current = touches.current.size === 1 && event.button === 0 ? [event.clientX, event.clientY] : null;
      const found = place(event);
      if (found && draws() && event.button === 0) draw('start', found.at);
    },
    onPointerMove(event) {
      const found = place(event);
      if (carriesLamp(event) && found) {
        const handLamp = lampOver(ringOf(found.picture), found.px[0], found.px[1]);
        setState({ handLamp, pointed: null });
        return;
      }
      setState({ pointed: found ? [found.at[0], found.at[1]] : null });
      const before = touches.current.get(event.pointerId);
      if (!before) return;
      const now: Vec2 = [event.clientX, event.clientY];
      if (touches.current.size === 2) pinch(touches.current, event.pointerId, now, latest.current, plate.current);
      else if (draws() && event.buttons === 1) found && draw('move', found.at);
      else drag(event, [now[0] - before[0], now[1] - before[1]], found?.picture ?? latest.current[0]);
      touches.current.set(event.pointerId, now);
    },
    onPointerUp(event) {
      const drew = touches.current.size === 1 && draws() && event.button === 0;
      touches.current.delete(event.pointerId);
      const found = place(event);
      if (drew && found) draw('end', found.at);
      const down = wentDown.current;
      wentDown.current = null;
      const still = down && Math.hypot(event.clientX - down[0], event.clientY - down[1]) < stillPx;
      if (still && found && getState().hand === 'pairs') markPlace(found.picture.pane.role, onFace(found));
      if (still && found && getState().hand === 'landmarks') addLandmark([flip * found.at[0], found.at[1]]);
      settle();
    },
    onPointerLeave: () => setState({ pointed: null }),
    onDoubleClick: () => setCamera({ x: 0, y: 0, zoom: 1, tipDeg: 0, swingDeg: 0 }),
  };
}

/** At the front door the hand carries the lamp whatever it does; in the seminar as long as it does not draw the plate about. */
function carriesLamp({ pointerType, buttons }: PointerEvent): boolean {
  const { step, presenting } = getState();
  return step === 'door' || (presenting !== null && (buttons === 0 || pointerType === 'touch'));
}

/** A click that moved less than this marks a place; more moves the plate. */
const stillPx = 6;

/** Whether a drag draws; places are marked by clicks, and drags still move the plate. */
const draws = (): boolean => getState().hand === 'section' || getState().hand === 'mark';

/** The place in the face's own frame, mm. */
function onFace({ picture, at }: { picture: Picture; at: Vec2 }): Vec2 {
  const [x, y] = apply(invert(picture.plateFromFace), [picture.mirror ? -at[0] : at[0], at[1], 0]);
  return [x, y];
}

function placeOn(
  element: HTMLElement | null,
  pictures: readonly Picture[],
  event: { clientX: number; clientY: number },
) {
  if (!element) return null;
  const box = element.getBoundingClientRect();
  const px: Vec2 = [event.clientX - box.left, event.clientY - box.top];
  const pane = paneAt(
    pictures.map((picture) => picture.pane),
    px[0],
    px[1],
  );
  const picture = pictures.find((candidate) => candidate.pane === pane);
  if (!picture) return null;
  const [x, y] = toPlate(picture.projection, px[0], px[1]);
  return { picture, at: [picture.mirror ? -x : x, y] as Vec2, px };
}

function zoomedOn(picture: Picture, px: Vec2, factor: number): Camera {
  const camera = zoomedAt(picture.projection, px[0], px[1], factor);
  return picture.mirror ? mirroredCamera(camera) : camera;
}

function drag(event: PointerEvent, [right, dy]: Vec2, picture: Picture | undefined): void {
  if (!picture) return;
  const dx = picture.mirror ? -right : right;
  const { camera } = documentNow().view;
  if (event.buttons === 2 || event.altKey) {
    const tipDeg = Math.min(70, Math.max(-70, camera.tipDeg + dy * 0.3));
    const swingDeg = Math.min(70, Math.max(-70, camera.swingDeg + dx * 0.3));
    setCamera({ ...camera, tipDeg, swingDeg });
  } else if (event.buttons & 1) {
    const [from, to] = [toPlate(picture.projection, 0, 0), toPlate(picture.projection, right, dy)];
    const x = to[0] - from[0];
    setCamera({ ...camera, x: camera.x - (picture.mirror ? -x : x), y: camera.y - (to[1] - from[1]) });
  }
}

function pinch(
  touches: ReadonlyMap<number, Vec2>,
  moved: number,
  now: Vec2,
  pictures: readonly Picture[],
  plate: HTMLElement | null,
): void {
  const other = [...touches].find(([id]) => id !== moved)?.[1];
  const before = touches.get(moved);
  const found = placeOn(plate, pictures, { clientX: now[0], clientY: now[1] });
  if (!other || !before || !found) return;
  const spread = (p: Vec2): number => Math.hypot(p[0] - other[0], p[1] - other[1]);
  setCamera(zoomedOn(found.picture, found.px, spread(now) / Math.max(1, spread(before))));
}

/** The wheel must be listened to actively, or the page would scroll. */
function useWheel(plate: RefObject<HTMLElement | null>, pictures: RefObject<readonly Picture[]>): void {
  useEffect(() => {
    const element = plate.current;
    if (!element) return;
    const onWheel = (event: WheelEvent): void => {
      const found = placeOn(element, pictures.current, event);
      if (!found) return;
      event.preventDefault();
      setCamera(zoomedOn(found.picture, found.px, Math.exp(-event.deltaY * 0.0016)));
    };
    const noMenu = (event: Event): void => event.preventDefault();
    element.addEventListener('wheel', onWheel, { passive: false });
    element.addEventListener('contextmenu', noMenu);
    return () => {
      element.removeEventListener('wheel', onWheel);
      element.removeEventListener('contextmenu', noMenu);
    };
  }, [plate, pictures]);
}
