import { describe, expect, it } from 'vitest';
import { movePoints, subjectMotion } from '../../src/core/compare/index.ts';
import { sizeAlongAxes } from '../../src/core/compare/motion.ts';
import { applyWarp, noWarp, type Warp, warpParameters } from '../../src/core/fit/index.ts';
import { apply, compose, rotationAbout, seededRandom } from '../../src/core/geometry/index.ts';
import { anyMotion, dieMesh, model, side } from './pair.ts';

const die = side(dieMesh(1), 'intaglio');

function anyWarp(seed: number): Warp {
  const random = seededRandom(seed);
  return {
    before: { scale: 1.0004, rotation: rotationAbout([0, 0.6, 0.8], 0.01), translation: [0.02, -0.01, 0.03] },
    radiusMm: 12,
    coefficients: Float64Array.from({ length: warpParameters }, () => random.between(-0.3, 0.3)),
  };
}

describe('subjectMotion', () => {
  it('moves points as similarity, face frame and warp do one after another', () => {
    const random = seededRandom(4);
    const positions = Float32Array.from({ length: 300 }, () => random.between(-10, 10));
    const referenceFromSubject = anyMotion(1.02);
    for (const warp of [undefined, anyWarp(1), noWarp(10)]) {
      const motion = subjectMotion(die.face, model('smoothWarp', referenceFromSubject, warp ? { warp } : {}));
      const out = new Float64Array(300);
      movePoints(motion, positions, 0, 100, out);
      const similarity = compose(die.face.faceFromScan, referenceFromSubject);
      for (let i = 0; i < 300; i += 3) {
        const p = apply(similarity, [positions[i], positions[i + 1], positions[i + 2]]);
        const q = warp ? applyWarp(warp, p) : p;
        for (let k = 0; k < 3; k++) expect(out[i + k]).toBeCloseTo(q[k], 9);
      }
    }
  });
});

describe('sizeAlongAxes', () => {
  it('is the scale without a warp, and has the stretch of a warp that stretches', () => {
    const referenceFromSubject = anyMotion(1.02);
    const plain = sizeAlongAxes(subjectMotion(die.face, model('oneScale', referenceFromSubject)), {
      middle: [0, 0],
      side: 20,
    });
    for (const key of ['x', 'y', 'z'] as const) expect(plain[key]).toBeCloseTo(1.02, 12);
    const coefficients = new Float64Array(warpParameters);
    // Stretch along x against y: field (u, −v, 0).
    coefficients[7] = 0.05;
    const warp: Warp = { ...noWarp(10), coefficients };
    const bent = sizeAlongAxes(subjectMotion(die.face, model('smoothWarp', referenceFromSubject, { warp })), {
      middle: [0, 0],
      side: 20,
    });
    expect(bent.x).toBeCloseTo(1.02 * 1.005, 9);
    expect(bent.y).toBeCloseTo(1.02 * 0.995, 9);
    expect(bent.z).toBeCloseTo(1.02, 9);
  });
});
