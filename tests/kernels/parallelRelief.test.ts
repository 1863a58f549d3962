import { describe, expect, it } from 'vitest';
import { curvePlainly, idealOutline } from '../../src/core/design/legend/baseCurve.ts';
import { explainedByKernel, explainedPlainly, explainedShares } from '../../src/core/design/legend/parallelRelief.ts';
import { profilesOf, ringProfile } from '../../src/core/design/legend/ringProfile.ts';
import { type HeightGrid, seededRandom } from '../../src/core/geometry/index.ts';
import { curveByKernel } from '../../src/kernels/index.ts';

const shapes = ['round', 'oval', 'pointedOval', 'shield', 'square'] as const;

/** Rings about a point beside the middle, noise, and a tenth of the cells without data. */
function relief(seed: number, pitch: number): HeightGrid {
  const random = seededRandom(seed);
  const side = Math.round(34 / pitch);
  const mask = Uint8Array.from({ length: side * side }, () => (random.between(0, 1) < 0.1 ? 0 : 1));
  const z = Float32Array.from(mask, (m, i) => {
    const [x, y] = [(i % side) * pitch - 16, 17 - Math.floor(i / side) * pitch];
    return m * (Math.cos(2 * Math.hypot(x, y)) + random.between(-1, 1));
  });
  return { width: side, height: side, pitch, left: -17, top: 17, z, mask };
}

describe('the kernel for relief parallel to an outline', () => {
  const reliefs = [relief(1, 0.6), relief(2, 0.3), relief(3, 0.1)];

  it('gives the same numbers as its referee for every shape, inside and over the edge', () => {
    const [ours, plain] = [explainedByKernel(reliefs), explainedPlainly(reliefs)];
    if (!ours) throw new Error('no kernel');
    const random = seededRandom(4);
    for (const shape of shapes)
      for (let q = 0; q < 60; q++) {
        const a = random.between(3.1, 16);
        const place = {
          cx: random.between(-6, 6),
          cy: random.between(-6, 6),
          turnDeg: random.between(-180, 180),
          a,
          b: a * random.between(1.05, 1.7),
        };
        const k = q % reliefs.length;
        expect(ours(k, shape, place), `${shape}, ${q}`).toBe(plain(k, shape, place));
      }
  });

  it('makes the same curves as its referee, and the same profiles along them, from outside inward and deeper than they reach', () => {
    const along = profilesOf(reliefs);
    for (const shape of shapes)
      for (const count of [72, 121, 720]) {
        const points = idealOutline(shape, { cx: 1, cy: -2, turnDeg: 17, a: 9, b: 11.5 }, count);
        const curve = curvePlainly(points, 3);
        expect(curveByKernel(points, 3)).toEqual(curve);
        for (const [k, grid] of reliefs.entries())
          for (const [fromMm, toMm, stepMm] of [
            [-1, 9, 0.05],
            [0, 7, 0.1],
            [2, 14, 0.3],
          ])
            expect(along(k, curve, fromMm, toMm, stepMm)).toEqual(ringProfile(grid, curve, fromMm, toMm, stepMm));
      }
  });

  it('leaves curves and depths that there is no room for to the plain code', () => {
    const points = idealOutline('round', { cx: 0, cy: 0, turnDeg: 0, a: 12, b: 12 }, 1500);
    expect(curveByKernel(points, 3)).toBeNull();
    const curve = curvePlainly(points, 3);
    expect(profilesOf(reliefs)(1, curve, 0, 9, 0.1)).toEqual(ringProfile(reliefs[1], curve, 0, 9, 0.1));
  });

  it('sees the rings round their middle better than beside it', () => {
    const share = explainedShares(reliefs);
    const at = (cx: number): number => share(2, 'round', { cx, cy: 0, turnDeg: 0, a: 12, b: 12 });
    expect(at(-1)).toBeGreaterThan(0.15);
    expect(at(2)).toBeLessThan(0.3 * at(-1));
  });

  it('leaves the work to the plain code where there is no WebAssembly', () => {
    const engine = Object.getOwnPropertyDescriptor(globalThis, 'WebAssembly');
    try {
      Object.defineProperty(globalThis, 'WebAssembly', { value: undefined, configurable: true });
      expect(explainedByKernel(reliefs)).toBeNull();
      expect(explainedShares(reliefs)(0, 'oval', { cx: 0, cy: 0, turnDeg: 3, a: 9, b: 12 })).toBeGreaterThan(0);
    } finally {
      if (engine) Object.defineProperty(globalThis, 'WebAssembly', engine);
    }
  });
});
