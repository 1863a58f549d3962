import { describe, expect, it } from 'vitest';
import { formRemoved, gaussianTransmission, localHeight, seededRandom } from '../../src/core/geometry/index.ts';
import {
  applyLook,
  curvatures,
  edgeAwareBase,
  edgeAwareDetail,
  exaggeratedShading,
  hillshade,
  type LookInput,
  parseLook,
  principalShading,
  reliefOfLook,
  toneOf,
} from '../../src/core/read/index.ts';
import { cellAt, gridOf } from './grids.ts';

const rms = (values: ArrayLike<number>): number => {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i] ** 2;
  return Math.sqrt(sum / values.length);
};

describe('formRemoved', () => {
  it('keeps 1 − 2^−(λc/λ)² of a wave (ISO 16610-61)', () => {
    for (const wavelength of [0.8, 2, 5]) {
      const grid = gridOf(60, 0.2, 0.05, (x) => Math.cos((2 * Math.PI * x) / wavelength));
      const middle = formRemoved(grid, 2).z[cellAt(grid, 0, 0)];
      expect(middle).toBeCloseTo(1 - gaussianTransmission(wavelength, 2), 2);
    }
  });
});

describe('localHeight', () => {
  it('brings faint and strong strokes to one height', () => {
    const grid = gridOf(40, 6, 0.1, (x, y) => (x < 0 ? 0.01 : 0.3) * Math.cos(2 * Math.PI * y));
    const level = localHeight(grid, { meanMm: 3, sizeMm: 6, floor: 0.05 });
    const faint = level.z[cellAt(grid, -12, 0)];
    const strong = level.z[cellAt(grid, 12, 0)];
    expect(faint).toBeGreaterThan(1);
    expect(strong / faint).toBeCloseTo(1, 1);
  });

  it('does not blow bare ground up: noise far below the rest stays low', () => {
    const random = seededRandom(9);
    const grid = gridOf(30, 10, 0.1, (x, y) => (x > -9 ? 0.1 * Math.cos(5 * y) : 0.0005 * random.normal()));
    const level = localHeight(grid, { meanMm: 3, sizeMm: 4 });
    expect(Math.abs(level.z[cellAt(grid, -13, 0)])).toBeLessThan(0.1);
  });

  it('does not care how tall the relief as a whole is', () => {
    const shape = (x: number, y: number): number => 0.1 * Math.sin(4 * x) * Math.cos(3 * y);
    const a = localHeight(gridOf(8, 8, 0.1, shape), { meanMm: 2 });
    const b = localHeight(
      gridOf(8, 8, 0.1, (x, y) => 7 * shape(x, y)),
      { meanMm: 2 },
    );
    for (let i = 0; i < a.z.length; i += 37) expect(b.z[i]).toBeCloseTo(a.z[i], 3);
  });
});

describe('edgeAwareBase', () => {
  it('smooths what is low and keeps a step, so that its detail has no border beside a break', () => {
    const random = seededRandom(4);
    const step = (x: number): number => (x > 0 ? 0.8 : 0);
    const grid = gridOf(12, 12, 0.1, (x) => step(x) + 0.005 * random.normal());
    const base = edgeAwareBase(grid, { sizeMm: 2, edgeMm: 0.03 });
    const besideStep = base.z[cellAt(grid, -0.3, 0)];
    expect(Math.abs(besideStep)).toBeLessThan(0.02);
    const guided = edgeAwareDetail(grid, { sizeMm: 2, edgeMm: 0.03 }).z[cellAt(grid, -0.3, 0)];
    const plain = formRemoved(grid, 2).z[cellAt(grid, -0.3, 0)];
    expect(Math.abs(plain)).toBeGreaterThan(0.1);
    expect(Math.abs(guided)).toBeLessThan(0.1 * Math.abs(plain));
    const far = base.z.filter((_, i) => grid.left + (i % grid.width) * grid.pitch < -3);
    expect(rms(far)).toBeLessThan(0.0025);
  });

  it('a large height under everything changes nothing', () => {
    const shape = (x: number, y: number): number => 0.1 * Math.sin(2 * x) + 0.02 * Math.cos(9 * y);
    const a = edgeAwareDetail(gridOf(8, 8, 0.1, shape), { sizeMm: 2, edgeMm: 0.05 });
    const b = edgeAwareDetail(
      gridOf(8, 8, 0.1, (x, y) => 40 + shape(x, y)),
      { sizeMm: 2, edgeMm: 0.05 },
    );
    for (let i = 0; i < a.z.length; i += 13) expect(b.z[i]).toBeCloseTo(a.z[i], 4);
  });
});

describe('curvatures', () => {
  it('a sphere of radius R bends by 1/R both ways, a hollow the other way, a saddle both', () => {
    const R = 5;
    const dome = gridOf(4, 4, 0.02, (x, y) => Math.sqrt(R * R - x * x - y * y));
    const { ridge, valley } = curvatures(dome, 0.1);
    expect(ridge[cellAt(dome, 0, 0)]).toBeCloseTo(1 / R, 3);
    expect(ridge[cellAt(dome, 1, 0.7)]).toBeCloseTo(1 / R, 2);
    expect(valley[cellAt(dome, 0, 0)]).toBe(0);
    const saddle = gridOf(4, 4, 0.02, (x, y) => 0.5 * (0.3 * x * x - 0.2 * y * y));
    const both = curvatures(saddle, 0.1);
    expect(both.ridge[cellAt(saddle, 0, 0)]).toBeCloseTo(0.2, 3);
    expect(both.valley[cellAt(saddle, 0, 0)]).toBeCloseTo(0.3, 3);
  });

  it('does not care which way a ridge runs', () => {
    const of = (deg: number): number => {
      const a = (deg * Math.PI) / 180;
      const grid = gridOf(3, 3, 0.02, (x, y) => -0.8 * (x * Math.cos(a) + y * Math.sin(a)) ** 2);
      return curvatures(grid, 0.08).ridge[cellAt(grid, 0, 0)];
    };
    for (const deg of [20, 45, 90]) expect(of(deg)).toBeCloseTo(of(0), 3);
    expect(of(0)).toBeCloseTo(1.6, 2);
  });
});

describe('principalShading', () => {
  it('shows strokes of all directions in its first two components, and puts light from the upper left first', () => {
    const grid = gridOf(6, 6, 0.05, (x, y) => 0.15 * Math.sin(6 * x) + 0.15 * Math.sin(6 * y));
    const { components, explained } = principalShading(grid);
    expect(explained[0] + explained[1] + explained[2]).toBeGreaterThan(0.97);
    expect(explained[0]).toBeGreaterThanOrEqual(explained[1]);
    const upperLeft = hillshade(grid, { azimuthDeg: 315, heightDeg: 35 });
    const mean = upperLeft.reduce((a, b) => a + b, 0) / upperLeft.length;
    const along = components[0].reduce((sum, value, i) => sum + value * (upperLeft[i] - mean), 0);
    expect(along).toBeGreaterThan(0);
    expect(rms(components[0])).toBeCloseTo(1, 1);
  });
});

describe('exaggeratedShading', () => {
  it('level ground is mid-grey and a faint ripple on a steep slope shows as on level ground', () => {
    const flat = gridOf(3, 3, 0.05, () => 1);
    expect(exaggeratedShading(flat)[cellAt(flat, 0, 0)]).toBeCloseTo(0.5, 5);
    const ripple = (x: number, y: number): number => 0.004 * Math.sin(15 * (x - y));
    const contrast = (slope: number): number => {
      const grid = gridOf(4, 4, 0.04, (x, y) => ripple(x, y) + slope * (x + y));
      const shade = exaggeratedShading(grid);
      const near = [...shade].filter((_, i) => {
        const c = i % grid.width;
        const r = Math.floor(i / grid.width);
        return c > 30 && r > 30 && c < grid.width - 30 && r < grid.height - 30;
      });
      const mean = near.reduce((a, b) => a + b, 0) / near.length;
      return rms(near.map((value) => value - mean));
    };
    expect(contrast(0.5)).toBeGreaterThan(0.6 * contrast(0));
  });
});

describe('looks', () => {
  const grid = gridOf(
    6,
    6,
    0.06,
    (x, y) => 0.1 * Math.sin(4 * x) * Math.cos(3 * y) + 0.02 * x * x,
    (x, y) => Math.hypot(x, y) < 2.8,
  );

  const every: LookInput = {
    name: 'everything',
    steps: [
      { do: 'removeForm', order: 2 },
      { do: 'formRemoved', wavelengthMm: 8 },
      { do: 'edgeAwareDetail', sizeMm: 3, edgeMm: 0.2 },
      { do: 'fromStart' },
      { do: 'smooth', wavelengthMm: 0.2 },
      { do: 'bandPass', fromMm: 0.1, toMm: 6 },
      { do: 'edgeAwareBase', sizeMm: 0.5, edgeMm: 0.02 },
      { do: 'localHeight', meanMm: 3 },
      { do: 'exaggerate', factor: 2 },
      { do: 'light', lamps: [{ azimuthDeg: 315, heightDeg: 20 }] },
      { do: 'lightAcross', share: 0.5 },
      { do: 'skyView', radiusMm: 1, over: 'multiply' },
      { do: 'openness', radiusMm: 1, share: 0.2 },
      { do: 'curvature', scaleMm: 0.15, over: 'lighten', share: 0.3 },
      { do: 'heights', share: 0.1 },
      { do: 'principalShading', component: 2, share: 0.1 },
      { do: 'exaggeratedShading', over: 'darken', share: 0.3 },
    ],
  };

  it('carries out every kind of step, within 0 to 255, and tells each as it was carried out', () => {
    const { grey, shown } = applyLook(grid, JSON.parse(JSON.stringify(every)), { emptyGrey: 17 });
    expect(new Set(grey).size).toBeGreaterThan(50);
    for (let i = 0; i < grey.length; i++) if (!grid.mask[i]) expect(grey[i]).toBe(17);
    expect(shown).toEqual({ code: 'look', ...parseLook(every), view: 'asItIs', sense: undefined });
  });

  it('a share of 0 leaves the picture, and steps of relief alone give heights', () => {
    const lit: LookInput = { name: 'a', steps: [{ do: 'light', lamps: [{ azimuthDeg: 10, heightDeg: 30 }] }] };
    const same: LookInput = { name: 'a', steps: [...lit.steps, { do: 'heights', share: 0 }] };
    expect(applyLook(grid, same).grey).toEqual(applyLook(grid, lit).grey);
    const smooth: LookInput = { name: 'b', steps: [{ do: 'smooth', wavelengthMm: 1 }] };
    const relief = reliefOfLook(grid, smooth);
    const expected = toneOf(relief.z, relief.mask);
    const { grey } = applyLook(grid, smooth);
    for (let i = 0; i < grey.length; i += 11) expect(Math.abs(grey[i] - 255 * expected[i])).toBeLessThanOrEqual(0.51);
  });

  it('says which step and field is wrong', () => {
    expect(() => parseLook({ name: 'x', steps: [{ do: 'smooth', wavelengthMm: -1 }] })).toThrow(
      /steps\.0\.wavelengthMm/,
    );
    expect(() => parseLook({ name: 'x', steps: [{ do: 'smooth', wavelengthMm: 1, wavelenght: 2 }] })).toThrow(
      RangeError,
    );
    expect(() => parseLook({ name: 'x', steps: [{ do: 'sparkle' }] })).toThrow(/steps\.0/);
  });
});
