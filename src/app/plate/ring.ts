import type { Vec2 } from '../../core/geometry/index.ts';
import type { Picture } from '../scene/Painter.tsx';
import type { Lamp } from '../state/document.ts';
import { edgeAt } from './imageEdge.ts';
import { toPixels } from './project.ts';

/** Lamp heights that the ring can give, degrees, and how far beyond the rim they stand, pixels. */
const lowestDeg = 2;
const highestDeg = 85;
const nearestPx = 8;
const farthestPx = 32;
const sectors = 144;

/** Distance of the rim from the middle of the pane by direction: one number for every 2.5°, smoothed. */
export interface Ring {
  readonly centre: Vec2;
  readonly rimPx: readonly number[];
}

export function ringOf(picture: Picture): Ring {
  const { projection, edge, pane, mirror } = picture;
  const centre = toPixels(projection, 0, 0);
  const rim = new Array<number>(sectors).fill(0);
  for (let i = 0; i < 4 * sectors; i++) {
    const a = (i / (4 * sectors)) * 2 * Math.PI;
    const r = edgeAt(edge, a);
    const x = r * Math.sin(a);
    const [px, py] = toPixels(projection, mirror ? -x : x, r * Math.cos(a));
    const [dx, dy] = [px - centre[0], centre[1] - py];
    const sector = Math.round(((Math.atan2(dx, dy) / (2 * Math.PI)) * sectors + sectors) % sectors) % sectors;
    rim[sector] = Math.max(rim[sector], Math.hypot(dx, dy));
  }
  return insidePane(widened(rim), centre, pane);
}

/** Gaps filled from the neighbours and corners rounded, so that the ring runs smoothly outside the rim. */
function widened(rim: readonly number[]): number[] {
  const around = (values: readonly number[], i: number, reach: number) =>
    Array.from({ length: 2 * reach + 1 }, (_, k) => values[(i + k - reach + sectors) % sectors]);
  const most = rim.map((_, i) => Math.max(...around(rim, i, 5)));
  return [1, 2].reduce((values) => values.map((_, i) => mean(around(values, i, 5))), most);
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Where the face does not lie whole in its pane, the ring is a circle in the middle of the pane. */
function insidePane(rim: readonly number[], centre: Vec2, { x, y, width, height }: Picture['pane']): Ring {
  const whole = rim.every((r, i) => {
    const a = (i / sectors) * 2 * Math.PI;
    const reach = r + farthestPx;
    const [px, py] = [centre[0] + reach * Math.sin(a), centre[1] - reach * Math.cos(a)];
    return px > x - 4 && px < x + width + 4 && py > y - 14 && py < y + height + 14;
  });
  if (whole) return { centre, rimPx: rim };
  const radius = Math.max(40, Math.min(width, height) / 2 - farthestPx - 16);
  return { centre: [x + width / 2, y + height / 2], rimPx: rim.map(() => radius) };
}

export function rimAt(ring: Ring, azimuthDeg: number): number {
  const at = (((azimuthDeg % 360) + 360) % 360) / (360 / sectors);
  const low = Math.floor(at);
  const part = at - low;
  return ring.rimPx[low % sectors] * (1 - part) + ring.rimPx[(low + 1) % sectors] * part;
}

/** A lamp high above the face stands near the rim, a raking one far out, in even steps. */
export const beyondRim = (heightDeg: number): number =>
  farthestPx - ((heightDeg - lowestDeg) / (highestDeg - lowestDeg)) * (farthestPx - nearestPx);

export function lampPlace(ring: Ring, lamp: Lamp): Vec2 {
  const a = (lamp.azimuthDeg * Math.PI) / 180;
  const r = rimAt(ring, lamp.azimuthDeg) + beyondRim(lamp.heightDeg);
  return [ring.centre[0] + r * Math.sin(a), ring.centre[1] - r * Math.cos(a)];
}

/** The lamp that stands where the hand is, in whole degrees. */
export function lampAt(ring: Ring, x: number, y: number): Lamp {
  const [dx, dy] = [x - ring.centre[0], ring.centre[1] - y];
  const azimuthDeg = Math.round(((Math.atan2(dx, dy) * 180) / Math.PI + 360) % 360) % 360;
  const beyond = Math.hypot(dx, dy) - rimAt(ring, azimuthDeg);
  const part = (farthestPx - beyond) / (farthestPx - nearestPx);
  return {
    azimuthDeg,
    heightDeg: Math.round(clamp(lowestDeg + part * (highestDeg - lowestDeg), lowestDeg, highestDeg)),
  };
}

/**
 * The lamp that a hand carries over the seal, in whole degrees: right above in the middle it stands 75° high, out at the rim and beyond it
 * rakes at 12°.
 */
export function lampOver(ring: Ring, x: number, y: number): Lamp {
  const [dx, dy] = [x - ring.centre[0], ring.centre[1] - y];
  const azimuthDeg = Math.round(((Math.atan2(dx, dy) * 180) / Math.PI + 360) % 360) % 360;
  const out = Math.min(1, Math.hypot(dx, dy) / (rakingAt * rimAt(ring, azimuthDeg)));
  return { azimuthDeg, heightDeg: Math.round(overDeg - (overDeg - rakingDeg) * out) };
}

const overDeg = 75;
const rakingDeg = 12;
/** Where it rakes, against the rim. */
const rakingAt = 1.1;

/** Where a hand carries that lamp. */
export function handPlace(ring: Ring, { azimuthDeg, heightDeg }: Lamp): Vec2 {
  const a = (azimuthDeg * Math.PI) / 180;
  const out = clamp((overDeg - heightDeg) / (overDeg - rakingDeg), 0, 1) * rakingAt * rimAt(ring, azimuthDeg);
  return [ring.centre[0] + out * Math.sin(a), ring.centre[1] - out * Math.cos(a)];
}

/** The ring through the lamp as an SVG path. */
export function ringPath(ring: Ring, beyondPx: number): string {
  const points: string[] = [];
  for (let deg = 0; deg < 360; deg += 2.5) {
    const a = (deg * Math.PI) / 180;
    const r = rimAt(ring, deg) + beyondPx;
    points.push(`${(ring.centre[0] + r * Math.sin(a)).toFixed(1)} ${(ring.centre[1] - r * Math.cos(a)).toFixed(1)}`);
  }
  return `M${points.join('L')}Z`;
}

export const turnedLamp = (lamp: Lamp, azimuthBy: number, heightBy: number): Lamp => ({
  azimuthDeg: (((lamp.azimuthDeg + azimuthBy) % 360) + 360) % 360,
  heightDeg: clamp(lamp.heightDeg + heightBy, lowestDeg, highestDeg),
});

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));
