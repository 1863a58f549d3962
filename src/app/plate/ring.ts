import { apply, type Similarity, type Vec2 } from '../../core/geometry/index.ts';
import type { Picture } from '../scene/Painter.tsx';
import type { Lamp } from '../state/document.ts';
import { toPixels } from './project.ts';

/** Lamp heights that the ring can give, degrees, and how far beyond the rim they stand, pixels. */
const lowestDeg = 2;
const highestDeg = 85;
const nearestPx = 12;
const farthestPx = 50;
const sectors = 72;

/** Distance of the rim from the middle of the pane by direction: one number for every 5°, smoothed. */
export interface Ring {
  readonly centre: Vec2;
  readonly rimPx: readonly number[];
}

export function ringOf(picture: Picture): Ring {
  const { projection, face, plateFromFace, pane } = picture;
  const centre = toPixels(projection, 0, 0);
  const rim = new Array<number>(sectors).fill(0);
  const points = face.outline.polygon;
  for (let i = 0; i < points.length; i += 2) {
    const [x, y] = rimPoint(plateFromFace, points[i], points[i + 1], projection);
    const [dx, dy] = [x - centre[0], centre[1] - y];
    const sector = Math.round(((Math.atan2(dx, dy) / (2 * Math.PI)) * sectors + sectors) % sectors) % sectors;
    rim[sector] = Math.max(rim[sector], Math.hypot(dx, dy));
  }
  return { centre, rimPx: limited(widened(rim), centre, pane) };
}

function rimPoint(plateFromFace: Similarity, x: number, y: number, projection: Picture['projection']): Vec2 {
  const [px, py] = apply(plateFromFace, [x, y, 0]);
  return toPixels(projection, px, py);
}

/** Gaps filled from the neighbours and corners rounded, so that the ring runs smoothly outside the rim. */
function widened(rim: readonly number[]): number[] {
  const around = (i: number) => [-2, -1, 0, 1, 2].map((k) => rim[(i + k + sectors) % sectors]);
  const most = rim.map((_, i) => Math.max(...around(i)));
  return most.map((_, i) => {
    const near = [-1, 0, 1].map((k) => most[(i + k + sectors) % sectors]);
    return (near[0] + 2 * near[1] + near[2]) / 4;
  });
}

/** The ring stays inside its pane when the face is larger than the pane. */
function limited(rim: readonly number[], centre: Vec2, pane: Picture['pane']): number[] {
  const inset = farthestPx + 10;
  return rim.map((r, i) => {
    const a = (i / sectors) * 2 * Math.PI;
    const [dx, dy] = [Math.sin(a), -Math.cos(a)];
    const toSide = dx > 0 ? pane.x + pane.width - inset - centre[0] : centre[0] - pane.x - inset;
    const toEnd = dy > 0 ? pane.y + pane.height - inset - centre[1] : centre[1] - pane.y - inset;
    const room = Math.min(toSide / Math.max(1e-6, Math.abs(dx)), toEnd / Math.max(1e-6, Math.abs(dy)));
    return Math.max(30, Math.min(r, room));
  });
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
