import { describe, expect, it } from 'vitest';
import { bandShapes, idealPath } from '../../src/core/design/legend/baseCurve.ts';

describe('the path of an ideal outline', () => {
  it('closes, keeps to its box and touches all four sides, whatever the shape and whichever was asked before', () => {
    for (const shape of [...bandShapes, ...bandShapes]) {
      if (shape === 'free') continue;
      const [a, b] = [7, shape === 'round' ? 7 : 11];
      const path = idealPath(shape, { cx: 3, cy: -2, turnDeg: 40, a, b });
      expect([...path.slice(-2)], shape).toEqual([...path.slice(0, 2)]);
      const [x, y] = [0, 1].map((axis) => [...path].filter((_, i) => i % 2 === axis));
      expect(Math.max(...x), shape).toBeCloseTo(a, 9);
      expect(Math.min(...x), shape).toBeCloseTo(-a, 9);
      expect(Math.max(...y), shape).toBeCloseTo(b, 9);
      expect(Math.min(...y), shape).toBeCloseTo(-b, 9);
    }
  });
});
