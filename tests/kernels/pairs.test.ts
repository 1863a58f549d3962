import { describe, expect, it } from 'vitest';
import type { Target } from '../../src/core/fit/correspondenceGround.ts';
import { pairPlainly, pairPoints } from '../../src/core/fit/correspondences.ts';
import { warpParameters } from '../../src/core/fit/warp.ts';
import {
  identity,
  invert,
  normalise,
  rotationAbout,
  type Similarity,
  seededRandom,
} from '../../src/core/geometry/index.ts';
import { pairingKernel } from '../../src/kernels/index.ts';
import { pointsOn, reliefOf, targetOf } from '../fit/relief.ts';

const relief = reliefOf((x, y) => 0.3 * Math.sin(1.1 * x) * Math.cos(0.9 * y - 0.4));
const motion: Similarity = {
  scale: 1.02,
  rotation: rotationAbout(normalise([0.2, -0.3, 0.9]), 0.4),
  translation: [0.4, -0.2, 0.03],
};
const bent = Float64Array.from({ length: warpParameters }, (_, k) => 0.02 * Math.cos(3 * k));

/** A scan that lies elsewhere than its face, and a face of which a tenth is no counterpart. */
function target(): Target {
  const whole = targetOf(relief, 6, 0.1);
  const random = seededRandom(3);
  return { ...whole, inside: whole.inside.map((there) => (random.between(0, 1) < 0.1 ? 0 : there)) };
}

describe('the kernel for points in pairs', () => {
  it('runs here', () => {
    expect(pairingKernel(target())).not.toBeNull();
  });

  it.each(['alongHeight', 'closest'] as const)('gives the same numbers as its referee, %s', (meeting) => {
    const ground = target();
    for (const [apart, opposed, bending] of [
      [0.6, false, bent],
      [0.9, true, undefined],
      // More than it had room for before.
      [0.2, false, undefined],
      [0.3, true, bent],
    ] as const) {
      const points = pointsOn(relief, apart, 7, motion);
      if (opposed) for (let k = 0; k < points.normals.length; k++) points.normals[k] *= -1;
      for (const reachMm of [0.02, 1]) {
        const asked = [ground, meeting, points, invert(motion), bending, reachMm, { opposed, radiusMm: 6 }] as const;
        const ours = pairPoints(...asked);
        expect(ours).toEqual(pairPlainly(...asked));
        const met = ours.residual.filter((value) => !Number.isNaN(value)).length;
        expect(met).toBeGreaterThan(20);
        expect(met).toBeLessThan(ours.residual.length);
      }
    }
  });

  it('leaves the work to the plain code where there is no WebAssembly', () => {
    const engine = Object.getOwnPropertyDescriptor(globalThis, 'WebAssembly');
    try {
      Object.defineProperty(globalThis, 'WebAssembly', { value: undefined, configurable: true });
      const points = pointsOn(relief, 0.7, 5, identity);
      const { residual } = pairPoints(target(), 'alongHeight', points, identity, undefined, 1, {
        opposed: false,
        radiusMm: 6,
      });
      expect(residual.some((value) => !Number.isNaN(value))).toBe(true);
    } finally {
      if (engine) Object.defineProperty(globalThis, 'WebAssembly', engine);
    }
  });
});
