import { type RefObject, useEffect, useMemo, useRef } from 'react';
import type { StripPlaces } from '../../../workers/browser/readingProtocol.ts';
import { letterMm } from '../state/current.ts';
import { readNow, setRead, useRead } from '../state/readStore.ts';

/** How a strip lies in its window: millimetres along it against pixels from the window's left. */
export interface StripScale {
  readonly widthPx: number;
  readonly pxPerMm: number;
  readonly leftMm: number;
  readonly lengthMm: number;
}

/** Letters as high as is comfortable, or as the user enlarged them. */
const comfortablePx = 64;
const stackedPx = 44;

export function useStripScale(places: StripPlaces | null, widthPx: number, stacked: boolean): StripScale | null {
  const { pxPerMm: set, leftMm } = useRead((state) => state.window);
  const scale = useMemo(() => {
    if (!places || widthPx === 0) return null;
    const lengthMm = places.grid.width * places.grid.pitch;
    const usual = (stacked ? stackedPx : comfortablePx) / letterMm(places.band);
    const pxPerMm = Math.max(set ?? usual, widthPx / lengthMm);
    const most = Math.max(0, lengthMm - widthPx / pxPerMm);
    return { widthPx, pxPerMm, leftMm: Math.min(most, Math.max(0, leftMm)), lengthMm };
  }, [places, widthPx, stacked, set, leftMm]);
  useEffect(() => {
    setRead({ seen: scale && [scale.leftMm, scale.leftMm + scale.widthPx / scale.pxPerMm] });
  }, [scale]);
  return scale;
}

export const xOnStrip = (scale: StripScale, alongMm: number): number => (alongMm - scale.leftMm) * scale.pxPerMm;
export const alongAtX = (scale: StripScale, x: number): number => scale.leftMm + x / scale.pxPerMm;

export function moveWindow(scale: StripScale, byPx: number): void {
  setRead({ window: { pxPerMm: readNow().window.pxPerMm, leftMm: scale.leftMm + byPx / scale.pxPerMm } });
}

export function zoomWindow(scale: StripScale, factor: number, atPx = scale.widthPx / 2): void {
  const whole = scale.widthPx / scale.lengthMm;
  const pxPerMm = Math.min(400, Math.max(whole, scale.pxPerMm * factor));
  const at = alongAtX(scale, atPx);
  setRead({ window: { pxPerMm, leftMm: at - atPx / pxPerMm } });
}

/** The pen stays to be seen. */
export function usePenInSight(scale: StripScale | null, alongMm: number): void {
  const latest = useRef(scale);
  latest.current = scale;
  useEffect(() => {
    const now = latest.current;
    if (!now) return;
    const x = xOnStrip(now, alongMm);
    if (x < 0.04 * now.widthPx) moveWindow(now, x - 0.3 * now.widthPx);
    else if (x > 0.92 * now.widthPx) moveWindow(now, x - 0.4 * now.widthPx);
  }, [alongMm]);
}

/** The wheel enlarges about the hand; sideways it moves along. */
export function useStripWheel(element: RefObject<HTMLElement | null>, scale: StripScale | null): void {
  const latest = useRef(scale);
  latest.current = scale;
  useEffect(() => {
    const node = element.current;
    if (!node) return;
    const onWheel = (event: WheelEvent): void => {
      const now = latest.current;
      if (!now) return;
      event.preventDefault();
      const sideways = event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY);
      if (sideways) moveWindow(now, event.deltaX || event.deltaY);
      else zoomWindow(now, Math.exp(-event.deltaY * 0.0016), event.clientX - node.getBoundingClientRect().left);
    };
    node.addEventListener('wheel', onWheel, { passive: false });
    return () => node.removeEventListener('wheel', onWheel);
  }, [element]);
}
