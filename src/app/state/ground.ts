import { useMemo } from 'react';
import type { Vec2 } from '../../core/geometry/index.ts';
import type { Ground, GroundCode } from '../../core/report/index.ts';
import type { Lamp, PlateView } from './document.ts';
import { isAtDoor, lampInHand, useAtDoor } from './door.ts';
import type { ShownMark } from './marks.ts';
import { usePair } from './select.ts';
import { documentNow, getState, setState, useDocument, useStore } from './store.ts';

/** The grounds of the finding on the plate, heaviest first; none where a file only states a finding. */
export const useGrounds = (): readonly Ground[] => usePair().comparison?.grounds ?? none;
const none: readonly Ground[] = [];

/** The ground that has taken over the plate. */
export function useGround(): Ground | null {
  const code = useStore((state) => state.ground);
  return useGrounds().find((ground) => ground.code === code) ?? null;
}

/** The view as the plate shows it: the user's, with what a ground sets for as long as it is pointed at. */
export function useView(): PlateView {
  const view = useDocument((document) => document.view);
  const standIn = useStore((state) => state.standIn);
  const lamp = useStore((state) => (lampInHand(state) ? state.handLamp : null));
  const atDoor = useAtDoor();
  return useMemo(() => viewOf(view, standIn, lamp, atDoor), [view, standIn, lamp, atDoor]);
}

export function viewNow(): PlateView {
  const state = getState();
  const atDoor = isAtDoor(state.step, documentNow());
  return viewOf(documentNow().view, state.standIn, lampInHand(state) ? state.handLamp : null, atDoor);
}

function viewOf(view: PlateView, standIn: Partial<PlateView> | null, lamp: Lamp | null, atDoor: boolean): PlateView {
  if (!(standIn || lamp || atDoor)) return view;
  return { ...view, ...(atDoor && oneSeal), ...standIn, ...(lamp && { lamp }) };
}

/** At the front door one seal stands alone. */
const oneSeal: Partial<PlateView> = { look: 'turn', onTop: 'reference', outlines: false, wear: null, section: null };

/** Gives the plate to a ground, or back to the user. */
export function showGround(ground: Ground | null, marks: readonly ShownMark[] = []): void {
  setState({ ground: ground?.code ?? null, standIn: ground && standInOf(ground, marks), selectedMark: null });
}

const looks: Partial<Record<GroundCode, PlateView['look']>> = { missing: 'difference', overlap: 'difference' };

function standInOf({ code, marks: ids }: Ground, marks: readonly ShownMark[]): Partial<PlateView> {
  const own = marks.filter(({ id }) => ids.includes(id));
  const lit = own.length > 0 && { lamp: lampAcross(own[0].outline, getState().turnDeg) };
  return { look: looks[code] ?? 'pair', wear: null, section: null, ...lit };
}

/** So low that a shallow mark throws a shadow. */
const rakingDeg = 12;

/** A raking lamp across the long axis of a shape on the plate, from the side nearer to the upper left. */
export function lampAcross(outline: readonly Vec2[], turnDeg: number): Lamp {
  const n = Math.max(1, outline.length);
  const [mx, my] = [0, 1].map((k) => outline.reduce((sum, at) => sum + at[k], 0) / n);
  let [xx, xy, yy] = [0, 0, 0];
  for (const [x, y] of outline) {
    xx += (x - mx) ** 2;
    xy += (x - mx) * (y - my);
    yy += (y - my) ** 2;
  }
  // Clockwise from up: the long axis, then a right angle.
  const along = (Math.atan2(xy * 2, yy - xx) / 2) * (180 / Math.PI);
  const across = [along + 90, along + 270].map((deg) => (((deg + turnDeg) % 360) + 360) % 360);
  const away = (deg: number): number => Math.abs(((deg - 315 + 540) % 360) - 180);
  const azimuthDeg = Math.round(away(across[0]) <= away(across[1]) ? across[0] : across[1]) % 360;
  return { azimuthDeg, heightDeg: rakingDeg };
}
