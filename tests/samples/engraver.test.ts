import { describe, expect, it } from 'vitest';
import type { Region, Stroke } from '../../sample-scans/generator/cuts.ts';
import { engraver } from '../../sample-scans/generator/engraver.ts';
import { emptyField, heightAt } from '../../sample-scans/generator/field.ts';
import { depthInside } from '../../sample-scans/generator/outline.ts';

const still = { mode: 'deepen', chatterMm: 0 } as const;

describe('the engraver', () => {
  it('cuts a vee whose depth falls with the distance from its middle line as v(t) = t (1.25 − 0.25 t)', () => {
    const field = emptyField(4, 4, 0.05);
    const points = Float64Array.from([-3, 0, 0.6, 3, 0, 0.6]);
    const stroke: Stroke = {
      ...still,
      kind: 'stroke',
      part: 'motif',
      section: 'vee',
      depthMm: 0.5,
      flankMm: 0,
      points,
    };
    engraver(field).cut(stroke, 1);
    for (const y of [0, 0.15, 0.3, 0.45]) {
      const t = 1 - y / 0.6;
      expect(heightAt(field, 0.5, y)).toBeCloseTo(0.5 * t * (1.25 - 0.25 * t), 2);
    }
    expect(heightAt(field, 0, 0.7)).toBe(0);
  });

  it('cuts a region with a flat floor and flanks at the exact distance from its outline, counters left standing', () => {
    const field = emptyField(4, 4, 0.04);
    const outer = Float64Array.from([-2, -2, 2, -2, 2, 2, -2, 2]);
    const counter = Float64Array.from([-0.8, -0.8, -0.8, 0.8, 0.8, 0.8, 0.8, -0.8]);
    const region: Region = {
      ...still,
      kind: 'region',
      part: 'letter',
      section: 'flat',
      depthMm: 0.4,
      flankMm: 0.3,
      boldMm: 0,
      contours: [outer, counter],
    };
    engraver(field).cut(region, 1);
    for (const [x, y] of [
      [1.4, 0.1],
      [1.85, 0.3],
      [-1.1, 1.2],
      [0.95, -0.9],
      [0, 0],
      [2.2, 0],
    ]) {
      const d = Math.min(depthInside(outer, x, y), -depthInside(counter, x, y));
      const t = Math.max(0, Math.min(1, d / 0.3));
      expect(heightAt(field, x, y)).toBeCloseTo(0.4 * t * t * (3 - 2 * t), 2);
    }
  });

  it('never makes a die shallower by deepening, nor deeper by leaving metal standing', () => {
    const field = emptyField(2, 2, 0.05);
    const tool = engraver(field);
    const at = (section: 'round' | 'flat', mode: 'deepen' | 'stand', depthMm: number): Stroke => ({
      kind: 'stroke',
      part: 'motif',
      section,
      mode,
      depthMm,
      flankMm: 0,
      chatterMm: 0,
      points: Float64Array.from([-1, 0.1, 0.5, 1, -0.1, 0.7]),
    });
    tool.cut(at('round', 'deepen', 0.6), 1);
    const once = field.z.slice();
    tool.cut(at('flat', 'deepen', 0.3), 1);
    expect(field.z.every((z, i) => z >= once[i] - 1e-6)).toBe(true);
    const twice = field.z.slice();
    tool.cut(at('round', 'stand', 0.2), 1);
    expect(field.z.every((z, i) => z <= twice[i] + 1e-6 && z >= 0)).toBe(true);
  });
});
