import { describe, expect, it } from 'vitest';
import { type HeightGrid, seededRandom } from '../../src/core/geometry/index.ts';
import { agreementSums } from '../../src/core/judge/correlation.ts';
import { clippedSums, type PatchCells, patchRound, patchRoundPlainly } from '../../src/core/judge/patchRound.ts';
import { patchKernel } from '../../src/kernels/index.ts';

/** Noise a few cells wide, mm, some of the cells without data. */
function relief(width: number, height: number, seed: number, holes: number): HeightGrid {
  const random = seededRandom(seed);
  const mask = Uint8Array.from({ length: width * height }, () => (random.between(0, 1) < holes ? 0 : 1));
  const z = Float32Array.from(mask, () => 0.1 * random.normal());
  for (let pass = 0; pass < 3; pass++) for (let i = z.length - 1; i > 0; i--) z[i] = 0.5 * (z[i] + z[i - 1]);
  return { width, height, pitch: 0.1, left: 0, top: 0, z, mask };
}

/** The cells of a disc about (col, row), which may hang over the edge: those that do are left out. */
function disc({ width, height, z, mask }: HeightGrid, col: number, row: number, radius: number): PatchCells {
  const cells: [number, number, number][] = [];
  for (let dr = -radius; dr <= radius; dr++)
    for (let dc = -radius; dc <= radius; dc++) {
      const [c, r] = [col + dc, row + dr];
      if (dc * dc + dr * dr > radius * radius || c < 0 || r < 0 || c >= width || r >= height) continue;
      if (mask[r * width + c]) cells.push([dc, dr, z[r * width + c]]);
    }
  const column = (k: number): Float32Array => Float32Array.from(cells, (cell) => cell[k]);
  return { columns: column(0), rows: column(1), heights: column(2) };
}

describe("the kernel for a patch's rounds", () => {
  it('runs here', () => {
    expect(patchKernel(relief(20, 20, 1, 0))).not.toBeNull();
  });

  it('sees the cells, weighs and adds up as its referee does, within float32, over holes and edges', () => {
    for (const [seed, holes] of [
      [2, 0],
      [3, 0.1],
      [4, 0.4],
    ]) {
      const [a, b] = [relief(90, 70, seed, 0.1), relief(90, 70, seed + 10, holes)];
      for (const [col, row, radius] of [
        [45, 35, 9],
        [6, 8, 10],
        [85, 64, 7],
      ])
        for (const [shift, turn] of [
          [0.37, 0.02],
          [-3.6, -0.11],
        ]) {
          const cells = disc(a, col, row, radius);
          const [ours, plain] = [patchRound(b, cells), patchRoundPlainly(b, cells)];
          const seen = plain.sample(col + shift, row - shift, turn);
          expect(ours.sample(col + shift, row - shift, turn)).toBe(seen);
          ours.a.forEach((value, k) => {
            expect(value).toBe(plain.a[k]);
            if (!Number.isNaN(value)) expect(Math.abs(ours.b[k] - plain.b[k])).toBeLessThan(1e-5);
          });
          const sigma = plain.reweigh(0.8, 0.01);
          expect(Math.abs(ours.reweigh(0.8, 0.01) - sigma)).toBeLessThan(1e-4 * sigma);
          ours.weight.forEach((value, k) => {
            expect(Math.abs(value - plain.weight[k])).toBeLessThan(1e-3);
          });
          // Of its own cells, in their order: the same numbers.
          expect(ours.agreement().slice(0, 11)).toEqual(agreementSums(ours.a, ours.b, ours.weight));
          expect(ours.clipped(0.05, 0.08).slice(0, 5)).toEqual(clippedSums(ours, 0.05, 0.08));
          const [found, wanted] = [ours.equations(0.8, 0.01), plain.equations(0.8, 0.01)];
          // Of each sum's own terms, none of which is above radius² · 0.5² or 1: the turn's are the largest.
          const most = Math.max(...wanted.map(Math.abs));
          found.forEach((value, k) => {
            expect(Math.abs(value - wanted[k]), `sum ${k}`).toBeLessThan(2e-4 * most);
          });
        }
    }
  });

  it('leaves the work to the plain code where there is no WebAssembly', () => {
    const engine = Object.getOwnPropertyDescriptor(globalThis, 'WebAssembly');
    try {
      Object.defineProperty(globalThis, 'WebAssembly', { value: undefined, configurable: true });
      const a = relief(30, 30, 5, 0);
      expect(patchKernel(a)).toBeNull();
      expect(patchRound(a, disc(a, 15, 15, 5)).sample(15, 15, 0)).toBe(disc(a, 15, 15, 5).heights.length);
    } finally {
      if (engine) Object.defineProperty(globalThis, 'WebAssembly', engine);
    }
  });
});
