import { describe, expect, it } from 'vitest';
import { type Chain, chainOf } from '../../../../src/core/condition/marks/lines/chains.ts';
import { measureLine } from '../../../../src/core/condition/marks/lines/measureLine.ts';
import { emptyGrid } from '../../../../src/core/geometry/index.ts';

const pitch = 0.1;
const grid = emptyGrid(-12, 12, -10, 10, pitch);
const { width, left, top } = grid;
const placeOf = (i: number): [number, number] => [left + (i % width) * pitch, top - Math.floor(i / width) * pitch];

interface Form {
  readonly deg?: number;
  readonly lengthMm?: number;
  /** Height by the distance aside (to the left of the way) and along. */
  readonly section: (aside: number, along: number) => number;
  readonly ground?: (x: number, y: number) => number;
  /** How far the chain's cells reach beyond both ends. */
  readonly beyondMm?: number;
  readonly course?: (along: number) => number;
}

function measured({ deg = 0, lengthMm = 12, section, ground = () => 0, beyondMm = 0, course = () => 0 }: Form) {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  const frame = ([x, y]: [number, number]): [number, number] => [x * c + y * s, y * c - x * s];
  const height = Float32Array.from(grid.z, (_, i) => {
    const [along, aside] = frame(placeOf(i));
    return ground(...placeOf(i)) + (Math.abs(along) <= lengthMm / 2 ? section(aside - course(along), along) : 0);
  });
  const reach = lengthMm / 2 + beyondMm;
  const cells = [...grid.z.keys()].filter((i) => {
    const [along, aside] = frame(placeOf(i));
    return Math.abs(along) <= reach + 1e-6 && aside - course(along) > -pitch / 2 && aside - course(along) <= pitch / 2;
  });
  const chain: Chain = { ...chainOf(grid, cells, () => 1), x: 0, y: 0, ux: c, uy: s };
  return { line: measureLine(grid, height, chain), chain, height };
}

/** Triangle so high and so wide at its foot. */
const triangle = (high: number, foot: number) => (aside: number) =>
  high * Math.max(0, 1 - Math.abs(aside) / (foot / 2));

/** Twice the signed area of a polygon, halved; and the mean of its points. */
function polygonOf(outline: Float64Array): { area: number; x: number; y: number } {
  let [area, x, y] = [0, 0, 0];
  const n = outline.length / 2;
  for (let k = 0; k < n; k++) {
    const j = (k + 1) % n;
    area += (outline[2 * k] * outline[2 * j + 1] - outline[2 * j] * outline[2 * k + 1]) / 2;
    x += outline[2 * k] / n;
    y += outline[2 * k + 1] / n;
  }
  return { area, x, y };
}

describe('the measures of a line', () => {
  it.each([1, -1])('gives depth, length, width, area and volume of a triangular section of sign %s', (sign) => {
    const { line } = measured({ section: (a) => sign * triangle(0.3, 0.8)(a) });
    expect(line.depthMm).toBeCloseTo(0.3, 3);
    expect(Math.abs(line.lengthMm - 12)).toBeLessThan(0.15);
    // A triangle is half as wide at half its height.
    expect(line.widthMm).toBeCloseTo(0.4, 3);
    expect(Math.abs(line.areaMm2 - 0.4 * 12)).toBeLessThan(0.1);
    expect(Math.abs(line.volumeMm3 - 0.5 * 0.3 * 0.8 * 12)).toBeLessThan(0.04);
  });

  it('is as wide to either side as the section is', () => {
    const lopsided = (a: number): number => 0.3 * Math.max(0, 1 - (a > 0 ? a / 1 : -a / 0.6));
    expect(measured({ section: lopsided }).line.widthMm).toBeCloseTo(0.8, 2);
    expect(measured({ section: (a) => lopsided(-a) }).line.widthMm).toBeCloseTo(0.8, 2);
    // A flat top falls at its edge: linear between the last cell above half and the first below.
    expect(measured({ section: (a) => (Math.abs(a) < 0.45 ? 0.2 : 0) }).line.widthMm).toBeCloseTo(0.9, 2);
  });

  it('is never narrower than a cell, and a trough beyond reach is as wide as was looked', () => {
    expect(measured({ section: (a) => (Math.abs(a) < 0.01 ? 0.2 : 0) }).line.widthMm).toBeCloseTo(0.1, 6);
  });

  it('takes the height off the mean of both sides, or the one side that has data', () => {
    const sloping = measured({ section: triangle(0.3, 0.8), ground: (x, y) => 0.2 * y + 0.1 * x }).line;
    expect(sloping.depthMm).toBeCloseTo(0.3, 3);
    expect(Math.abs(sloping.widthMm - 0.4)).toBeLessThan(0.04);
    for (const side of [1, -1]) {
      const cut = measured({ section: triangle(0.3, 0.8), ground: (_, y) => (side * y > 1.25 ? Number.NaN : 0) }).line;
      expect(cut.depthMm).toBeCloseTo(0.3, 3);
      expect(cut.lengthMm).toBeCloseTo(12, 0);
    }
    const nowhere = measured({
      section: triangle(0.3, 0.8),
      ground: (_, y) => (Math.abs(y) > 1.25 ? Number.NaN : 0),
    }).line;
    expect(nowhere.depthMm).toBe(0);
    expect(nowhere.lengthMm).toBe(0);
    // Sides 1.4 mm off: what lies beyond does not matter.
    const far = measured({ section: triangle(0.3, 0.8), ground: (_, y) => (Math.abs(y) > 1.55 ? 5 : 0) }).line;
    expect(far.depthMm).toBeCloseTo(0.3, 3);
    expect(
      measured({ section: triangle(0.3, 0.8), ground: (_, y) => (Math.abs(y) > 1.35 ? 5 : 0) }).line.depthMm,
    ).toBeGreaterThan(4);
  });

  it('counts as depth what nine tenths of the crest do not exceed', () => {
    // From 0.1 to 0.4 mm evenly along.
    const { line } = measured({ section: (a, along) => triangle(0.25 + (0.3 * along) / 12, 0.8)(a) });
    expect(Math.abs(line.depthMm - 0.37)).toBeLessThan(0.005);
  });

  it('is as long as it stands at a quarter of its depth, whatever the chain’s ends', () => {
    expect(measured({ section: triangle(0.3, 0.8), beyondMm: 0.6 }).line.lengthMm).toBeCloseTo(12.1, 1);
    const tail = (share: number) =>
      measured({ section: (a, along) => triangle(along > 4 ? 0.3 * share : 0.3, 0.8)(a) }).line.lengthMm;
    expect(tail(0.27)).toBeCloseTo(12.1, 1);
    expect(tail(0.23)).toBeCloseTo(10.1, 1);
  });

  it('shows less than its length where it has gaps', () => {
    const { line } = measured({ section: (a, along) => (Math.abs(along) < 2 ? 0 : triangle(0.3, 0.8)(a)) });
    expect(line.lengthMm).toBeCloseTo(12.1, 1);
    expect(Math.abs(line.areaMm2 / line.widthMm - 8)).toBeLessThan(0.45);
    expect(Math.abs(line.volumeMm3 - 0.5 * 0.3 * 0.8 * 8)).toBeLessThan(0.06);
  });

  it.each([0, 30, 90, 145])('lies with its outline along the line at %s°, of its length and width', (deg) => {
    const { line } = measured({ deg, section: triangle(0.3, 0.8) });
    const { area, x, y } = polygonOf(line.outline);
    expect(Math.hypot(x, y)).toBeLessThan(0.15);
    // Counter-clockwise, from the first cell's centre to the last one's.
    expect(Math.abs(area - line.widthMm * (12 - 0)) / area).toBeLessThan(0.04);
    const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
    for (let k = 0; k < line.outline.length; k += 2) {
      const [px, py] = [line.outline[k], line.outline[k + 1]];
      expect(Math.abs(Math.abs(py * c - px * s) - line.widthMm / 2)).toBeLessThan(0.06);
      expect(Math.abs(px * c + py * s)).toBeLessThan(6.1);
    }
    // Pieces of a millimetre and a half: nine courses, two sides.
    expect(line.outline.length).toBe(2 * 2 * 9);
  });

  it('follows its course from side to side, and leaves out cells that a form pulled away', () => {
    const course = (along: number): number => 0.8 * Math.cos(along / 2.5);
    const bent = measured({ section: triangle(0.3, 0.8), course });
    const n = bent.line.outline.length / 4;
    for (let k = 0; k < n; k++) {
      const j = 2 * n - 1 - k;
      const u = (bent.line.outline[2 * k] + bent.line.outline[2 * j]) / 2;
      const v = (bent.line.outline[2 * k + 1] + bent.line.outline[2 * j + 1]) / 2;
      // The mean over 1.2 mm to either side flattens the bends and the ends.
      expect(Math.abs(v - course(u))).toBeLessThan(Math.abs(u) > 5 ? 0.25 : 0.1);
    }
    const { chain, height } = measured({ section: triangle(0.3, 0.8) });
    const pulled = {
      ...chain,
      cells: [...chain.cells, ...Array.from({ length: 9 }, (_, k) => chain.cells[60 + k] - 12 * width)],
    };
    for (let k = 1; k < measureLine(grid, height, pulled).outline.length; k += 2)
      expect(Math.abs(measureLine(grid, height, pulled).outline[k])).toBeLessThan(0.3);
  });
});
