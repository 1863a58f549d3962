import { describe, expect, it } from 'vitest';
import { noiseAtLag, noiseOf } from '../../src/core/face/noise.ts';
import { senseOf } from '../../src/core/face/sense.ts';
import { gaussianFilter, seededRandom, turnGridOver } from '../../src/core/geometry/index.ts';
import { gridOf } from './grids.ts';

describe('noiseOf', () => {
  for (const sigma of [0.002, 0.01, 0.05])
    it(`recovers white noise of ${sigma} mm on a smooth field within 5 %`, () => {
      const random = seededRandom(1);
      const grid = gridOf(10, 0.1, (x, y) => 0.3 * Math.sin(0.8 * x) * Math.cos(0.7 * y) + sigma * random.normal());
      expect(Math.abs(noiseOf(grid).noiseMm / sigma - 1)).toBeLessThan(0.05);
      expect(noiseOf(grid).noiseLengthMm).toBeCloseTo(0.1, 9);
    });

  it('sees that noise is shared by neighbours where it is', () => {
    const random = seededRandom(2);
    const at = new Map<string, number>();
    const grid = gridOf(10, 0.1, (x, y) => {
      const key = `${Math.floor(x / 0.2)} ${Math.floor(y / 0.2)}`;
      if (!at.has(key)) at.set(key, 0.01 * random.normal());
      return at.get(key) as number;
    });
    expect(noiseOf(grid).noiseLengthMm).toBeCloseTo(0.2, 9);
  });

  it('is seen in full at a lag beyond that over which it is shared, and in part before', () => {
    const white = gridOf(
      20,
      0.1,
      (() => {
        const random = seededRandom(6);
        return () => 0.01 * random.normal();
      })(),
    );
    const shared = gaussianFilter(white, 0.6);
    const spread = Math.sqrt(shared.z.reduce((sum, z) => sum + z * z, 0) / shared.z.length);
    expect(noiseAtLag(shared, 6) / spread).toBeCloseTo(1, 1);
    expect(noiseAtLag(shared, 1) / spread).toBeLessThan(0.5);
  });

  it('is not led by strokes that cover a small part of the field', () => {
    const random = seededRandom(3);
    const grid = gridOf(10, 0.1, (x) => (Math.abs(x % 4) < 0.1 ? -0.5 : 0) + 0.01 * random.normal());
    // Fifty times as deep as the noise, and they raise it by less than half.
    expect(noiseOf(grid).noiseMm).toBeGreaterThan(0.0095);
    expect(noiseOf(grid).noiseMm).toBeLessThan(0.015);
  });

  it('grows with the model and vanishes without noise', () => {
    expect(noiseOf(gridOf(10, 0.1, (x, y) => 0.1 * x - 0.2 * y)).noiseMm).toBeLessThan(1e-6);
    const random = seededRandom(4);
    const small = gridOf(10, 0.1, () => 0.01 * random.normal());
    const large = { ...small, pitch: 1, left: -100, top: 100, z: small.z.map((z) => 10 * z) };
    expect(noiseOf(large).noiseMm).toBeCloseTo(10 * noiseOf(small).noiseMm, 6);
  });
});

describe('senseOf', () => {
  const random = seededRandom(5);
  /** Thin strokes on a level field. */
  const strokes = gridOf(
    15,
    0.15,
    (x, y) => (Math.sin(1.5 * x + Math.sin(y)) > 0.8 ? -0.4 : 0) + 0.005 * random.normal(),
    (x, y) => Math.hypot(x, y) < 14,
  );

  it('is intaglio where strokes are cut down and relief where they stand up', () => {
    const cut = senseOf(strokes, 28);
    expect(cut.sense).toBe('intaglio');
    expect(cut.confidence).toBeGreaterThan(0.7);
    const struck = senseOf(turnGridOver(strokes), 28);
    expect(struck.sense).toBe('relief');
    expect(struck.confidence).toBeCloseTo(cut.confidence, 6);
  });

  it('is hardly sure where heights are spread evenly about the middle', () => {
    const waves = gridOf(15, 0.15, (x, y) => 0.3 * Math.sin(1.5 * x) * Math.cos(1.5 * y));
    expect(senseOf(waves, 28).confidence).toBeLessThan(0.6);
  });
});
