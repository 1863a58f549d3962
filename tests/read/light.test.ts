import { decode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { type HeightGrid, seededRandom } from '../../src/core/geometry/index.ts';
import {
  castShadow,
  gradients,
  hillshade,
  lampsRound,
  light,
  lightAcross,
  lightPrepared,
  openness,
  prepareLight,
  skyView,
  strokeDirections,
  viewGrid,
} from '../../src/core/read/index.ts';
import { needing, realData } from '../realData.ts';
import { cellAt, gridFromRows, gridOf } from './grids.ts';

const upperLeft = { azimuthDeg: 315, heightDeg: 45 };

describe('gradients', () => {
  it('worked example of Horn slopes in the GIS handbook: 0.05, 3.8 (y up), slope 75.25762°', () => {
    const { dx, dy } = gradients(
      gridFromRows(
        [
          [50, 45, 50],
          [30, 30, 30],
          [8, 10, 10],
        ],
        5,
      ),
    );
    expect(dx[4]).toBeCloseTo(0.05, 6);
    expect(dy[4]).toBeCloseTo(3.8, 6);
    expect((Math.atan(Math.hypot(dx[4], dy[4])) * 180) / Math.PI).toBeCloseTo(75.2577, 3);
  });

  it('a tilted plane has one slope everywhere, edges and holes included', () => {
    const random = seededRandom(2);
    const torn = gridOf(
      4,
      3,
      0.1,
      (x, y) => 0.3 * x - 0.2 * y,
      () => random.next() > 0.2,
    );
    const tornSlopes = gradients(torn);
    for (let i = 0; i < torn.z.length; i++) {
      // A cell without a neighbour along an axis has nothing to tell that slope from.
      const beside = (c: number): number => (c >= 0 && c < torn.width ? torn.mask[i - (i % torn.width) + c] : 0);
      if (!torn.mask[i] || !(beside((i % torn.width) - 1) || beside((i % torn.width) + 1))) continue;
      expect(Math.abs(tornSlopes.dx[i] - 0.3)).toBeLessThan(1e-4);
    }
    const full = gridOf(4, 3, 0.1, (x, y) => 0.3 * x - 0.2 * y);
    const slopes = gradients(full);
    expect(Math.max(...slopes.dx.map((value) => Math.abs(value - 0.3)))).toBeLessThan(1e-4);
    expect(Math.max(...slopes.dy.map((value) => Math.abs(value + 0.2)))).toBeLessThan(1e-4);
  });
});

describe('hillshade', () => {
  const grey = (grid: HeightGrid, i: number): number => 255 * hillshade(grid, upperLeft)[i];

  it('check window: 154.03; flat 180.31; 45° planes toward and away from the lamp 255 and 0', () => {
    const window = [
      [2450, 2461, 2483],
      [2452, 2461, 2483],
      [2447, 2455, 2477],
    ];
    expect(grey(gridFromRows(window, 5), 4)).toBeCloseTo(154.03, 1);
    expect(
      grey(
        gridOf(1, 1, 0.1, () => 2),
        60,
      ),
    ).toBeCloseTo(180.31, 2);
    const half = Math.SQRT1_2;
    expect(
      grey(
        gridOf(1, 1, 0.1, (x, y) => half * (x - y)),
        60,
      ),
    ).toBeCloseTo(255, 1);
    expect(
      grey(
        gridOf(1, 1, 0.1, (x, y) => half * (y - x)),
        60,
      ),
    ).toBeCloseTo(0, 1);
  });

  it('photometric stereo check: n (0.6, 0, 0.8), albedo 0.5, three lamps (Woodham 1980, calculated)', () => {
    const plane = gridOf(1, 1, 0.1, (x) => -0.75 * x);
    const intensity = [90, 330, 210].map((azimuthDeg) => 0.5 * hillshade(plane, { azimuthDeg, heightDeg: 45 })[60]);
    expect(intensity[0]).toBeCloseTo(0.494975, 5);
    expect(intensity[1]).toBeCloseTo(0.176777, 5);
    expect(intensity[2]).toBeCloseTo(0.176777, 5);
  });

  it('turning relief and lamp together by a quarter changes nothing', () => {
    const shape = (x: number, y: number): number => 0.3 * Math.sin(3 * x) * Math.cos(2 * y) + 0.1 * x;
    const a = gridOf(2, 2, 0.05, shape);
    const turned = gridOf(2, 2, 0.05, (x, y) => shape(-y, x));
    const shadeA = hillshade(a, { azimuthDeg: 300, heightDeg: 25 });
    const shadeTurned = hillshade(turned, { azimuthDeg: 30, heightDeg: 25 });
    for (const [x, y] of [
      [0.3, 0.5],
      [-0.7, 0.2],
      [0.55, -0.85],
    ])
      expect(shadeTurned[cellAt(turned, y, -x)]).toBeCloseTo(shadeA[cellAt(a, x, y)], 4);
  });
});

describe('hillshade on real terrain', () => {
  const file = 'height/jacksboro_fault_dem_u16.png';

  it.skipIf(!realData(file))(needing(file, 'agrees with shading by slope and aspect'), () => {
    const png = decode(realData(file) as Uint8Array);
    const pitch = 90;
    const z = Float32Array.from(png.data);
    const grid: HeightGrid = { ...png, pitch, left: 0, top: 0, z, mask: new Uint8Array(z.length).fill(1) };
    const shade = hillshade(grid, upperLeft);
    const zenith = Math.PI / 4;
    const lampAngle = ((360 - 315 + 90) * Math.PI) / 180;
    let worst = 0;
    for (let r = 1; r < grid.height - 1; r++)
      for (let c = 1; c < grid.width - 1; c++) {
        const at = (v: number, h: number): number => z[(r + v) * grid.width + c + h];
        let gx = 0;
        let gy = 0;
        for (const k of [-1, 0, 1]) {
          gx += (k === 0 ? 2 : 1) * (at(k, 1) - at(k, -1));
          gy += (k === 0 ? 2 : 1) * (at(1, k) - at(-1, k));
        }
        const slope = Math.atan(Math.hypot(gx, gy) / (8 * pitch));
        const aspect = Math.atan2(gy, -gx);
        const expected =
          Math.cos(zenith) * Math.cos(slope) + Math.sin(zenith) * Math.sin(slope) * Math.cos(lampAngle - aspect);
        worst = Math.max(worst, Math.abs(Math.max(0, expected) - shade[r * grid.width + c]));
      }
    expect(worst).toBeLessThan(1e-5);
  });
});

describe('castShadow', () => {
  it('a wall 1 mm high throws a shadow of height/tan h on the level ground behind it', () => {
    for (const [azimuthDeg, x, y] of [
      [270, 1, 0],
      [90, -1, 0],
      [0, 0, -1],
      [180, 0, 1],
    ]) {
      const wall = (px: number, py: number): number => (Math.abs(px * x + py * y) < 0.11 ? 1 : 0);
      const grid = gridOf(12, 12, 0.05, wall);
      const seen = castShadow(grid, { azimuthDeg, heightDeg: 30 });
      const behind = (mm: number): number => seen[cellAt(grid, x * mm, y * mm)];
      const length = 0.1 + 1 / Math.tan(Math.PI / 6);
      expect(behind(0.3)).toBe(0);
      expect(behind(length - 0.1)).toBe(0);
      expect(behind(length + 0.1)).toBe(255);
      expect(behind(-0.3)).toBe(255);
    }
  });

  it('agrees with rays marched cell by cell', () => {
    const bumps = (x: number, y: number): number =>
      0.4 * Math.exp(-((x + 0.5) ** 2 + y * y) * 6) + 0.5 * Math.exp(-((x - 1) ** 2 + (y - 0.7) ** 2) * 9);
    const grid = gridOf(5, 5, 0.04, bumps);
    for (const azimuthDeg of [20, 111, 203, 315, 280]) {
      const lamp = { azimuthDeg, heightDeg: 14 };
      const seen = castShadow(grid, lamp);
      const a = (azimuthDeg * Math.PI) / 180;
      let differs = 0;
      for (let r = 0; r < grid.height; r++)
        for (let c = 0; c < grid.width; c++) {
          const x = grid.left + c * grid.pitch;
          const y = grid.top - r * grid.pitch;
          let dark = false;
          for (let t = 0.02; t < 4 && !dark; t += 0.02) {
            const px = x + t * Math.sin(a);
            const py = y + t * Math.cos(a);
            if (Math.abs(px) > 2.5 || Math.abs(py) > 2.5) break;
            dark = bumps(px, py) > bumps(x, y) + t * Math.tan((14 * Math.PI) / 180) + 0.002;
          }
          if (dark !== seen[r * grid.width + c] < 128) differs++;
        }
      expect(differs / grid.z.length).toBeLessThan(0.01);
    }
  });

  it('a higher lamp never darkens a cell', () => {
    const random = seededRandom(8);
    const grid = gridOf(3, 3, 0.05, () => 0.2 * random.next());
    const low = castShadow(grid, { azimuthDeg: 290, heightDeg: 10 });
    const high = castShadow(grid, { azimuthDeg: 290, heightDeg: 25 });
    for (let i = 0; i < low.length; i++) expect(high[i]).toBeGreaterThanOrEqual(low[i]);
  });
});

describe('skyView and openness', () => {
  // Round pit with a 45° horizon: 1 − sin 45°; openness 45° (formulas of Zakšek 2011, Yokoyama 2002, calculated).
  const cone = gridOf(8, 8, 0.05, (x, y) => Math.hypot(x, y));

  it('round pit with 45° horizon: 0.292893 and 45°', () => {
    const bottom = cellAt(cone, 0, 0);
    expect(skyView(cone, { radiusMm: 3 })[bottom]).toBeCloseTo(0.292893, 2);
    expect(openness(cone, { radiusMm: 3 })[bottom]).toBeCloseTo(45, 0);
    expect(skyView(cone, { radiusMm: 0.5 })[bottom]).toBeCloseTo(0.292893, 5);
  });

  it('a free plane sees the whole sky; a top is more open than 90°', () => {
    const plane = gridOf(3, 3, 0.05, () => 7);
    expect(Math.min(...skyView(plane, { radiusMm: 1 }))).toBeCloseTo(1, 5);
    expect(openness(plane, { radiusMm: 1 })[cellAt(plane, 0, 0)]).toBeCloseTo(90, 4);
    const hill = { ...cone, z: cone.z.map((value) => -value) };
    expect(openness(hill, { radiusMm: 3 })[cellAt(hill, 0, 0)]).toBeCloseTo(135, 0);
  });

  it('agrees with a search of every cell along the ray', () => {
    const shape = (x: number, y: number): number =>
      0.25 * Math.sin(4 * x + 1) * Math.cos(5 * y) +
      0.1 * Math.sin(9 * x - 7 * y) +
      0.3 * Math.exp(-(((x - 0.4) / 0.15) ** 4));
    const grid = gridOf(5, 5, 0.03, shape);
    const radiusMm = 1.5;
    const fast = skyView(grid, { radiusMm });
    let sumOfErrors = 0;
    let worst = 0;
    let count = 0;
    for (let y = -0.9; y < 0.9; y += 0.11)
      for (let x = -0.9; x < 0.9; x += 0.13) {
        const i = cellAt(grid, x, y);
        const cx = grid.left + (i % grid.width) * grid.pitch;
        const cy = grid.top - Math.floor(i / grid.width) * grid.pitch;
        let sines = 0;
        for (let d = 0; d < 16; d++) {
          let slope = 0;
          for (let t = grid.pitch; t <= radiusMm; t += grid.pitch / 2) {
            const a = (2 * Math.PI * d) / 16;
            const rise = shape(cx + t * Math.cos(a), cy - t * Math.sin(a)) - grid.z[i];
            slope = Math.max(slope, rise / t);
          }
          sines += slope / Math.hypot(1, slope);
        }
        const error = Math.abs(1 - sines / 16 - fast[i]);
        sumOfErrors += error;
        worst = Math.max(worst, error);
        count++;
      }
    expect(sumOfErrors / count).toBeLessThan(0.015);
    expect(worst).toBeLessThan(0.06);
  });
});

describe('light', () => {
  const relief = gridOf(
    4,
    4,
    0.05,
    (x, y) => 0.1 * Math.sin(5 * x + 2 * y),
    (x, y) => Math.hypot(x, y) < 1.9,
  );

  it('the level field keeps its grey whatever the height and number of lamps', () => {
    const flat = gridOf(1, 1, 0.1, () => 0);
    for (const lamps of [[{ azimuthDeg: 315, heightDeg: 8 }], lampsRound(5, 33)])
      expect(light(flat, lamps, { fieldGrey: 110 }).grey[60]).toBe(110);
  });

  it('plain light is Lambert × 255, and two half lamps in one place make one', () => {
    const shade = hillshade(relief, upperLeft);
    const one = light(relief, [upperLeft], { fieldGrey: 'plain' }).grey;
    const two = light(relief, [upperLeft, upperLeft], { fieldGrey: 'plain' }).grey;
    for (let i = 0; i < shade.length; i++) {
      expect(Math.abs(one[i] - 255 * shade[i])).toBeLessThanOrEqual(0.5 + 1e-3);
      expect(Math.abs(two[i] - one[i])).toBeLessThanOrEqual(1);
    }
  });

  it('keeps the lamp locked to the picture when the object is turned over', () => {
    // A dome turned over is a hollow: lit from the left, its right wall is bright.
    const dome = gridOf(4, 4, 0.05, (x, y) => -0.2 * (x * x + y * y));
    const left = { azimuthDeg: 270, heightDeg: 30 };
    const asItIs = light(dome, [left]).grey;
    const over = light(dome, [left], { view: 'turnedOver', sense: 'relief' });
    expect(asItIs[cellAt(dome, -1, 0)]).toBeGreaterThan(asItIs[cellAt(dome, 1, 0)]);
    expect(over.grey[cellAt(dome, -1, 0)]).toBeLessThan(over.grey[cellAt(dome, 1, 0)]);
    expect(over.shown).toMatchObject({ view: 'turnedOver', sense: 'relief' });
  });

  it('turned over twice and mirrored twice are as it is; mirrored keeps heights', () => {
    for (const view of ['mirrored', 'turnedOver'] as const) {
      const twice = viewGrid(viewGrid(relief, view), view);
      expect([...twice.z.map((value) => value + 0)]).toEqual([...relief.z.map((value) => value + 0)]);
    }
    const ramp = gridOf(2, 2, 0.1, (x) => x);
    expect(viewGrid(ramp, 'mirrored').z[cellAt(ramp, -0.8, 0)]).toBeCloseTo(0.8, 5);
    expect(viewGrid(ramp, 'turnedOver').z[cellAt(ramp, -0.8, 0)]).toBeCloseTo(-0.8, 5);
  });

  it('tells every angle and all that was done to the heights', () => {
    const lamps = [
      { azimuthDeg: 315, heightDeg: 12 },
      { azimuthDeg: 45.25, heightDeg: 30, strength: 0.4 },
    ];
    const told = { view: 'mirrored', exaggeration: 2, castShadows: true, soft: 0.25, softRadiusMm: 1 } as const;
    expect(light(relief, lamps, told).shown).toEqual({ code: 'lamps', lamps, sense: undefined, ...told });
    expect(light(relief, lamps).shown).toMatchObject({ view: 'asItIs', exaggeration: 1, castShadows: false, soft: 0 });
    const across = { strokeMm: 0.3, heightDeg: 25, middleAzimuthDeg: 300, exaggeration: 2, view: 'asItIs' } as const;
    expect(lightAcross(relief, across).shown).toEqual({ code: 'across', sense: undefined, ...across });
  });

  it('fills the picture it is given again with the same bytes', () => {
    const prepared = prepareLight(relief, { castShadows: true, soft: 0.3 });
    const first = lightPrepared(prepared, [upperLeft]).grey;
    const again = lightPrepared(prepared, [upperLeft], new Uint8ClampedArray(relief.z.length).fill(9)).grey;
    expect(again).toEqual(first);
  });
});

describe('lightAcross', () => {
  const stroke = (angleDeg: number): HeightGrid => {
    const a = (angleDeg * Math.PI) / 180;
    return gridOf(3, 3, 0.04, (x, y) => 0.1 * Math.exp(-(((x * Math.cos(a) + y * Math.sin(a)) / 0.15) ** 2)));
  };

  it('finds the direction across a straight stroke', () => {
    for (const angleDeg of [0, 30, 75, 120, 160]) {
      const grid = stroke(angleDeg);
      const { cos2, sin2, coherence } = strokeDirections(grid, 0.3);
      const i = cellAt(grid, 0, 0);
      const found = (0.5 * Math.atan2(sin2[i], cos2[i]) * 180) / Math.PI;
      expect(Math.abs(((found - angleDeg + 270) % 180) - 90)).toBeLessThan(1.5);
      expect(coherence[i]).toBeGreaterThan(0.95);
    }
  });

  it('shows strokes of every direction with nearly the contrast that one lamp gives only those across it', () => {
    const contrast = (grid: HeightGrid, grey: Uint8ClampedArray): number => {
      const near = [...grey].filter((_, i) => {
        const x = grid.left + (i % grid.width) * grid.pitch;
        const y = grid.top - Math.floor(i / grid.width) * grid.pitch;
        return Math.hypot(x, y) < 0.8;
      });
      const mean = near.reduce((a, b) => a + b, 0) / near.length;
      return Math.sqrt(near.reduce((a, b) => a + (b - mean) ** 2, 0) / near.length);
    };
    const lamp = { azimuthDeg: 315, heightDeg: 20 };
    const of = (angleDeg: number): { one: number; across: number } => {
      const grid = stroke(angleDeg);
      return { one: contrast(grid, light(grid, [lamp]).grey), across: contrast(grid, lightAcross(grid).grey) };
    };
    const best = of(135).one;
    for (let angleDeg = 0; angleDeg < 180; angleDeg += 15) {
      const { one, across } = of(angleDeg);
      // Across azimuth 45° lies the seam: there light across is no better than the one lamp.
      expect(across).toBeGreaterThan(angleDeg === 45 ? 0.9 * one : 0.85 * best);
    }
  });
});
