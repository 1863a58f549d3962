import { describe, expect, it } from 'vitest';
import { movedOnto } from '../../../../src/core/condition/marks/lines/carrierSurface.ts';
import type { Chain } from '../../../../src/core/condition/marks/lines/chains.ts';
import type { LineSurface } from '../../../../src/core/condition/marks/lines/lineCourse.ts';
import { lineNumbers, lineSection } from '../../../../src/core/condition/marks/lines/lineSection.ts';
import type { LineNumbers } from '../../../../src/core/condition/marks/lines/lineTypes.ts';
import { type HeightGrid, quantile, sampleGrid, seededRandom } from '../../../../src/core/geometry/index.ts';
import { lineWords } from '../../../../src/core/report/words/index.ts';

type Height = (x: number, y: number) => number;

/** A straight or wandering line over a ground: `section` gives its height by the distance aside, mm. */
interface Line {
  readonly x: number;
  readonly y: number;
  readonly deg: number;
  readonly lengthMm: number;
  readonly aside?: (along: number) => number;
}

const cells = { width: 400, height: 400, pitch: 0.1, left: -19.95, top: 19.95 };

const directionOf = ({ deg }: Line): [number, number] => [
  Math.cos((deg * Math.PI) / 180),
  Math.sin((deg * Math.PI) / 180),
];

/** Along and aside of a place, the line's own wandering taken off. */
function fromLine(line: Line, x: number, y: number): [number, number] {
  const [ux, uy] = directionOf(line);
  const along = (x - line.x) * ux + (y - line.y) * uy;
  return [along, (y - line.y) * ux - (x - line.x) * uy - (line.aside?.(along) ?? 0)];
}

/** The line as the finder would hand it over: the cells that it passes. */
function chainOf(line: Line): Chain {
  const [ux, uy] = directionOf(line);
  const places: number[] = [];
  for (let along = -line.lengthMm / 2; along <= line.lengthMm / 2; along += cells.pitch) {
    const aside = line.aside?.(along) ?? 0;
    const col = Math.round((line.x + along * ux - aside * uy - cells.left) / cells.pitch);
    const row = Math.round((cells.top - line.y - along * uy - aside * ux) / cells.pitch);
    places.push(row * cells.width + col);
  }
  const { x, y, lengthMm } = line;
  return { cells: [...new Set(places)], lengthMm, strengthMm: 0.1, x, y, ux, uy, strayMm: 0 };
}

const gridOf = (height: Height, pitch: number, noiseMm = 0, seed = 1): HeightGrid => {
  const random = seededRandom(seed);
  const n = Math.round(40 / pitch);
  const z = new Float32Array(n * n);
  const [left, top] = [-20, 20];
  for (let i = 0; i < z.length; i++)
    z[i] = height(left + (i % n) * pitch, top - Math.floor(i / n) * pitch) + noiseMm * random.normal();
  return { width: n, height: n, pitch, left, top, z, mask: new Uint8Array(n * n).fill(1) };
};

const nowhere: Height = () => Number.NaN;

const surfaceOf = (own: Height, design: Height = nowhere, pitchMm = 0.05): LineSurface => ({ own, design, pitchMm });

/** The same through a scan of the given pitch. */
const scanned = (own: Height, design: Height, pitch: number, noiseMm = 0, seed = 1): LineSurface => {
  const grid = gridOf(own, pitch, noiseMm, seed);
  return { own: (x, y) => sampleGrid(grid, x, y), design, pitchMm: pitch };
};

const measure = (surface: LineSurface, line: Line, sign: 1 | -1, widthMm: number): LineNumbers => {
  const numbers = lineNumbers(surface, chainOf(line), cells, sign, widthMm);
  if (!numbers) throw new Error('not measured');
  return numbers;
};

const line: Line = { x: 1, y: -2, deg: 27, lengthMm: 18 };

/** V-groove 0.8 mm wide and 0.3 mm deep with lips of 0.06 mm and 0.35 mm to either side of it. */
const vee = (aside: number): number => {
  const t = Math.abs(aside);
  if (t < 0.4) return -0.3 * (1 - t / 0.4);
  return t < 0.75 ? 0.06 : 0;
};
const grooved: Height = (x, y) => vee(fromLine(line, x, y)[1]);
const hills: Height = (x, y) => 0.4 * Math.max(0, Math.sin(x / 1.3) * Math.cos(y / 1.7));

describe('the section of a line', () => {
  it('gives back the depth, width, area, flanks and lips of a V-groove', () => {
    const { section, strayMm, seen } = measure(scanned(grooved, nowhere, 0.05), line, -1, 0.4);
    expect(Math.abs(section.depthMm - 0.3)).toBeLessThan(0.02);
    expect(Math.abs(section.widthMm - 0.4)).toBeLessThan(0.03);
    expect(Math.abs(section.areaMm2 - 0.5 * 0.3 * 0.8)).toBeLessThan(0.01);
    for (const side of [0, 1]) {
      // tan 36.87° = 0.3 / 0.4
      expect(Math.abs(section.flankDeg[side] - 36.87)).toBeLessThan(3);
      expect(Math.abs(section.lipMm[side] - 0.06)).toBeLessThan(0.012);
    }
    expect(section.bottom).toBe('vee');
    expect(strayMm).toBeLessThan(0.01);
    expect(seen).toBe(1);
  });

  it('keeps the section area under a scan too coarse for the width', () => {
    const narrow: Height = (x, y) => Math.min(0, -0.3 * (1 - Math.abs(fromLine(line, x, y)[1]) / 0.1));
    const { section } = measure(
      scanned(narrow, () => 0, 0.2),
      line,
      -1,
      0.3,
    );
    expect(section.widthMm).toBeGreaterThan(0.15);
    expect(section.depthMm).toBeLessThan(0.25);
    expect(Math.abs(section.areaMm2 - 0.5 * 0.3 * 0.2)).toBeLessThan(0.006);
    expect(section.bottom).toBe('unresolved');
  });

  it.each([
    ['round', (t: number): number => Math.max(0, 1 - (t / 0.4) ** 2)],
    ['flat', (t: number): number => Math.max(0, Math.min(1, (0.45 - t) / 0.07))],
    ['vee', (t: number): number => Math.max(0, 1 - t / 0.4)],
  ] as const)('tells a %s bottom', (bottom, form) => {
    const own: Height = (x, y) => -0.3 * form(Math.abs(fromLine(line, x, y)[1]));
    expect(
      measure(
        scanned(own, () => 0, 0.05),
        line,
        -1,
        0.5,
      ).section.bottom,
    ).toBe(bottom);
  });

  it('does not change when the line is moved or turned', () => {
    const here = measure(surfaceOf(grooved), line, -1, 0.4);
    for (const [x, y, deg] of [
      [-3, 2.2, 27],
      [1, -2, 117],
      [0.3, 0.7, -71],
    ]) {
      const other = { ...line, x, y, deg };
      const there = measure(
        surfaceOf((px, py) => vee(fromLine(other, px, py)[1])),
        other,
        -1,
        0.4,
      );
      expect(there.section.depthMm).toBeCloseTo(here.section.depthMm, 2);
      expect(there.section.widthMm).toBeCloseTo(here.section.widthMm, 2);
      expect(there.section.lipMm[0]).toBeCloseTo(here.section.lipMm[0], 2);
      expect(Math.abs(there.strayMm - here.strayMm)).toBeLessThan(0.01);
    }
  });

  it('is the same for a ridge as for the groove that it fills, level mirrored', () => {
    const cutTo: Height = (x, y) => Math.max(hills(x, y), 0.25 * (1 - Math.abs(fromLine(line, x, y)[1]) / 0.35));
    const ridge = measure(surfaceOf(cutTo, hills), line, 1, 0.3);
    const groove = measure(
      surfaceOf(
        (x, y) => -cutTo(x, y),
        (x, y) => -hills(x, y),
      ),
      line,
      -1,
      0.3,
    );
    expect(groove.section.heightMm).toEqual(ridge.section.heightMm);
    expect(groove.level?.levelMm).toBeCloseTo(-(ridge.level?.levelMm ?? 0), 9);
    expect(groove.level?.forLevel).toBeCloseTo(ridge.level?.forLevel ?? 0, 9);
  });

  it('changes sides and nothing else when seen from behind', () => {
    const oneLip: Height = (x, y) => {
      const [, aside] = fromLine(line, x, y);
      return aside > 0 ? vee(aside) : Math.min(0, vee(aside));
    };
    const mirrored = { ...line, x: -line.x, deg: 180 - line.deg };
    const a = measure(surfaceOf(oneLip), line, -1, 0.4).section;
    const b = measure(
      surfaceOf((x, y) => oneLip(-x, y)),
      mirrored,
      -1,
      0.4,
    ).section;
    expect(a.lipMm[0]).toBeLessThan(0.01);
    expect(Math.abs(a.lipMm[1] - 0.06)).toBeLessThan(0.012);
    expect(b.lipMm[0]).toBeCloseTo(a.lipMm[1], 2);
    expect(b.lipMm[1]).toBeCloseTo(a.lipMm[0], 2);
    expect(b.depthMm).toBeCloseTo(a.depthMm, 2);
  });

  it('states an uncertainty that holds the truth as often as it should', () => {
    // A groove whose depth changes from piece to piece by 0.02 mm about 0.3 mm.
    const off: number[] = [];
    for (let seed = 1; seed <= 24; seed++) {
      const random = seededRandom(seed);
      const depth = Array.from({ length: 40 }, () => 0.3 + 0.02 * random.normal());
      const own: Height = (x, y) => {
        const [along, aside] = fromLine(line, x, y);
        return -depth[Math.floor(along + 20)] * Math.max(0, 1 - Math.abs(aside) / 0.5);
      };
      const { section } = measure(
        surfaceOf(own, () => 0),
        line,
        -1,
        0.5,
      );
      // What averaging over the middle's neighbourhood and the course's own error cost is common to all.
      off.push(section.depthMm - 0.3, section.depthSdMm);
    }
    const errors = off.filter((_, k) => k % 2 === 0);
    const sds = off.filter((_, k) => k % 2 === 1);
    const mean = errors.reduce((sum, e) => sum + e, 0) / errors.length;
    const scatter = Math.sqrt(errors.reduce((sum, e) => sum + (e - mean) ** 2, 0) / (errors.length - 1));
    const stated = quantile(Float64Array.from(sds), 0.5);
    expect(Math.abs(mean)).toBeLessThan(0.012);
    expect(scatter / stated).toBeGreaterThan(0.6);
    expect(scatter / stated).toBeLessThan(1.6);
  });
});

describe('the verdict on a line', () => {
  const straight: Line = { x: 0, y: 0, deg: 8, lengthMm: 26 };
  const say = (own: Height, design: Height, of: Line, sign: 1 | -1, widthMm: number, noiseMm = 0.006) =>
    lineSection(scanned(own, design, 0.12, noiseMm), chainOf(of), cells, sign, widthMm);

  it('calls a cut what keeps one level and stops at high relief', () => {
    const own: Height = (x, y) => Math.max(hills(x, y), 0.3 * (1 - Math.abs(fromLine(straight, x, y)[1]) / 0.4));
    const found = say(own, hills, straight, 1, 0.4);
    const { verdict, measured } = found;
    expect(verdict).toBe('cut');
    expect(Math.abs((measured?.level?.levelMm ?? 0) - 0.3)).toBeLessThan(0.06);
    expect(measured?.level?.forLevel).toBeGreaterThan(2.5);
    expect(lineWords(found)).toMatch(
      /^Straight to 0\.0\d mm r\.m\.s\. over 2\d\.\d mm, .*(one level|absent where).*: a cut\.$/,
    );
  });

  it('calls a crack what wanders and follows heights and hollows alike', () => {
    const wandering: Line = { ...straight, aside: (t) => 0.5 * Math.sin(t / 1.9) + 0.2 * Math.sin(t / 0.8) };
    const own: Height = (x, y) => hills(x, y) + Math.max(0, 0.35 * (1 - Math.abs(fromLine(wandering, x, y)[1]) / 0.14));
    const found = say(own, hills, wandering, 1, 0.2);
    const { verdict, measured } = found;
    expect(verdict).toBe('crack');
    expect(measured?.level?.forLevel).toBeLessThan(-2.5);
    expect(lineWords(found)).toMatch(/^Wandering .*following the surface over 0\.\d\d mm of relief: .*crack/);
  });

  it('calls a scratch what is shallow, narrow and straight', () => {
    const own: Height = (x, y) => hills(x, y) - Math.max(0, 0.06 * (1 - Math.abs(fromLine(straight, x, y)[1]) / 0.15));
    const grid = gridOf(own, 0.05, 0.003);
    const surface = surfaceOf((x, y) => sampleGrid(grid, x, y), hills);
    expect(lineSection(surface, chainOf(straight), cells, -1, 0.15).verdict).toBe('scratch');
  });

  it('counts lips against a crack', () => {
    const lip =
      (height: number): Height =>
      (x, y) => {
        const t = Math.abs(fromLine(line, x, y)[1]);
        return t < 0.2 ? -0.25 * (1 - t / 0.2) : t < 0.4 ? height : 0;
      };
    const of = (height: number) =>
      lineSection(
        scanned(lip(height), () => 0, 0.05),
        chainOf(line),
        cells,
        -1,
        0.2,
      ).grounds.find(({ name }) => name === 'lips');
    expect(of(0)).toBeUndefined();
    expect(of(0.05)?.crack).toBeLessThan(-0.5);
  });

  it('cannot tell without data, on too short a piece, or where nothing stands', () => {
    const without = lineSection(surfaceOf(nowhere), chainOf(line), cells, 1, 0.4);
    expect(without).toMatchObject({ verdict: 'cannotTell', measured: null, order: [], grounds: [] });
    expect(lineWords(without)).toMatch(/cannot be told/);
    const flat = say(
      () => 0,
      () => 0,
      line,
      1,
      0.4,
      0,
    );
    expect(flat.verdict).toBe('cannotTell');
    const noise = say(
      () => 0,
      () => 0,
      line,
      1,
      0.4,
      0.02,
    );
    expect(noise.verdict).toBe('cannotTell');
    const piece = lineSection(
      surfaceOf((x, y) => (Math.abs(fromLine(line, x, y)[0]) < 0.4 ? grooved(x, y) : Number.NaN)),
      chainOf(line),
      cells,
      -1,
      0.4,
    );
    expect(piece.verdict).toBe('cannotTell');
  });
});

describe('movedOnto', () => {
  it('brings a surface back onto the coarser one from a small shift in place and height', () => {
    const form: Height = (x, y) => 0.3 * Math.sin(x / 0.9) * Math.cos(y / 1.1) + 0.1 * Math.sin(x / 0.5 + y);
    const coarse = gridOf(form, 0.2);
    const moved = movedOnto((x, y) => form(x - 0.11, y + 0.07) + 0.04, coarse, {
      ...chainOf(line),
      cells: Array.from({ length: 60 }, (_, k) => (60 + k) * coarse.width + 70 + k),
    });
    for (const [x, y] of [
      [-4, 6],
      [-2.3, 5.1],
      [0, 3],
    ])
      expect(Math.abs(moved(x, y) - form(x, y))).toBeLessThan(0.004);
  });
});
