import { describe, expect, it } from 'vitest';
import { lettersAnew } from '../../../src/core/condition/marks/lettersAnew.ts';
import { heightOverGround, onOwnForm } from '../../../src/core/condition/relief/ground.ts';
import type { LossField } from '../../../src/core/condition/relief/loss.ts';
import type { WearRelief } from '../../../src/core/condition/relief/relief.ts';
import { emptyGrid } from '../../../src/core/geometry/index.ts';

const pitch = 0.125;
const grid = emptyGrid(0, 60, 0, 12, pitch);
const { width, top, z } = grid;
const all = [...z.keys()];
const place = (i: number): [number, number] => [(i % width) * pitch, top - Math.floor(i / width) * pitch];

/** Eighteen letters H in a row, each 1.5 mm by 2 mm, 3 mm from one to the next, in a band from 4 to 7 mm; which one a cell is of, else −1. */
const letterAt = (i: number): number => {
  const [x, y] = place(i);
  const k = Math.floor((x - 3) / 3);
  const [u, v] = [(x - 3) % 3, Math.abs(y - 5.5)];
  return k >= 0 && k < 18 && v < 1 && u < 1.6 && (u < 0.5 || u > 1.1 || v < 0.25) ? k : -1;
};

type Height = (k: number) => number;

function lettersOf(reference: Height, subject: Height, taken = new Uint8Array(z.length)) {
  const height = Float32Array.from(all, (i) => (letterAt(i) < 0 ? 0 : reference(letterAt(i))));
  const other = Float32Array.from(all, (i) => (letterAt(i) < 0 ? 0 : subject(letterAt(i))));
  const face = { ...grid, mask: grid.mask.map(() => 1) };
  const inside = grid.mask.map(() => 1);
  const relief = {
    reference: { ...face, z: height },
    subject: { ...face, z: other },
    difference: other.map((value, i) => value - height[i]),
    inside,
    image: inside,
    fromEdge: Float32Array.from(all, (i) => place(i)[1] / pitch),
  } as unknown as WearRelief;
  const sigma = new Float32Array(z.length).fill(0.015);
  const subjectHeight = heightOverGround(onOwnForm(relief.subject, relief.inside), height, relief.inside);
  const loss = { height, subjectHeight, sigma, exposure: height } as unknown as LossField;
  const band = Uint8Array.from(all, (i) => (Math.abs(place(i)[1] - 5.5) < 1.5 ? 1 : 0));
  return lettersAnew(relief, loss, band, taken);
}

const found = (...of: Parameters<typeof lettersOf>) =>
  lettersOf(...of).map(({ cells, carriedBy }) => ({ letters: [...new Set([...cells].map(letterAt))], carriedBy }));

/** Of each letter found, whether no other of the legend equals it. */
const unequalled = (...of: Parameters<typeof lettersOf>) =>
  lettersOf(...of).map((letter) => letter.unequalled === true);

const usual = (): number => 0.3;
const butOne =
  (factor: number, others = 1) =>
  (k: number): number =>
    0.3 * (k === 9 ? factor : others);

describe('a letter cut again', () => {
  it('is the one that stands taller than the rest on one face, whichever has it', () => {
    expect(found(usual, butOne(1.6))).toEqual([{ letters: [9], carriedBy: 'subject' }]);
    expect(found(butOne(1.6), usual)).toEqual([{ letters: [9], carriedBy: 'reference' }]);
  });

  it('is found where all of the other face is lower, since only the one ratio is off', () => {
    expect(found(butOne(1.6), () => 0.22)).toEqual([{ letters: [9], carriedBy: 'reference' }]);
  });

  it('is none where the other face lacks it: not filled, clogged or rubbed', () => {
    expect(found(usual, butOne(0.4))).toEqual([]);
    expect(found(butOne(0.4), usual)).toEqual([]);
  });

  it('is none where two faces agree, where it was read already, or where the ratio changes from letter to letter', () => {
    expect(found(butOne(1.6), butOne(1.6))).toEqual([]);
    expect(found(usual, butOne(1.6), new Uint8Array(z.length).fill(1))).toEqual([]);
    expect(found(usual, (k) => (k === 9 ? 0.5 : 0.3 * (1 - (0.5 * ((k * 7) % 5)) / 4)))).toEqual([]);
  });

  it('is unequalled where no other letter is as tall on its own face, and the two legends are usually as tall', () => {
    expect(unequalled(usual, butOne(1.6))).toEqual([true]);
    expect(unequalled(butOne(1.6), usual)).toEqual([true]);
    // A letter beside stands as tall on both faces.
    const twoTall = (k: number): number => (k === 3 ? 0.5 : 0.3);
    expect(unequalled(twoTall, (k) => (k === 9 ? 0.48 : twoTall(k)))).toEqual([false]);
    // All but this one are rubbed.
    expect(unequalled(usual, butOne(1, 0.7))).toEqual([false]);
  });
});
