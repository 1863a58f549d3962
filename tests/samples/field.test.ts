import { describe, expect, it } from 'vitest';
import { blurred, copyField, eachCell, emptyField, heightAndSlope } from '../../sample-scans/generator/field.ts';

describe('a height field', () => {
  it('gives quadratics and their slopes exactly between its cells', () => {
    const field = emptyField(3, 3, 0.1);
    const f = (x: number, y: number): number => 0.3 * x * x - 0.2 * x * y + 0.1 * y * y + 0.5 * x - y;
    eachCell(field, (index, x, y) => {
      field.z[index] = f(x, y);
    });
    const out = new Float64Array(3);
    for (const [x, y] of [
      [0.123, -1.77],
      [-2.05, 0.31],
      [1.999, 1.001],
    ]) {
      expect(heightAndSlope(field, x, y, out)).toBeCloseTo(f(x, y), 6);
      expect(out[1]).toBeCloseTo(0.6 * x - 0.2 * y + 0.5, 4);
      expect(out[2]).toBeCloseTo(-0.2 * x + 0.2 * y - 1, 4);
    }
  });

  it('blurs a point to about a Gaussian: sum kept, variance σ², peak 1 / (2πσ²) less at most 14 %', () => {
    const field = emptyField(5, 5, 0.1);
    field.z[(field.z.length - 1) / 2] = 100;
    const z = blurred(field, 0.6);
    let sum = 0;
    let variance = 0;
    eachCell(copyField(field, z), (index, x) => {
      sum += z[index];
      variance += z[index] * x * x;
    });
    expect(sum).toBeCloseTo(100, 3);
    expect(Math.abs(Math.sqrt(variance / sum) - 0.6)).toBeLessThan(0.02);
    const peak = Math.max(...z) * 2 * Math.PI * 0.36;
    expect(peak).toBeGreaterThan(0.86);
    expect(peak).toBeLessThan(1.02);
  });
});
