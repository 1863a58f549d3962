import { describe, expect, it } from 'vitest';
import { levelOfDetection } from '../../src/core/compare/index.ts';
import { effectiveNeighbours, levelGrid } from '../../src/core/compare/levelOfDetection.ts';
import { emptyGrid, gaussianFilter, seededRandom, sigmaOfCutoff, xOf, yOf } from '../../src/core/geometry/index.ts';

describe('levelOfDetection', () => {
  it('keeps the registration outside the root: σ 0.02 twice, n 25 twice, reg 0.01 mm gives 0.030687 (Lague et al. 2013)', () => {
    expect(levelOfDetection(0.02, 25, 0.02, 25, 0.01)).toBeCloseTo(0.030687, 6);
  });
});

describe('effectiveNeighbours', () => {
  it('is what a Gaussian mean takes off the variance of white noise', () => {
    const random = seededRandom(1);
    const grid = emptyGrid(0, 200, 0, 200, 1);
    for (let i = 0; i < grid.z.length; i++) grid.z[i] = random.normal();
    grid.mask.fill(1);
    for (const cutoff of [6, 10]) {
      const smooth = gaussianFilter(grid, cutoff);
      let [sum, n] = [0, 0];
      for (let i = 0; i < smooth.z.length; i++) {
        const [c, r] = [i % grid.width, Math.floor(i / grid.width)];
        if (c < 20 || r < 20 || c > 180 || r > 180) continue;
        sum += smooth.z[i] ** 2;
        n++;
      }
      expect(Math.abs(n / sum / effectiveNeighbours(sigmaOfCutoff(cutoff), 1, 1) - 1)).toBeLessThan(0.1);
    }
  });

  it('falls with the length over which noise is correlated and never below one', () => {
    expect(effectiveNeighbours(1, 0.1, 0.2) / effectiveNeighbours(1, 0.1, 0.4)).toBeCloseTo(4, 9);
    expect(effectiveNeighbours(0.01, 0.1, 0.1)).toBe(1);
  });
});

describe('levelGrid', () => {
  const map = emptyGrid(-10, 10, -10, 10, 1);
  map.mask.fill(1);
  const plain = { sigmaMm: [0, 0], neighbours: [1, 1], systematicMm: 0 } as const;
  const covariance = (variances: number[]): Float64Array => {
    const c = new Float64Array(49);
    variances.forEach((v, k) => {
      c[8 * k] = v;
    });
    return c;
  };

  it('on a plane grows with the distance from the tilt’s axis, and a turn in the plane or a growth adds nothing', () => {
    const level = levelGrid(map, map, { ...plain, covariance: covariance([1e-6, 0, 4e-2, 1, 1, 0, 1]) });
    for (let i = 0; i < level.z.length; i++)
      expect(level.z[i]).toBeCloseTo(1.96 * 1e-3 * Math.abs(yOf(map, Math.floor(i / map.width))), 6);
  });

  it('agrees with trying the motions: spread of n · (ω × r + t + s r) over random poses, on a slope', () => {
    const slope = { ...map, z: map.z.map((_, i) => 0.5 * xOf(map, i % map.width)) };
    const variances = [1e-6, 2e-6, 3e-6, 4e-4, 5e-4, 6e-4, 7e-6];
    const level = levelGrid(map, slope, { ...plain, covariance: covariance(variances) });
    const random = seededRandom(2);
    const [x, y] = [6, -3];
    const n = [-0.5, 0, 1].map((v) => v / Math.hypot(0.5, 1));
    const r = [x, y, 0.5 * x];
    let sum = 0;
    for (let k = 0; k < 20_000; k++) {
      const [a, b, c, tx, ty, tz, s] = variances.map((v) => Math.sqrt(v) * random.normal());
      const moved = [
        b * r[2] - c * r[1] + tx + s * r[0],
        c * r[0] - a * r[2] + ty + s * r[1],
        a * r[1] - b * r[0] + tz + s * r[2],
      ];
      sum += (moved[0] * n[0] + moved[1] * n[1] + moved[2] * n[2]) ** 2;
    }
    const cell = (10 - y) * map.width + (x + 10);
    expect(Math.abs(level.z[cell] / (1.96 * Math.sqrt(sum / 20_000)) - 1)).toBeLessThan(0.02);
  });

  it('carries the systematic term of a translucent material whatever is averaged', () => {
    const level = levelGrid(map, map, {
      ...plain,
      neighbours: [1e9, 1e9],
      covariance: covariance([]),
      systematicMm: 0.015,
    });
    expect(level.z[0]).toBeCloseTo(1.96 * 0.015, 6);
  });

  it('takes what the map shows of the noise where that is less than what the scans bound it by, and never where it is more', () => {
    const scans = { ...plain, sigmaMm: [0.06, 0.08], neighbours: [4, 4], covariance: covariance([]) } as const;
    const shown = (mapSigmaMm: number): number => levelGrid(map, map, { ...scans, mapSigmaMm }).z[0];
    expect(shown(0.01)).toBeCloseTo(1.96 * 0.01, 6);
    expect(shown(0.2)).toBeCloseTo(1.96 * 0.05, 6);
    expect(levelGrid(map, map, scans).z[0]).toBeCloseTo(1.96 * 0.05, 6);
  });
});
