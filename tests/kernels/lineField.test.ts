import { describe, expect, it } from 'vitest';
import { lineField, lineFieldPlainly } from '../../src/core/condition/marks/lines/lineField.ts';
import { type HeightGrid, seededRandom } from '../../src/core/geometry/index.ts';
import { lineFieldKernel } from '../../src/kernels/index.ts';

/** Noise a few cells wide, mm, some of the cells without data. */
function relief(width: number, height: number, pitch: number, seed: number, holes: number): HeightGrid {
  const random = seededRandom(seed);
  const mask = Uint8Array.from({ length: width * height }, () => (random.between(0, 1) < holes ? 0 : 1));
  const z = Float32Array.from(mask, () => 0.1 * random.normal());
  for (let pass = 0; pass < 3; pass++) for (let i = z.length - 1; i > 0; i--) z[i] = 0.5 * (z[i] + z[i - 1]);
  return { width, height, pitch, left: 0, top: 0, z, mask };
}

describe('the kernel for ridges and grooves', () => {
  it('runs here', () => {
    expect(lineFieldKernel([relief(20, 20, 0.2, 1, 0)], 5)).not.toBeNull();
  });

  it('finds the heights of its referee within float32, and another direction only where two are as good', () => {
    for (const [width, height, pitch, holes] of [
      [91, 70, 0.2, 0],
      [64, 83, 0.13, 0.02],
      [17, 9, 0.2, 0.1],
      [5, 6, 0.2, 0],
    ])
      for (const grids of [
        [relief(width, height, pitch, 2, holes)],
        [relief(width, height, pitch, 3, holes), relief(width, height, pitch, 3, 0.01)],
      ])
        for (const ridgesOnly of [false, true]) {
          const [ours, plain] = [lineField(grids, ridgesOnly), lineFieldPlainly(grids, ridgesOnly)];
          let others = 0;
          for (let i = 0; i < width * height; i++) {
            expect(Math.abs(ours.ridge[i] - plain.ridge[i])).toBeLessThan(1e-6);
            expect(Math.abs(ours.groove[i] - plain.groove[i])).toBeLessThan(1e-6);
            if (ours.ridgeAlong[i] !== plain.ridgeAlong[i] || ours.grooveAlong[i] !== plain.grooveAlong[i]) others++;
          }
          expect(others).toBeLessThanOrEqual(0.01 * width * height);
        }
  });

  it('is as good on a smaller grid after a larger one', () => {
    const [large, small] = [relief(60, 50, 0.2, 4, 0), relief(30, 20, 0.2, 5, 0)];
    lineField([large]);
    const wanted = lineFieldPlainly([small]);
    lineField([small]).ridge.forEach((value, i) => {
      expect(Math.abs(value - wanted.ridge[i])).toBeLessThan(1e-6);
    });
  });
});
