import { describe, expect, test } from 'vitest';
import { drawnLetters } from './alphabet.ts';
import { chanceOf } from './chance.ts';
import { copyByHand } from './copying.ts';
import { draw, layoutOf, letterHand } from './drawing.ts';
import { latticeOver, randomSurface, smooth } from './lattice.ts';
import { motifKinds } from './motifs.ts';
import { sweep } from './strokes.ts';

const outline = { shape: 'round', halfWidth: 15, halfHeight: 15 } as const;
const drawingOf = (motif: string, seed: string) => {
  const chance = chanceOf(seed);
  return draw(layoutOf(outline, motif, chance), letterHand(chance), chance);
};
const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

describe('drawings', () => {
  test('there is a skeleton for every capital', () => {
    expect([...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'].every((letter) => drawnLetters.includes(letter))).toBe(true);
  });

  test('every motif has many strokes, inside the seal, and two of a kind differ', () => {
    expect(motifKinds.length).toBeGreaterThanOrEqual(8);
    for (const motif of motifKinds) {
      const { rest } = drawingOf(motif, 'a');
      const strokes = rest.filter(({ group }) => group >= 0);
      expect(strokes.length).toBeGreaterThan(6);
      const reach = strokes.flatMap(({ x, y }) => x.map((value, i) => Math.hypot(value, y[i])));
      expect(Math.max(...reach)).toBeLessThan(15);
      const other = drawingOf(motif, 'b').rest.filter(({ group }) => group >= 0);
      expect(JSON.stringify(other)).not.toBe(JSON.stringify(strokes));
    }
  });

  test('a copyist moves all strokes of a letter together, and each stroke of the motif by itself', () => {
    const drawing = drawingOf('beast', 'c');
    const copy = copyByHand(drawing, 0.2, chanceOf('copyist'));
    drawing.legend.forEach((stroke, i) => {
      const letter = stroke.group;
      const dx = mean(copy.legend[i].x) - mean(stroke.x) - (copy.letters[letter].x - drawing.letters[letter].x);
      // The smooth distortion changes little over a letter.
      expect(Math.abs(dx)).toBeLessThan(0.06);
    });
    const motif = drawing.rest
      .map((stroke, i) => ({ stroke, copied: copy.rest[i] }))
      .filter(({ stroke }) => stroke.group >= 0);
    const squares = motif.map(
      ({ stroke, copied }) => (mean(copied.x) - mean(stroke.x)) ** 2 + (mean(copied.y) - mean(stroke.y)) ** 2,
    );
    const rms = Math.sqrt(mean(squares));
    expect(rms).toBeGreaterThan(0.14);
    expect(rms).toBeLessThan(0.3);
  });
});

describe('the raster', () => {
  const lattice = latticeOver(5, 5, 0.05);

  test('a swept graver leaves its section: depth falls with the distance from the course', () => {
    const z = new Float32Array(lattice.width * lattice.height);
    const track = { x: [-3, 3], y: [0, 0], half: [0.5, 0.5], depth: [0.4, 0.4], detail: false, group: 0 };
    sweep(lattice, z, { ...track, section: 'v' });
    const centre = (lattice.width * lattice.height - 1) / 2;
    for (const cells of [0, 4, 9, 12])
      expect(z[centre + cells * lattice.width]).toBeCloseTo(0.4 * Math.max(0, 1 - (cells * 0.05) / 0.5), 5);
  });

  test('smoothing damps a wave as a Gaussian does: exp(−2 π² σ² / λ²)', () => {
    const wavelength = 2;
    const z = new Float32Array(lattice.width * lattice.height);
    for (let i = 0; i < z.length; i++)
      z[i] = Math.cos((2 * Math.PI * (lattice.left + (i % lattice.width) * lattice.pitch)) / wavelength);
    const out = smooth(lattice, z, 0.3);
    const centre = (lattice.width * lattice.height - 1) / 2;
    expect(out[centre]).toBeCloseTo(Math.exp((-2 * Math.PI ** 2 * 0.09) / wavelength ** 2), 2);
  });

  test('a random surface has unit variance and forgets beyond two lengths', () => {
    const surface = randomSurface(chanceOf('surface'), 0.5, 60);
    let square = 0;
    let product = 0;
    const n = 40_000;
    for (let i = 0; i < n; i++) {
      const x = -55 + 0.55 * (i % 200);
      const y = -55 + 0.55 * Math.floor(i / 200);
      square += surface(x, y) ** 2;
      product += surface(x, y) * surface(x + 2.1, y);
    }
    expect(square / n).toBeCloseTo(1, 1);
    expect(Math.abs(product / n)).toBeLessThan(0.03);
  });
});
