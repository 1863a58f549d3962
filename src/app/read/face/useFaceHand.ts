import { type KeyboardEvent, type PointerEvent, type RefObject, useEffect, useRef } from 'react';
import type { Vec2 } from '../../../core/geometry/index.ts';
import { type Projection, toPlate, zoomedAt } from '../../plate/project.ts';
import { readNow, restingFaceCamera, setRead } from '../state/readStore.ts';

/** The hand on the face: drag moves it, wheel and pinch enlarge, a double click lays it straight; keys do the same. */
export function useFaceHand(
  element: RefObject<HTMLElement | null>,
  projection: Projection,
  point: (x: number, y: number) => void,
) {
  const latest = useRef(projection);
  latest.current = projection;
  const touches = useRef(new Map<number, Vec2>());
  useWheel(element, latest);
  const px = (event: { clientX: number; clientY: number }): Vec2 => placeOn(element.current, event);
  return {
    onPointerDown(event: PointerEvent) {
      touches.current.set(event.pointerId, [event.clientX, event.clientY]);
      element.current?.setPointerCapture(event.pointerId);
    },
    onPointerMove(event: PointerEvent) {
      point(...toPlate(latest.current, ...px(event)));
      const before = touches.current.get(event.pointerId);
      if (!before) return;
      const now: Vec2 = [event.clientX, event.clientY];
      if (touches.current.size === 2) pinch(touches.current, event.pointerId, now, latest.current, px(event));
      else if (event.buttons & 1) pan(latest.current, now[0] - before[0], now[1] - before[1]);
      touches.current.set(event.pointerId, now);
    },
    onPointerUp(event: PointerEvent) {
      touches.current.delete(event.pointerId);
    },
    onPointerLeave: () => setRead({ hovered: null }),
    onDoubleClick: () => setRead({ camera: restingFaceCamera }),
    onKeyDown: (event: KeyboardEvent) => onKey(event, latest.current),
  };
}

function onKey(event: KeyboardEvent, projection: Projection): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const step = 2 * projection.pxPerMm;
  const middle: Vec2 = [projection.centreX, projection.centreY];
  const way = ways[event.key];
  if (way) pan(projection, way[0] * step, way[1] * step);
  else if (event.key === '+' || event.key === '=') zoom(projection, middle, 1.2);
  else if (event.key === '-') zoom(projection, middle, 1 / 1.2);
  else if (event.key === '0') setRead({ camera: restingFaceCamera });
  else return;
  event.preventDefault();
}

const ways: Readonly<Record<string, Vec2>> = {
  ArrowLeft: [1, 0],
  ArrowRight: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

function placeOn(element: HTMLElement | null, event: { clientX: number; clientY: number }): Vec2 {
  const box = element?.getBoundingClientRect();
  return [event.clientX - (box?.left ?? 0), event.clientY - (box?.top ?? 0)];
}

function pan(projection: Projection, dx: number, dy: number): void {
  const { camera } = readNow();
  const [from, to] = [toPlate(projection, 0, 0), toPlate(projection, dx, dy)];
  setRead({ camera: { ...camera, x: camera.x - (to[0] - from[0]), y: camera.y - (to[1] - from[1]) } });
}

function zoom(projection: Projection, px: Vec2, factor: number): void {
  const { x, y, zoom: z } = zoomedAt(projection, px[0], px[1], factor);
  setRead({ camera: { x, y, zoom: z } });
}

function pinch(touches: ReadonlyMap<number, Vec2>, moved: number, now: Vec2, projection: Projection, at: Vec2): void {
  const other = [...touches].find(([id]) => id !== moved)?.[1];
  const before = touches.get(moved);
  if (!other || !before) return;
  const spread = (p: Vec2): number => Math.hypot(p[0] - other[0], p[1] - other[1]);
  zoom(projection, at, spread(now) / Math.max(1, spread(before)));
}

/** The wheel must be listened to actively, or the page would scroll. */
function useWheel(element: RefObject<HTMLElement | null>, latest: RefObject<Projection>): void {
  useEffect(() => {
    const node = element.current;
    if (!node) return;
    const onWheel = (event: WheelEvent): void => {
      event.preventDefault();
      zoom(latest.current, placeOn(node, event), Math.exp(-event.deltaY * 0.0016));
    };
    node.addEventListener('wheel', onWheel, { passive: false });
    return () => node.removeEventListener('wheel', onWheel);
  }, [element, latest]);
}
