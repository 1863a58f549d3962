import type { Vec2 } from '../../core/geometry/index.ts';
import type { Camera } from '../state/document.ts';
import type { Pane } from './panes.ts';

/** Pixels that the lamp's ring, its labels and the captions need round a face that fills its pane. */
export const roundFacePx = 36;

/** The plate's frame on a pane: x right, y up the design, mm; pixels from the plate's upper left corner. */
export interface Projection {
  readonly pxPerMm: number;
  readonly centreX: number;
  readonly centreY: number;
  readonly camera: Camera;
  /** Turn of the picture against the plate that brings the design upright, degrees clockwise as seen. */
  readonly turnDeg: number;
}

const radians = Math.PI / 180;

export function projectionOf(
  pane: Pane,
  camera: Camera,
  faceWidthMm: number,
  faceHeightMm: number,
  turnDeg = 0,
): Projection {
  const width = Math.max(40, pane.width - 2 * roundFacePx);
  const height = Math.max(40, pane.height - 2 * roundFacePx);
  return {
    pxPerMm: camera.zoom * Math.min(width / faceWidthMm, height / faceHeightMm),
    centreX: pane.x + pane.width / 2,
    centreY: pane.y + pane.height / 2,
    camera,
    turnDeg,
  };
}

/**
 * Rows of the rotation that tips the face: first about the vertical (swing), then about the horizontal (tip).
 * Row-major, picture ← plate.
 */
export function tipMatrix({ tipDeg, swingDeg }: Camera): number[] {
  const [ct, st] = [Math.cos(tipDeg * radians), Math.sin(tipDeg * radians)];
  const [cs, ss] = [Math.cos(swingDeg * radians), Math.sin(swingDeg * radians)];
  return [cs, 0, ss, st * ss, ct, -st * cs, -ct * ss, st, ct * cs];
}

/** Rows of the whole rotation, picture ← plate: the turn upright, then the tip. */
export function pictureFromPlate({ camera, turnDeg }: Pick<Projection, 'camera' | 'turnDeg'>): number[] {
  const m = tipMatrix(camera);
  const [c, s] = [Math.cos(turnDeg * radians), Math.sin(turnDeg * radians)];
  // Clockwise: (x, y) → (c x + s y, −s x + c y).
  return [0, 3, 6].flatMap((row) => [m[row] * c - m[row + 1] * s, m[row] * s + m[row + 1] * c, m[row + 2]]);
}

/** Plate mm → pixels. */
export function toPixels(p: Projection, x: number, y: number, z = 0): Vec2 {
  const m = pictureFromPlate(p);
  const [dx, dy] = [x - p.camera.x, y - p.camera.y];
  const u = m[0] * dx + m[1] * dy + m[2] * z;
  const v = m[3] * dx + m[4] * dy + m[5] * z;
  return [p.centreX + u * p.pxPerMm, p.centreY - v * p.pxPerMm];
}

/** Pixels → the place on the plane z = 0 of the plate, mm. */
export function toPlate(p: Projection, pixelX: number, pixelY: number): Vec2 {
  const m = pictureFromPlate(p);
  const u = (pixelX - p.centreX) / p.pxPerMm;
  const v = (p.centreY - pixelY) / p.pxPerMm;
  const determinant = m[0] * m[4] - m[1] * m[3];
  const dx = (m[4] * u - m[1] * v) / determinant;
  const dy = (m[0] * v - m[3] * u) / determinant;
  return [p.camera.x + dx, p.camera.y + dy];
}

/** The camera after zooming by `factor` with the place under the pixel kept there. */
export function zoomedAt(p: Projection, pixelX: number, pixelY: number, factor: number): Camera {
  const zoom = Math.min(40, Math.max(0.4, p.camera.zoom * factor));
  const [x, y] = toPlate(p, pixelX, pixelY);
  const keep = p.camera.zoom / zoom;
  return { ...p.camera, zoom, x: x + (p.camera.x - x) * keep, y: y + (p.camera.y - y) * keep };
}

/** A round length (1, 2 or 5 times a power of ten) of at most `mostPx` on the screen. */
export function scaleBarMm(pxPerMm: number, mostPx: number): number {
  const most = mostPx / pxPerMm;
  const power = 10 ** Math.floor(Math.log10(most));
  return [5, 2, 1].map((step) => step * power).find((length) => length <= most) ?? power;
}

/** The same look at a face that is shown the other way round; twice gives the camera back. */
export const mirroredCamera = (camera: Camera): Camera => ({ ...camera, x: -camera.x, swingDeg: -camera.swingDeg });
