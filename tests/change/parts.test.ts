import { describe, expect, it } from 'vitest';
import { localSpread, mostAgreed } from '../../src/core/change/agreement.ts';
import type { Ground } from '../../src/core/change/commonGrid.ts';
import { liesOn } from '../../src/core/change/index.ts';
import { lineMeans } from '../../src/core/change/lineMeans.ts';
import { goesOnFrom, lineShapeOf } from '../../src/core/change/lineShape.ts';
import { loneVertices, noiseByClass, partsOf, roughnessOf, sigmaAt } from '../../src/core/change/noise.ts';
import { allTerms, derivatives, motionOf, motionTerms } from '../../src/core/change/nuisance.ts';
import { changedRegions, noiseScales } from '../../src/core/change/regions.ts';
import { leastPeak, scaleMap } from '../../src/core/change/scales.ts';
import { sizeOf } from '../../src/core/change/size.ts';
import { chanceOf } from '../../src/core/fit/index.ts';
import { apply, emptyGrid, type HeightGrid, seededRandom, xOf, yOf } from '../../src/core/geometry/index.ts';

const pitch = 0.1;
/** A square of `side` mm about the middle with heights from a function. */
function square(side: number, height: (x: number, y: number) => number): HeightGrid {
  const grid = emptyGrid(-side / 2, side / 2, -side / 2, side / 2, pitch);
  for (let i = 0; i < grid.z.length; i++) {
    grid.z[i] = height(xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width)));
    grid.mask[i] = 1;
  }
  return grid;
}

const hills = (x: number, y: number): number =>
  0.4 * Math.sin(1.1 * x + 0.3) * Math.cos(0.9 * y) + 0.1 * Math.sin(2 * y);

function groundOn(earlier: HeightGrid): Ground {
  const { width, z } = earlier;
  const slope = (step: number, sign: number) =>
    z.map((_, i) =>
      z[i + step] !== undefined && z[i - step] !== undefined ? (sign * (z[i + step] - z[i - step])) / (2 * pitch) : 0,
    );
  const none = new Float32Array(z.length);
  return {
    earlier,
    gx: slope(1, 1),
    gy: slope(width, -1),
    sound: earlier.mask,
    roughness: none,
    curvature: none,
    radiusMm: 5,
  };
}

describe('the derivatives of the difference', () => {
  it('are those of a surface that is really moved', () => {
    const ground = groundOn(square(10, hills));
    const j = new Float64Array(allTerms);
    for (let term = 0; term < motionTerms; term++) {
      const p = new Float64Array(motionTerms);
      p[term] = 1e-4;
      const motion = motionOf(p, ground.radiusMm);
      for (const [x, y] of [
        [1.2, -2.1],
        [-3, 0.7],
        [2.2, 3.1],
      ]) {
        // Where the moved surface stands over (x, y): the foot of its own point, found by two steps back.
        let [u, v] = [x, y];
        for (let k = 0; k < 20; k++) {
          const q = apply(motion, [u, v, hills(u, v)]);
          [u, v] = [u - (q[0] - x), v - (q[1] - y)];
        }
        const moved = apply(motion, [u, v, hills(u, v)])[2] - hills(x, y);
        const i = Math.round((5 - y) / pitch) * ground.earlier.width + Math.round((x + 5) / pitch);
        derivatives(ground, i, j);
        expect(j[term] * 1e-4).toBeCloseTo(moved, 6);
      }
    }
  });
});

describe('the motion that most of the face agrees on', () => {
  it('is none where a third lies lower, although least squares over the whole would tilt', () => {
    const random = seededRandom(7);
    const ground = groundOn(square(12, hills));
    const raw = square(12, (x) => (x > 2 ? -0.04 : 0) + 0.01 * random.normal());
    const sigma = new Float32Array(raw.z.length).fill(0.01);
    const terms = mostAgreed(ground, raw, sigma);
    expect(Math.abs(terms[5])).toBeLessThan(0.004);
    expect(Math.abs(terms[1])).toBeLessThan(0.008);
  });

  it('is told by a spread that a step leaves as it is', () => {
    const random = seededRandom(3);
    const flat = square(12, () => random.normal());
    const stepped = { ...flat, z: flat.z.map((z, i) => z + (i % flat.width > 40 ? 50 : 0)) };
    expect(localSpread(stepped, 0.3) / localSpread(flat, 0.3)).toBeLessThan(1.3);
    expect(localSpread(flat, 0.3)).toBeCloseTo(1, 1);
  });
});

describe('the least peak', () => {
  it('is passed by smoothed white noise about as often as it says (fields simulated here as referee)', () => {
    const random = seededRandom(11);
    const sigmaMm = 0.4;
    const least = leastPeak(100, sigmaMm, 0.5);
    let passed = 0;
    const fields = 60;
    for (let k = 0; k < fields; k++) {
      const field = square(10, () => random.normal());
      const { t } = scaleMap(field, new Float32Array(field.z.length).fill(1), sigmaMm, null);
      if (t.some((value) => Math.abs(value) > least)) passed++;
    }
    // An expected count of 0.5 of peaks: some in 1 − exp(−0.5) = 39 % of the fields.
    expect(passed / fields).toBeGreaterThan(0.2);
    expect(passed / fields).toBeLessThan(0.6);
  });

  it('rises with the area and falls with the width of the mean', () => {
    expect(leastPeak(1000, 0.4, 0.01)).toBeGreaterThan(leastPeak(100, 0.4, 0.01));
    expect(leastPeak(1000, 0.4, 0.01)).toBeGreaterThan(leastPeak(1000, 1.6, 0.01));
  });
});

describe('regions', () => {
  const random = seededRandom(5);
  const noise = square(16, () => 0.012 * random.normal());
  const sigma = new Float32Array(noise.z.length).fill(0.012);
  const search = (grid: HeightGrid) => changedRegions(grid, noiseScales(grid, sigma, null));

  it('are none in white noise', () => {
    expect(search(noise)).toEqual([]);
  });

  it('are the disc that was lowered, and its area', () => {
    const disc = square(16, (x, y) => (Math.hypot(x - 2, y + 3) < 1.13 ? -0.03 : 0));
    const regions = search({ ...noise, z: noise.z.map((z, i) => z + disc.z[i]) });
    expect(regions).toHaveLength(1);
    expect(regions[0].sign).toBe(-1);
    expect(regions[0].area.length * pitch ** 2).toBeGreaterThan(3);
    expect(regions[0].area.length * pitch ** 2).toBeLessThan(5.5);
  });

  it('are a crack too fine for round means, by the mean along it', () => {
    const crack = square(16, (x, y) => (Math.abs(y - 0.2 * x) < 0.08 && Math.abs(x) < 4 ? -0.04 : 0));
    const grid = { ...noise, z: noise.z.map((z, i) => z + crack.z[i]) };
    const regions = search(grid);
    expect(regions).toHaveLength(1);
    expect(lineShapeOf(grid, regions[0].cells)?.lengthMm).toBeGreaterThan(6);
    const { lowered, leastGaussian } = lineMeans(grid, sigma, null);
    expect(Math.max(...lowered)).toBeGreaterThan(1.35 * leastGaussian);
  });
});

describe('the shape of a region', () => {
  const grid = square(12, () => 0);
  const cells = (inside: (x: number, y: number) => boolean): number[] =>
    [...grid.z.keys()].filter((i) => inside(xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width))));

  it('is a line where it is long and narrow, as long as it is, straight or not', () => {
    const straight = lineShapeOf(
      grid,
      cells((x, y) => Math.abs(y) < 0.16 && Math.abs(x) < 3),
    );
    expect(straight?.lengthMm).toBeCloseTo(6, 0);
    const bow = lineShapeOf(
      grid,
      cells((x, y) => Math.abs(Math.hypot(x, y) - 3) < 0.16 && y > 0),
    );
    expect(bow?.lengthMm).toBeGreaterThan(8);
    expect(bow?.lengthMm).toBeLessThan(11);
  });

  it('is an area where it is a disc or an oval', () => {
    expect(
      lineShapeOf(
        grid,
        cells((x, y) => Math.hypot(x, y) < 1.2),
      ),
    ).toBeNull();
    expect(
      lineShapeOf(
        grid,
        cells((x, y) => Math.hypot(x / 2, y) < 0.9),
      ),
    ).toBeNull();
  });

  it('goes on from a groove that lies beyond its end, and from none', () => {
    const line = lineShapeOf(
      grid,
      cells((x, y) => Math.abs(y) < 0.16 && x > -1 && x < 4),
    );
    if (!line) throw new Error('no line');
    const grooved = square(12, (x, y) => (x < -1 ? -0.15 * Math.max(0, 1 - Math.abs(y) / 0.25) : 0));
    expect(goesOnFrom(grooved, line, 0.15, 0.005)).toBe(true);
    expect(goesOnFrom(grid, line, 0.15, 0.005)).toBe(false);
  });
});

describe('two scans of one object', () => {
  const laid = (significance: number, mirror: number, score: number) => ({
    found: false,
    chance: chanceOf(significance, [5], mirror),
    score,
  });

  it('lie on one another where only a reflection of a symmetrical design reaches as much, and not by borders or by chance', () => {
    expect([laid(63, 60, 0.92), laid(63, 60, 0.6), laid(6, 3, 0.92)].map(liesOn)).toEqual([true, false, false]);
  });
});

describe('noise', () => {
  it('is read by class, whatever a tenth of the cells do', () => {
    const random = seededRandom(2);
    const rough = new Float32Array(20_000).map(() => random.next());
    const d = rough.map((r) => (random.next() < 0.1 ? 1 : (r > 0.5 ? 0.02 : 0.01) * random.normal()));
    const { sigmaMm } = noiseByClass(rough, d, () => true);
    expect(sigmaMm[1]).toBeGreaterThan(0.0095);
    expect(sigmaMm[1]).toBeLessThan(0.0135);
    expect(sigmaMm[10]).toBeGreaterThan(0.019);
    expect(sigmaMm[10]).toBeLessThan(0.027);
  });

  it('grows with how far neighbours stray from a plane beyond the roughest class, so that a cliff that both scans cut across is no change', () => {
    const noise = { roughnessMm: Float64Array.of(0.01, 0.03), sigmaMm: Float64Array.of(0.01, 0.02) };
    expect([0, 0.02, 0.03, 0.3].map((roughness) => sigmaAt(noise, roughness))).toEqual([
      0.01,
      expect.closeTo(0.015, 6),
      0.02,
      expect.closeTo(0.2, 6),
    ]);
    const cliff = square(8, (x) => (x < 0 ? 0 : 0.3));
    const level = new Float32Array(cliff.z.length);
    const rough = roughnessOf(cliff, level, level, cliff.mask);
    const at = (x: number): number => rough[40 * 81 + Math.round((x + 4) / pitch)];
    expect([at(-1), at(1)]).toEqual([0, 0]);
    expect(Math.min(at(-pitch), at(0))).toBeGreaterThan(0.1);
  });

  it('has single vertices thrown out, and a pit or a crack left in', () => {
    const sigma = new Float32Array(square(8, () => 0).z.length).fill(0.01);
    const lone = loneVertices(
      square(8, (x, y) =>
        Math.hypot(x - 2, y) < 0.16 ? 0.3 : Math.hypot(x + 2, y) < 0.6 ? -0.2 : Math.abs(y - 3) < 0.09 ? -0.1 : 0,
      ),
      sigma,
    );
    const at = (x: number, y: number): number => lone[Math.round((4 - y) / pitch) * 81 + Math.round((x + 4) / pitch)];
    expect([at(2, 0), at(-2, 0), at(0, 3)]).toEqual([1, 0, 0]);
  });

  it('keeps a dint no wider than the triangles about one vertex, which has a floor where a vertex makes a tent', () => {
    const off = (of: (r: number) => number): number => {
      const grid = square(8, (x, y) => -0.3 * of(Math.hypot(x, y) / (3 * pitch)));
      return loneVertices(grid, new Float32Array(grid.z.length).fill(0.02))[40 * 81 + 40];
    };
    expect(off((r) => Math.max(0, 1 - r))).toBe(1);
    expect(off((r) => Math.max(0, 1 - r ** 4))).toBe(0);
  });

  it('hangs together by corners too', () => {
    const set = new Uint8Array(25);
    for (const i of [0, 6, 12, 24]) set[i] = 1;
    expect(partsOf(set, 5).map(({ cells, across, down }) => [cells.length, across, down])).toEqual([
      [3, 3, 3],
      [1, 1, 1],
    ]);
  });
});

describe('the change of size', () => {
  const scale = (percent: number, from: 'stated' | 'assumed') => ({
    scaleUncertaintyPercent: percent,
    scaleUncertaintyFrom: from,
  });
  const by = (factor: number) => ({
    scale: factor,
    rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1],
    translation: [0, 0, 0] as const,
  });

  it('is read only where both scales are stated, against both', () => {
    expect(sizeOf(by(1.004), 0, scale(0.05, 'stated'), scale(0.05, 'stated')).reading).toBe('smaller');
    expect(sizeOf(by(0.996), 0, scale(0.05, 'stated'), scale(0.05, 'stated')).reading).toBe('larger');
    expect(sizeOf(by(1.004), 0, scale(0.3, 'stated'), scale(0.05, 'stated')).reading).toBe('same');
    expect(sizeOf(by(1.04), 0, scale(0.05, 'stated'), scale(0.3, 'assumed')).reading).toBe('notStated');
  });
});
