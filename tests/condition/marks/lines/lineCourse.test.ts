import { describe, expect, it } from 'vitest';
import { type Chain, chainOf } from '../../../../src/core/condition/marks/lines/chains.ts';
import { lineCourse, placeOnLine, slopeAt } from '../../../../src/core/condition/marks/lines/lineCourse.ts';
import { lineProfiles, meanWithin } from '../../../../src/core/condition/marks/lines/lineProfiles.ts';
import { emptyGrid, quantile } from '../../../../src/core/geometry/index.ts';

const grid = emptyGrid(-14, 14, -14, 14, 0.2);
const at = (x: number, y: number): number =>
  Math.round((grid.top - y) / 0.2) * grid.width + Math.round((x - grid.left) / 0.2);

/** Cells on the x axis from `from` to `to`; the line itself lies where `course` says. */
const chainAlongX = (from: number, to: number): Chain => ({
  ...chainOf(
    grid,
    Array.from({ length: Math.round((to - from) / 0.2) + 1 }, (_, k) => at(from + 0.2 * k, 0)),
    () => 1,
  ),
  x: 0,
  y: 0,
  ux: 1,
  uy: 0,
});

type Height = (x: number, y: number) => number;
const surface = (own: Height, design: Height = () => 0) => ({ own, design, pitchMm: 0.05 });
const triangle = (t: number, high = 0.3, half = 0.4): number => high * Math.max(0, 1 - Math.abs(t) / half);
const chain = chainAlongX(-9, 9);

describe('the course of a line', () => {
  it('has a node at every end and at even steps of about 0.75 mm, all on a straight line', () => {
    const { nodes, spacingMm } = lineCourse(
      surface((_, y) => triangle(y)),
      chain,
      grid,
      1,
      0.4,
    );
    expect(nodes).toHaveLength(25);
    expect(spacingMm).toBeCloseTo(0.75, 9);
    nodes.forEach(({ along, aside, seen }, k) => {
      expect(along).toBeCloseTo(-9 + 0.75 * k, 9);
      expect(aside).toBeCloseTo(0, 6);
      expect(seen).toBe(true);
    });
    expect(
      lineCourse(
        surface((_, y) => triangle(y)),
        chainAlongX(0, 1),
        grid,
        1,
        0.4,
      ).nodes,
    ).toHaveLength(5);
  });

  it.each([-0.4, -0.13, 0.25, 0.4])('finds a line %s mm aside of its cells by its centroid', (off) => {
    for (const sign of [1, -1] as const) {
      const { nodes } = lineCourse(
        surface((_, y) => sign * triangle(y - off)),
        chain,
        grid,
        sign,
        0.4,
      );
      for (const node of nodes) expect(Math.abs(node.aside - off)).toBeLessThan(0.003);
    }
  });

  it('takes the centroid of what exceeds half of the crest: lopsided lines by their upper half', () => {
    const lopsided = (y: number): number => 0.3 * Math.max(0, 1 - (y > 0 ? y / 0.6 : -y / 0.2));
    const { nodes } = lineCourse(
      surface((_, y) => lopsided(y)),
      chain,
      grid,
      1,
      0.4,
    );
    // Above half: a triangle from −0.1 over 0 to 0.3; its centroid is a third of the sum.
    for (const { aside } of nodes) expect(Math.abs(aside - (0.3 - 0.1) / 3)).toBeLessThan(0.01);
  });

  it('looks no farther than 0.6 mm aside', () => {
    const beside = (off: number) =>
      lineCourse(
        surface((_, y) => triangle(y, 0.1) + triangle(y - off, 0.3, 0.2)),
        chain,
        grid,
        1,
        0.4,
      ).nodes[12].aside;
    expect(beside(0.55)).toBeGreaterThan(0.4);
    expect(beside(1)).toBeLessThan(0.1);
  });

  it('measures over the design where that is known', () => {
    const wall: Height = (_, y) => (y > 0.2 ? 0.9 : 0);
    const over = lineCourse(
      surface((x, y) => wall(x, y) + triangle(y), wall),
      chain,
      grid,
      1,
      0.4,
    );
    for (const { aside } of over.nodes) expect(aside).toBeCloseTo(0, 6);
    const without = lineCourse(
      surface(
        (x, y) => wall(x, y) + triangle(y),
        () => Number.NaN,
      ),
      chain,
      grid,
      1,
      0.4,
    );
    expect(without.nodes[12].aside).toBeGreaterThan(0.2);
  });

  it('is seen at three tenths of the usual crest, and straight between the nodes that are', () => {
    const weak = (share: number) =>
      lineCourse(
        surface((x, y) => (Math.abs(x) < 3 ? triangle(y - 0.2, 0.3 * share) : triangle(y - 0.02 * x))),
        chain,
        grid,
        1,
        0.4,
      ).nodes;
    expect(weak(0.33).every(({ seen }) => seen)).toBe(true);
    const lost = weak(0.25);
    expect(lost.filter(({ seen }) => !seen).map(({ along }) => along)).toEqual([
      -2.25, -1.5, -0.75, 0, 0.75, 1.5, 2.25,
    ]);
    const [before, after] = [lost[8], lost[16]];
    for (let k = 9; k < 16; k++)
      expect(lost[k].aside).toBeCloseTo(before.aside + ((after.aside - before.aside) * (k - 8)) / 8, 9);
    // Beyond the last node that is seen its place goes on.
    const ends = lineCourse(
      surface((x, y) => (Math.abs(x) < 6 ? triangle(y - 0.1) : 0)),
      chain,
      grid,
      1,
      0.4,
    ).nodes;
    expect(ends[0].seen).toBe(false);
    expect(ends[24].seen).toBe(false);
    expect(ends[0].aside).toBe(ends.find(({ seen }) => seen)?.aside);
    expect(ends[24].aside).toBe(ends.findLast(({ seen }) => seen)?.aside);
    expect(
      lineCourse(
        surface(() => 0),
        chain,
        grid,
        1,
        0.4,
      ).nodes.every(({ seen, aside }) => !seen && aside === 0),
    ).toBe(true);
  });

  it('averages along by 0.6 mm to either side, following its slope', () => {
    // Heights change sign every 0.3 mm along: what is left of them is little.
    const ripple = lineCourse(
      surface((x, y) => triangle(y) * (1 + 0.9 * Math.cos((2 * Math.PI * x) / 0.3))),
      chain,
      grid,
      1,
      0.4,
    );
    expect(ripple.nodes.every(({ seen }) => seen)).toBe(true);
    const slanted = chainAlongX(-9, 9);
    const cells = Array.from({ length: 91 }, (_, k) => at(-9 + 0.2 * k, 0.3 * (-9 + 0.2 * k)));
    const { nodes } = lineCourse(
      surface((x, y) => triangle(y - 0.3 * x, 0.3, 0.15)),
      { ...slanted, cells },
      grid,
      1,
      0.15,
    );
    for (const { along, aside, seen } of nodes.slice(2, -2)) {
      expect(seen).toBe(true);
      expect(Math.abs(aside - 0.3 * along)).toBeLessThan(0.02);
    }
  });

  it('knows its slope from two nodes to either side, fewer at the ends', () => {
    const nodes = [0, 1, 4, 9, 16, 25].map((aside) => ({ aside }));
    expect(slopeAt(nodes, 3, 0.5)).toBeCloseTo((25 - 1) / 2, 12);
    expect(slopeAt(nodes, 0, 0.5)).toBeCloseTo(4 / 1, 12);
    expect(slopeAt(nodes, 1, 0.5)).toBeCloseTo(9 / 1.5, 12);
    expect(slopeAt(nodes, 5, 0.5)).toBeCloseTo((25 - 9) / 1, 12);
    expect(slopeAt([{ aside: 3 }], 0, 0.5)).toBe(0);
  });

  it('places along and aside of a line: aside to the left of the way', () => {
    const [x, y] = placeOnLine({ x: 1, y: 2, ux: 0.6, uy: 0.8 } as Chain, 5, 10);
    expect(x).toBeCloseTo(1 + 3 - 8, 12);
    expect(y).toBeCloseTo(2 + 4 + 6, 12);
  });
});

describe('the profiles of a line', () => {
  const of = (own: Height, design: Height = () => Number.NaN, sign: 1 | -1 = 1, widthMm = 0.4, on = chain) =>
    lineProfiles(surface(own, design), on, lineCourse(surface(own, design), on, grid, sign, widthMm), sign, widthMm);

  it('runs from end to end in steps of about a cell and across by 1.2 mm, six cells, or 1.6 widths and a half more', () => {
    const { aside, along, rows } = of(
      (_, y) => triangle(y),
      () => 0,
    );
    expect(along).toHaveLength(301);
    expect(along[0]).toBeCloseTo(-9, 9);
    expect(along[300]).toBeCloseTo(9, 9);
    expect(along[150]).toBeCloseTo(0, 9);
    expect(rows).toHaveLength(301);
    expect(aside.at(-1)).toBeCloseTo(1.2, 9);
    expect(aside[0]).toBeCloseTo(-1.2, 9);
    expect(aside[(aside.length - 1) / 2]).toBe(0);
    expect(aside[1] - aside[0]).toBeCloseTo(0.025, 6);
    expect(
      of(
        (_, y) => triangle(y, 0.3, 1),
        () => 0,
        1,
        1,
      ).aside.at(-1),
    ).toBeCloseTo(2.1, 9);
    expect(
      of(
        (_, y) => triangle(y),
        () => 0,
        1,
        0.4,
        chainAlongX(-1, 1),
      ).along,
    ).toHaveLength(41);
  });

  it('is the section over the straight between its sides, sign turned upward', () => {
    for (const sign of [1, -1] as const) {
      const { aside, rows, crest, tallMm } = of((x, y) => sign * triangle(y) + 0.03 * y + 0.02 * x, undefined, sign);
      for (const row of [rows[20], rows[150]])
        aside.forEach((t, k) => {
          expect(Math.abs(row[k] - triangle(t))).toBeLessThan(0.006);
        });
      const middle = aside.filter((t) => Math.abs(t) <= 0.08 + 1e-9).map((t) => triangle(t));
      expect(crest[150]).toBeCloseTo(middle.reduce((sum, value) => sum + value, 0) / middle.length, 2);
      expect(tallMm).toBeCloseTo(quantile(crest, 0.9), 12);
    }
  });

  it('knows the design’s height under the line, or that of the line’s sides', () => {
    const hill: Height = (x, y) => 0.1 * Math.sin(x) + 0.05 * y;
    const over = of((x, y) => hill(x, y) + triangle(y), hill);
    expect(over.overDesign).toBe(true);
    const beside = of((x, y) => hill(x, y) + triangle(y));
    expect(beside.overDesign).toBe(false);
    for (const k of [30, 150, 222]) {
      expect(over.ground[k]).toBeCloseTo(0.1 * Math.sin(over.along[k]), 4);
      expect(beside.ground[k]).toBeCloseTo(0.1 * Math.sin(beside.along[k]), 2);
    }
    const groove = of((x, y) => hill(x, y) - triangle(y), undefined, -1);
    expect(groove.ground[150]).toBeCloseTo(hill(groove.along[150], 0), 2);
    // Known from more than six tenths of the steps.
    const partly = (share: number) =>
      of(
        (_, y) => triangle(y),
        (x) => (x < -9 + 18 * share ? 0 : Number.NaN),
      ).overDesign;
    expect(partly(0.63)).toBe(true);
    expect(partly(0.57)).toBe(false);
  });

  it('takes one side’s height where the other has no data', () => {
    for (const side of [1, -1]) {
      const { crest } = of((_, y) => (side * y > 0.5 ? Number.NaN : 0.3 + triangle(y)));
      expect(crest[150]).toBeCloseTo(0.27, 2);
    }
    // The outer three tenths of either half are its side: what is nearer does not matter.
    const near = of((_, y) => triangle(y) + (Math.abs(y) > 0.5 && Math.abs(y) < 0.82 ? 0.2 : 0));
    expect(near.crest[150]).toBeCloseTo(0.27, 2);
    const far = of((_, y) => triangle(y) + (Math.abs(y) > 0.88 ? 0.2 : 0));
    expect(far.crest[150]).toBeCloseTo(0.07, 2);
  });

  it('crosses the line squarely where that slants', () => {
    const cells = Array.from({ length: 91 }, (_, k) => at(-9 + 0.2 * k, 0.4 * (-9 + 0.2 * k)));
    const slanted: Height = (x, y) => triangle((y - 0.4 * x) / Math.hypot(1, 0.4));
    const { aside, rows } = of(slanted, undefined, 1, 0.4, { ...chainAlongX(-9, 9), cells });
    for (const k of [60, 150, 240])
      aside.forEach((t, j) => {
        expect(Math.abs(rows[k][j] - triangle(t))).toBeLessThan(0.02);
      });
  });

  it('means over so much aside, its ends included, without what has no data', () => {
    const aside = Float64Array.of(-0.2, -0.1, 0, 0.1, 0.2);
    expect(meanWithin([1, 2, 4, 8, 16], aside, 0.1)).toBeCloseTo(14 / 3, 12);
    expect(meanWithin([1, 2, Number.NaN, 8, 16], aside, 0.1)).toBe(5);
    expect(meanWithin([1, 2, Number.NaN, 8, 16], aside, 0.05)).toBeNaN();
  });
});
