import { describe, expect, it } from 'vitest';
import { lossField } from '../../../src/core/condition/relief/loss.ts';
import type { WearRelief } from '../../../src/core/condition/relief/relief.ts';
import { emptyGrid, seededRandom } from '../../../src/core/geometry/index.ts';

const pitch = 0.2;
const half = 12;

/** Bosses over a field; of chosen cells an exponential loss is taken; noise σ on all. */
function made(sigmaMm: number, meanMm: number, share: (boss: number, x: number) => number, seed = 1) {
  const random = seededRandom(seed);
  const grid = emptyGrid(-half, half, -half, half, pitch);
  const n = grid.z.length;
  grid.mask.fill(1);
  const lacks = new Uint8Array(n);
  const difference = new Float32Array(n);
  for (let i = 0; i < n; i++) {
    const [x, y] = [grid.left + (i % grid.width) * pitch, grid.top - Math.floor(i / grid.width) * pitch];
    const boss = Math.max(0, Math.sin(1.2 * x) * Math.cos(1.1 * y));
    grid.z[i] = 0.5 * boss;
    lacks[i] = random.next() < share(boss, x) ? 1 : 0;
    difference[i] = sigmaMm * random.normal() - (lacks[i] ? 0.015 - meanMm * Math.log(1 - random.next()) : 0);
  }
  const relief = {
    reference: grid,
    subject: grid,
    difference,
    narrow: { reference: new Float32Array(n), subject: new Float32Array(n) },
    inside: new Uint8Array(n).fill(1),
    image: new Uint8Array(n).fill(1),
    sizeMm: 2 * half,
  } as unknown as WearRelief;
  return { relief, loss: lossField(relief), lacks, difference };
}

describe('the loss field', () => {
  it.each([0.02, 0.04])('measures σ %s mm on the side where loss cannot be', (sigma) => {
    const { loss } = made(sigma, 0.1, () => 0.3);
    const sorted = Float32Array.from(loss.sigma).sort();
    expect(sorted[sorted.length >> 1] / sigma).toBeGreaterThan(0.93);
    expect(sorted[sorted.length >> 1] / sigma).toBeLessThan(1.12);
    // Never believed below 0.012 mm.
    expect(made(0.004, 0.1, () => 0.3).loss.sigma.every((value) => value >= 0.0119)).toBe(true);
  });

  it.each([0.06, 0.12, 0.25])('finds the mean loss %s mm', (mean) => {
    const found = made(0.02, mean, () => 0.35).loss.meanLossMm;
    expect(found / (mean + 0.015)).toBeGreaterThan(0.85);
    expect(found / (mean + 0.015)).toBeLessThan(1.2);
  });

  it('says how many lack: the mean probability is their share, little or much', () => {
    for (const share of [0.1, 0.4, 0.7]) {
      // Whole patches lack, as wear does: neighbours vote alike.
      const { loss, lacks } = made(0.015, 0.15, (_, x) =>
        Math.sin(1.3 * x) > Math.cos(Math.PI * share) ? 0.98 : 0.02,
      );
      const truth = lacks.reduce((sum, value) => sum + value, 0) / lacks.length;
      const said = loss.probability.reduce((sum, value) => sum + value, 0) / lacks.length;
      expect(Math.abs(said - truth)).toBeLessThan(0.06);
      let wrong = 0;
      loss.probability.forEach((p, i) => {
        if (p > 0.5 !== (lacks[i] === 1)) wrong++;
      });
      expect(wrong / lacks.length).toBeLessThan(0.1);
    }
  });

  it('believes little of what neighbours do not share, and fills in what they do', () => {
    const { relief } = made(0.015, 0.1, () => 0);
    const at = 60 * relief.reference.width + 60;
    const difference = relief.difference.map((value, i) =>
      Math.abs((i % relief.reference.width) - 20) < 8 ? value - 0.1 : value,
    );
    const patch = lossField({
      ...relief,
      difference: difference.map((value, i) =>
        i === at ? -0.035 : i === 60 * relief.reference.width + 20 ? -0.035 : value,
      ),
    });
    // The same small lack within a worn strip and alone.
    expect(patch.probability[60 * relief.reference.width + 20]).toBeGreaterThan(0.8);
    expect(patch.probability[at]).toBeLessThan(0.3);
  });

  it('knows height over ground and over surroundings, and says nothing without data', () => {
    const { relief, loss } = made(0.02, 0.1, () => 0.2);
    const top = relief.reference.z.indexOf(Math.max(...relief.reference.z));
    expect(loss.height[top]).toBeGreaterThan(0.38);
    expect(loss.exposure[top]).toBeGreaterThan(0.2);
    const holed = lossField({
      ...relief,
      difference: relief.difference.map((value, i) => (i % 5 === 0 ? Number.NaN : value)),
    });
    expect(holed.probability.filter((_, i) => i % 5 === 0).every((value) => value === 0)).toBe(true);
    expect(holed.probability.filter((_, i) => i % 5 !== 0).some((value) => value > 0.5)).toBe(true);
  });
});
