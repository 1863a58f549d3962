import { describe, expect, it } from 'vitest';
import { fineDefaults, fineImage } from '../../src/core/face/fine.ts';
import { withoutRegions } from '../../src/core/face/index.ts';
import { heightsSeen } from '../../src/core/face/raster.ts';
import { type HeightGrid, identity, removeForm, sampleGrid, xOf, yOf } from '../../src/core/geometry/index.ts';
import { analyticFace } from '../judge/analyticFace.ts';
import { sheet } from './scanned.ts';

// Referee: the plane triangles between the points of a sheet, which a finer reading must give back to within float32.
const height = (x: number, y: number): number => 0.2 * Math.sin(1.7 * x) * Math.cos(1.3 * y);
const [sizeMm, step] = [20, 0.4];
const mesh = sheet(sizeMm, sizeMm, step, height);
const mapOf = (pitch: number): HeightGrid =>
  removeForm(
    heightsSeen(mesh, identity, () => ({ xMin: -9.7, xMax: 9.7, yMin: -9.7, yMax: 9.7, pitch })),
    2,
  ).detail;

describe('the image of a coarse scan, read once more', () => {
  it('has cells of a 240th of the face, on its triangles, where the image has data', () => {
    const image = mapOf(step);
    const half = { ...image, mask: image.mask.map((there, i) => (xOf(image, i % image.width) < 0 ? there : 0)) };
    const fine = fineImage(mesh, identity, half, sizeMm);
    if (!fine) throw new Error('a coarse scan is read finely');
    expect(fine.pitch).toBeCloseTo(sizeMm / fineDefaults.across, 12);
    const beyond = fine.mask.some((there, i) => there === 1 && xOf(fine, i % fine.width) > step);
    expect(beyond).toBe(false);
    expect(fine.mask.some((there) => there === 1)).toBe(true);
  });

  it('stands nearer the surface than the map read between its cells', () => {
    const image = mapOf(step);
    const fine = fineImage(mesh, identity, image, sizeMm);
    if (!fine) throw new Error('a coarse scan is read finely');
    // The form of the sheet is next to nothing; what is left is the error of reading it.
    const error = (at: (x: number, y: number) => number): number => {
      let [n, sum] = [0, 0];
      for (let i = 0; i < fine.z.length; i += 7) {
        if (!fine.mask[i]) continue;
        const [x, y] = [xOf(fine, i % fine.width), yOf(fine, Math.floor(i / fine.width))];
        const value = at(x, y) - height(x, y);
        if (Number.isNaN(value)) continue;
        n++;
        sum += value ** 2;
      }
      return Math.sqrt(sum / n);
    };
    expect(error((x, y) => sampleGrid(fine, x, y))).toBeLessThan(0.8 * error((x, y) => sampleGrid(image, x, y)));
  });

  it('is not made of a scan that is as fine', () => {
    expect(fineImage(mesh, identity, mapOf(sizeMm / fineDefaults.across / 1.1), sizeMm)).toBeUndefined();
  });

  it('has no data where something was left out of the face', () => {
    const image = mapOf(step);
    const fine = fineImage(mesh, identity, image, sizeMm);
    const face = { ...analyticFace(height, () => true), relief: image, detail: image, image, ...(fine && { fine }) };
    const cut = withoutRegions(face, [
      [
        [-3, -3],
        [3, -3],
        [3, 3],
        [-3, 3],
      ],
    ]);
    const there = cut.fine && sampleGrid(cut.fine, 0, 0);
    expect(there).toBeNaN();
    expect(cut.fine && sampleGrid(cut.fine, 6, 6)).not.toBeNaN();
  });
});
