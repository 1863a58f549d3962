import { describe, expect, it } from 'vitest';
import { blockSpread } from '../../src/core/fit/blocksLeftOut.ts';
import { type IcpOptions, icp } from '../../src/core/fit/icp.ts';
import type { FacePoints } from '../../src/core/fit/points.ts';
import { poseUncertainty, uncertaintyDefaults } from '../../src/core/fit/uncertainty.ts';
import { eigenSymmetric, identity, seededRandom } from '../../src/core/geometry/index.ts';
import { bumps, pointsOn, type Relief, reliefOf, targetOf } from './relief.ts';

const options: IcpOptions = {
  scale: false,
  warp: false,
  meeting: 'closest',
  opposed: false,
  radiusMm: 10,
  reachMm: [0.5, 0.5],
  rounds: 0,
  floorMm: 0.1,
};

const shapes: Readonly<Record<string, Relief>> = {
  plane: reliefOf(() => 0),
  sphere: reliefOf((x, y) => Math.sqrt(20 ** 2 - x * x - y * y) - 20),
  cylinder: reliefOf((x) => Math.sqrt(20 ** 2 - x * x) - 20),
  'concentric rings': reliefOf((x, y) => 0.2 * Math.cos((2 * Math.PI * Math.hypot(x, y)) / 4)),
  'relief in two directions': bumps(4, 12, 60),
};

// Gelfand, Ikemoto, Rusinkiewicz and Levoy, 3DIM 2003: surfaces that slide on themselves (table from memory, recomputed).
describe('null directions of the normalised 6 × 6 point-to-plane matrix', () => {
  for (const [name, expected] of [
    ['plane', 3],
    ['sphere', 3],
    ['cylinder', 2],
    ['concentric rings', 1],
    ['relief in two directions', 0],
  ] as const)
    it(`number ${expected}: ${name}`, () => {
      const points = pointsOn(shapes[name], 0.4, 9.9);
      const { hessian } = icp(targetOf(shapes[name], 12, 0.1), points, identity, options);
      const { values } = eigenSymmetric(hessian, 6);
      expect([...values].filter((value) => value < 2e-4 * values[5])).toHaveLength(expected);
    });
});

describe('poseUncertainty', () => {
  const named = (name: string): readonly string[] => {
    const seven = { ...options, scale: true };
    return poseUncertainty(
      icp(targetOf(shapes[name], 12, 0.1), pointsOn(shapes[name], 0.4, 9.9), identity, seven),
      seven,
    ).degenerate;
  };

  it('names the motions that the relief does not resist', () => {
    expect([...named('plane')].sort()).toEqual(['growth', 'slideX', 'slideY', 'turnZ']);
    expect(named('concentric rings')).toEqual(['turnZ']);
    expect(named('cylinder')).toContain('slideY');
    expect(named('relief in two directions')).toEqual([]);
  });

  // z = A cos kφ, N points, noise σ: σ of the turn about the axis is σ√2/(A k √N); with A = 0.2 mm, k = 3,
  // N = 10 000, σ = 0.01 mm it is 0.0135° (calculated from the definition).
  // The faint bowl under it resists growth and adds nothing to the turn.
  const wave = reliefOf((x, y) => 0.2 * Math.cos(3 * Math.atan2(y, x)) + 0.003 * (x * x + y * y));
  const waveTarget = targetOf(wave, 16, 0.1);
  const annulus = (pitch: number): FacePoints => pointsOn(wave, pitch, 15, identity, 8);
  const sigma = 0.01;
  const expectedDeg = (n: number): number => ((sigma * Math.SQRT2) / (0.2 * 3 * Math.sqrt(n))) * (180 / Math.PI);
  // 0.1 mm keeps every weight near 1: plain least squares, which the formula is about.
  const along: IcpOptions = { ...options, scale: true, meeting: 'alongHeight', rounds: 1, radiusMm: 15 };

  /** Of the turn about the face's axis, rad. */
  const turnSd = (found: ReturnType<typeof icp>): number =>
    Math.sqrt(blockSpread(found, along)[2 * 7 + 2]) / along.radiusMm;

  function noisy(points: FacePoints, seed: number): FacePoints {
    const random = seededRandom(seed);
    const positions = points.positions.map((value, k) => (k % 3 === 2 ? value + sigma * random.normal() : value));
    return { positions, normals: points.normals };
  }

  it('gives 0.0135° for the turn of a threefold wave, in the mean of twenty scans, each within what its blocks can tell', () => {
    const points = annulus(0.2248);
    const count = points.positions.length / 3;
    expect(Math.abs(count - 10_000)).toBeLessThan(100);
    expect(expectedDeg(10_000)).toBeCloseTo(0.0135, 4);
    const found = Array.from({ length: 20 }, (_, seed) => {
      return (turnSd(icp(waveTarget, noisy(points, 1 + seed), identity, along)) * 180) / Math.PI / expectedDeg(count);
    });
    expect(Math.abs(found.reduce((sum, value) => sum + value, 0) / found.length - 1)).toBeLessThan(0.05);
    // A standard deviation from g groups is known to 1/√(2g): 12 %.
    for (const one of found) expect(Math.abs(one - 1)).toBeLessThan(3 * 0.12);
  });

  it('adds what no block can show: a third of the shift, more of the turn and the size', () => {
    const { turnBeyondBlocks, beyondBlocks, sizeBeyondBlocks } = uncertaintyDefaults;
    const found = icp(waveTarget, noisy(annulus(0.6), 1), identity, along);
    const [spread, { covariance }] = [blockSpread(found, along), poseUncertainty(found, along)];
    for (const [k, factor] of [
      [1, turnBeyondBlocks / 15],
      [4, beyondBlocks],
      [6, sizeBeyondBlocks / 15],
    ])
      expect(covariance[8 * k] / spread[8 * k]).toBeCloseTo(factor ** 2, 9);
    expect(covariance[7 * 6 + 3] / spread[7 * 6 + 3]).toBeCloseTo((beyondBlocks * sizeBeyondBlocks) / 15, 9);
  });

  it('prints the turn in degrees and the shift in mm of the covariance beside them', () => {
    const found = poseUncertainty(icp(waveTarget, noisy(annulus(0.6), 1), identity, along), along);
    const variance = (k: number): number => found.covariance[k * 7 + k];
    const turnRad = Math.sqrt(variance(0) + variance(1) + variance(2));
    expect(found.rotationSdDeg / turnRad).toBeCloseTo(57.29578, 4);
    expect(found.translationSdMm).toBeCloseTo(Math.sqrt(variance(3) + variance(4) + variance(5)), 12);
    expect(found.scaleSd).toBeCloseTo(Math.sqrt(variance(6)), 12);
  });

  it('foretells the spread of many fits: the turn within 5 %, the shift within 10 %', () => {
    const points = annulus(0.6);
    const trials = 500;
    const turns: number[] = [];
    const shifts: number[] = [];
    let foretold = { turn: 0, shift: 0 };
    for (let seed = 0; seed < trials; seed++) {
      const found = icp(waveTarget, noisy(points, 100 + seed), identity, along);
      turns.push(Math.atan2(found.motion.rotation[3], found.motion.rotation[0]));
      shifts.push(found.motion.translation[0]);
      foretold = {
        turn: foretold.turn + turnSd(found) ** 2 / trials,
        shift: foretold.shift + blockSpread(found, along)[3 * 7 + 3] / trials,
      };
    }
    const variance = (values: number[]): number => values.reduce((sum, v) => sum + v * v, 0) / values.length;
    expect(Math.abs(Math.sqrt(variance(turns) / foretold.turn) - 1)).toBeLessThan(0.05);
    expect(Math.abs(Math.sqrt(variance(shifts) / foretold.shift) - 1)).toBeLessThan(0.1);
    const degrees = (Math.sqrt(variance(turns)) * 180) / Math.PI;
    expect(Math.abs(degrees / expectedDeg(points.positions.length / 3) - 1)).toBeLessThan(0.05);
  });

  it('grows where neighbouring residuals say the same, by as much as fits then scatter', () => {
    const points = annulus(0.3);
    const correlated = (seed: number): FacePoints => {
      const random = seededRandom(seed);
      const positions = points.positions.slice();
      let carried = 0;
      for (let i = 2; i < positions.length; i += 3) {
        carried = 0.8 * carried + 0.6 * sigma * random.normal();
        positions[i] += carried;
      }
      return { positions, normals: points.normals };
    };
    const turns: number[] = [];
    let foretold = 0;
    for (let seed = 0; seed < 120; seed++) {
      const found = icp(waveTarget, correlated(300 + seed), identity, along);
      turns.push(Math.atan2(found.motion.rotation[3], found.motion.rotation[0]));
      foretold += turnSd(found) ** 2 / 120;
    }
    const scatter = Math.sqrt(turns.reduce((sum, v) => sum + v * v, 0) / turns.length);
    // Along one direction (1 + ρ)/(1 − ρ) = 9 points share one residual: three times white noise.
    const white = (expectedDeg(points.positions.length / 3) * Math.PI) / 180;
    expect(Math.abs(scatter / (3 * white) - 1)).toBeLessThan(0.2);
    expect(Math.abs(Math.sqrt(foretold) / scatter - 1)).toBeLessThan(0.15);
  });

  it('holds what a warp fitted along takes up, in terms of the size: no less than the fit of a similarity alone', () => {
    const points = annulus(0.6);
    const alone = poseUncertainty(icp(waveTarget, noisy(points, 5), identity, along), along);
    const warped = { ...along, warp: true };
    const beside = poseUncertainty(icp(waveTarget, noisy(points, 5), identity, warped), warped);
    expect(beside.scaleSd).toBeGreaterThan(0.9 * alone.scaleSd);
    expect(beside.degenerate).toEqual(alone.degenerate);
  });
});
