import { describe, expect, it } from 'vitest';
import { measureGroove } from '../../src/core/compare/index.ts';
import { seededRandom } from '../../src/core/geometry/index.ts';

/** A profile 10 mm long, sampled every 0.01 mm, the whole turned by `tiltDeg`. */
function profile(shape: (s: number) => number, tiltDeg = 0, noiseMm = 0): [Float64Array, Float64Array] {
  const random = seededRandom(3);
  const places = Float64Array.from({ length: 1001 }, (_, i) => i / 100);
  const heights = places.map((s) => shape(s) + noiseMm * random.normal());
  const [cos, sin] = [Math.cos((tiltDeg * Math.PI) / 180), Math.sin((tiltDeg * Math.PI) / 180)];
  return [places.map((s, i) => s * cos - heights[i] * sin), heights.map((h, i) => places[i] * sin + h * cos)];
}

/** A cut with straight flanks: depth 0.5 mm, flanks 45° and 60°. */
const cut = (s: number): number => Math.min(0, -0.5 + Math.max(5 - s, (s - 5) * Math.tan(Math.PI / 3)));

describe('measureGroove', () => {
  it('measures a cut with straight flanks: depth 0.5, flanks 45° and 60°, width from them', () => {
    const groove = measureGroove(...profile(cut));
    expect(groove?.depthMm).toBeCloseTo(0.5, 3);
    expect(groove?.widthMm).toBeCloseTo(0.25 / 1 + 0.25 / Math.tan(Math.PI / 3), 2);
    expect(groove?.flankDeg[0]).toBeCloseTo(45, 1);
    expect(groove?.flankDeg[1]).toBeCloseTo(60, 1);
    expect(groove?.sunk).toBe(true);
    expect(groove?.atMm).toBeCloseTo(5, 2);
  });

  it('measures the ridge that the cut leaves on the wax as it measures the cut', () => {
    const groove = measureGroove(...profile((s) => -cut(s)));
    expect(groove?.depthMm).toBeCloseTo(0.5, 3);
    expect(groove?.flankDeg[1]).toBeCloseTo(60, 1);
    expect(groove?.sunk).toBe(false);
  });

  it('measures a round groove: depth r − √(r² − c²/4) of its chord c, half-depth width from the circle', () => {
    const r = 0.6;
    const chord = 1;
    const drop = Math.sqrt(r * r - (chord / 2) ** 2);
    const groove = measureGroove(
      ...profile((s) => (Math.abs(s - 5) < chord / 2 ? -(Math.sqrt(r * r - (s - 5) ** 2) - drop) : 0)),
    );
    const depth = r - drop;
    expect(groove?.depthMm).toBeCloseTo(depth, 3);
    expect(groove?.widthMm).toBeCloseTo(2 * Math.sqrt(r * r - (drop + depth / 2) ** 2), 2);
    expect(groove?.flankDeg[0]).toBeCloseTo(groove?.flankDeg[1] ?? Number.NaN, 1);
  });

  it('does not mind a tilted section', () => {
    const level = measureGroove(...profile(cut));
    const tilted = measureGroove(...profile(cut, 6));
    for (const key of ['depthMm', 'widthMm'] as const) expect(tilted?.[key]).toBeCloseTo(level?.[key] ?? Number.NaN, 3);
    expect(tilted?.flankDeg[0]).toBeCloseTo(45, 1);
    expect(tilted?.flankDeg[1]).toBeCloseTo(60, 1);
  });

  it('stays within the noise: 10 µm on the profile moves the depth by less than 15 µm and flanks by less than 3°', () => {
    const groove = measureGroove(...profile(cut, 0, 0.01));
    expect(Math.abs((groove?.depthMm ?? 9) - 0.5)).toBeLessThan(0.015);
    expect(Math.abs((groove?.flankDeg[0] ?? 0) - 45)).toBeLessThan(3);
    expect(Math.abs((groove?.flankDeg[1] ?? 0) - 60)).toBeLessThan(3);
  });

  it('takes the groove and not a single spike, and finds none in noise', () => {
    const [at, z] = profile(cut, 0, 0.004);
    z[800] += 2;
    expect(measureGroove(at, z)?.atMm).toBeCloseTo(5, 1);
    expect(measureGroove(...profile(() => 0, 0, 0.01))).toBeNull();
    expect(measureGroove(at.subarray(0, 5), z.subarray(0, 5))).toBeNull();
  });
});
