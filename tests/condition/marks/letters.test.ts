import { describe, expect, it } from 'vitest';
import { letterHeights, recutLetters } from '../../../src/core/condition/marks/letters.ts';
import type { LossField } from '../../../src/core/condition/relief/loss.ts';
import type { WearRelief } from '../../../src/core/condition/relief/relief.ts';
import { emptyGrid } from '../../../src/core/geometry/index.ts';

const pitch = 0.25;
const grid = emptyGrid(0, 40, 0, 6, pitch);
const { width, top } = grid;

/** Twelve letters in a row, each 1.5 mm by 2 mm, 3 mm from one to the next; which letter a cell is of, else −1. */
const letterAt = (i: number): number => {
  const [x, y] = [(i % width) * pitch, top - Math.floor(i / width) * pitch];
  const k = Math.floor((x - 2) / 3);
  return k >= 0 && k < 12 && (x - 2) % 3 < 1.4 && Math.abs(y - 3) < 0.9 ? k : -1;
};
const all = [...grid.z.keys()];
const cellsOf = (k: number): number[] => all.filter((i) => letterAt(i) === k);

interface Heights {
  reference(k: number, i: number): number;
  subject(k: number, i: number): number;
}

function read(
  { reference, subject }: Heights,
  taken = new Uint8Array(grid.z.length),
  missing: (i: number) => boolean = () => false,
) {
  const height = Float32Array.from(all, (i) => (letterAt(i) < 0 ? 0 : reference(letterAt(i), i)));
  const other = Float32Array.from(all, (i) => (letterAt(i) < 0 ? 0 : subject(letterAt(i), i)));
  const mask = Uint8Array.from(all, (i) => (missing(i) ? 0 : 1));
  const relief = {
    reference: { ...grid, mask: grid.mask.map(() => 1), z: height },
    subject: { ...grid, mask, z: other },
    difference: other.map((value, i) => (mask[i] ? value - height[i] : Number.NaN)),
  } as unknown as WearRelief;
  const loss = { height } as unknown as LossField;
  const band = Uint8Array.from(all, () => 1);
  return {
    heights: letterHeights(relief, loss, band),
    recut: recutLetters(relief, loss, band, taken).map(({ cells, carriedBy, gainMm }) => ({
      letter: letterAt(cells[0]),
      carriedBy,
      gainMm,
    })),
  };
}

/** Letters 0.4 mm high on the reference and nine tenths of that on the subject, but for one. */
const butOne = (factor: number, usual = 0.9): Heights => ({
  reference: () => 0.4,
  subject: (k) => (k === 5 ? factor * 0.4 : usual * 0.4),
});

describe('the height of a letter', () => {
  it('is the mean of its upper third, on both faces', () => {
    const { heights } = read({ reference: (_, i) => 0.3 + 0.001 * (i % 7), subject: () => 0.25 });
    expect(heights).toHaveLength(12);
    for (const { cells, reference, subject } of heights) {
      const sorted = [...cells].map((i) => 0.3 + 0.001 * (i % 7)).sort((a, b) => a - b);
      const third = sorted.slice(Math.floor((2 * sorted.length) / 3));
      expect(reference).toBeCloseTo(third.reduce((sum, value) => sum + value, 0) / third.length, 6);
      expect(subject).toBeCloseTo(0.25, 6);
      expect(cells).toHaveLength(cellsOf(0).length);
    }
  });

  it('is known where eight tenths of it were scanned on the subject', () => {
    const [first] = [cellsOf(3)];
    const without = (share: number) =>
      read(butOne(0.9), undefined, (i) => first.indexOf(i) >= 0 && first.indexOf(i) < share * first.length).heights
        .length;
    expect(without(0.19)).toBe(12);
    expect(without(0.23)).toBe(11);
  });

  it('counts what stands at 0.35 of what nearly all of the band stays below', () => {
    const low = (share: number) =>
      read({ reference: (k) => (k === 5 ? share * 0.4 : 0.4), subject: () => 0.3 }).heights.length;
    expect(low(0.37)).toBe(12);
    expect(low(0.33)).toBe(11);
  });
});

describe('recut letters', () => {
  it('finds none where all letters keep the same share', () => {
    for (const usual of [0.6, 0.9, 1, 1.1]) expect(read(butOne(usual, usual)).recut).toEqual([]);
  });

  it('finds the one that stands high on the subject, and how much higher', () => {
    const [found, ...rest] = read(butOne(1.4)).recut;
    expect(rest).toEqual([]);
    expect(found).toMatchObject({ letter: 5, carriedBy: 'subject' });
    expect(found.gainMm).toBeCloseTo(0.16, 6);
  });

  it('finds the one that stands high on the reference and is usual on the subject', () => {
    const [found, ...rest] = read({ reference: (k) => (k === 5 ? 0.6 : 0.4), subject: () => 0.36 }).recut;
    expect(rest).toEqual([]);
    expect(found).toMatchObject({ letter: 5, carriedBy: 'reference' });
    // 0.36 mm would be 0.4 mm at the usual nine tenths.
    expect(found.gainMm).toBeCloseTo(0.2, 6);
  });

  it('wants a ratio 0.28 off in the logarithm, and 0.6 together with its height over the usual', () => {
    // Off and over are the same here: 0.3 each.
    expect(read(butOne(0.9 * Math.exp(0.31))).recut).toHaveLength(1);
    expect(read(butOne(0.9 * Math.exp(0.29))).recut).toEqual([]);
    // Low on the reference: far off, hardly over.
    const low = (off: number, over: number) =>
      read({ reference: (k) => (k === 5 ? (0.4 * over) / off : 0.4), subject: (k) => (k === 5 ? 0.36 * over : 0.36) })
        .recut;
    expect(low(1.75, 1.1)).toHaveLength(1);
    expect(low(1.75, 1.06)).toEqual([]);
    expect(low(Math.exp(0.27), Math.exp(0.4))).toEqual([]);
    expect(low(Math.exp(0.29), Math.exp(0.4))).toHaveLength(1);
  });

  it('wants 2.8 standard deviations of all letters', () => {
    // Ratios spread by ±s about the usual: median absolute deviation s.
    const spread = (s: number) =>
      read({ reference: () => 0.4, subject: (k) => (k === 5 ? 0.36 * Math.exp(0.6) : 0.36 * Math.exp(k % 2 ? s : -s)) })
        .recut.length;
    expect(spread(0.1)).toBe(1);
    expect(spread(0.19)).toBe(0);
  });

  it('wants a subject higher than the reference would make it, since wear cannot', () => {
    const at = (factor: number) =>
      read({ reference: () => 2, subject: (k) => 2 * (k === 5 ? factor : 0.5) }).recut.length;
    expect(at(1.08)).toBe(1);
    expect(at(1.04)).toBe(0);
  });

  it('reads the reference only where letters keep three quarters, and the subject’s letter is there', () => {
    const at = (usual: number, there = 1) =>
      read({ reference: (k) => (k === 5 ? 0.62 : 0.4), subject: (k) => 0.4 * usual * (k === 5 ? there : 1) }).recut
        .length;
    expect(at(0.77)).toBe(1);
    expect(at(0.73)).toBe(0);
    expect(at(0.9, 0.62)).toBe(1);
    expect(at(0.9, 0.58)).toBe(0);
  });

  it('wants a gain of 0.06 mm, six letters, and cells that are not taken', () => {
    const fine = (high: number) =>
      read({ reference: () => high, subject: (k) => (k === 5 ? 1.5 * high : 0.9 * high) }).recut.length;
    expect(fine(0.125)).toBe(1);
    expect(fine(0.115)).toBe(0);
    const few = (count: number) =>
      read({
        reference: (k) => (k < count || k === 5 ? 0.4 : 0),
        subject: (k) => (k === 5 ? 0.56 : k < count ? 0.36 : 0),
      }).recut.length;
    expect(few(6)).toBe(1);
    expect(few(4)).toBe(0);
    const taken = (share: number) => {
      const cells = cellsOf(5);
      const out = new Uint8Array(grid.z.length);
      for (const i of cells.slice(0, Math.round(share * cells.length))) out[i] = 1;
      return read(butOne(1.4), out).recut.length;
    };
    expect(taken(0.24)).toBe(1);
    expect(taken(0.3)).toBe(0);
  });
});
