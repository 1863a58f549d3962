import { describe, expect, it } from 'vitest';
import {
  mirroredCamera,
  projectionOf,
  roundFacePx,
  scaleBarMm,
  tipMatrix,
  toPixels,
  toPlate,
  zoomedAt,
} from '../../src/app/plate/project.ts';
import { determinant3, seededRandom } from '../../src/core/geometry/index.ts';

const pane = {
  id: 'a',
  role: 'reference',
  x: 30,
  y: 10,
  width: 500,
  height: 640,
  from: 30,
  to: 530,
  differences: false,
  within: null,
} as const;
const random = seededRandom(11);
const cameras = Array.from({ length: 40 }, () => ({
  x: random.between(-20, 20),
  y: random.between(-20, 20),
  zoom: random.between(0.5, 12),
  tipDeg: random.between(-60, 60),
  swingDeg: random.between(-60, 60),
}));

describe('the plate on a pane', () => {
  it('finds a place again that it drew, however the face is tipped', () => {
    for (const camera of cameras) {
      const projection = projectionOf(pane, camera, 40, 60);
      const [x, y] = [random.between(-30, 30), random.between(-30, 30)];
      const [px, py] = toPixels(projection, x, y);
      const [backX, backY] = toPlate(projection, px, py);
      expect(backX).toBeCloseTo(x, 9);
      expect(backY).toBeCloseTo(y, 9);
    }
  });

  it('keeps the place under the hand when it enlarges', () => {
    for (const camera of cameras) {
      const before = projectionOf(pane, camera, 40, 60);
      const [px, py] = [random.between(40, 500), random.between(20, 600)];
      const after = { ...before, camera: zoomedAt(before, px, py, 1.3) };
      const pxPerMm = before.pxPerMm * (after.camera.zoom / camera.zoom);
      const [x, y] = toPlate(before, px, py);
      const [nowX, nowY] = toPixels({ ...after, pxPerMm }, x, y);
      expect(nowX).toBeCloseTo(px, 6);
      expect(nowY).toBeCloseTo(py, 6);
    }
  });

  it('tips by a rotation', () => {
    for (const camera of cameras) {
      const m = tipMatrix(camera);
      expect(determinant3(m)).toBeCloseTo(1, 12);
      expect(m[0] * m[3] + m[1] * m[4] + m[2] * m[5]).toBeCloseTo(0, 12);
    }
  });

  it('shows a mirrored face the other way round', () => {
    for (const camera of cameras) {
      const one = projectionOf(pane, camera, 40, 60);
      const other = projectionOf(pane, mirroredCamera(camera), 40, 60);
      const [px, py] = toPixels(one, 5, 7, 1.5);
      const [qx, qy] = toPixels(other, -5, 7, 1.5);
      expect(qx - one.centreX).toBeCloseTo(one.centreX - px, 9);
      expect(qy).toBeCloseTo(py, 9);
    }
  });

  it('fills the pane with the larger face at zoom 1, room for the lamp left', () => {
    const projection = projectionOf(pane, { x: 0, y: 0, zoom: 1, tipDeg: 0, swingDeg: 0 }, 40, 60);
    const [left, top] = toPixels(projection, -20, 30);
    expect(left).toBeGreaterThanOrEqual(pane.x);
    expect(top).toBeGreaterThanOrEqual(pane.y + roundFacePx - 1e-9);
  });

  it('takes a scale bar of a round length that fits', () => {
    for (let i = 0; i < 200; i++) {
      const pxPerMm = 10 ** random.between(-2, 3);
      const mm = scaleBarMm(pxPerMm, 130);
      expect(mm * pxPerMm).toBeLessThanOrEqual(130 * (1 + 1e-9));
      expect(mm * pxPerMm).toBeGreaterThan(130 / 2.6);
      expect(Number((mm / 10 ** Math.floor(Math.log10(mm) + 1e-9)).toFixed(6))).toSatisfy((n: number) =>
        [1, 2, 5].includes(n),
      );
    }
  });
});
