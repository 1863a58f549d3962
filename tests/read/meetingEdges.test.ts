import { describe, expect, it } from 'vitest';
import { joined, meetingEdge } from '../../src/core/read/index.ts';
import { fragment, other, side } from './fragmentOfDisc.ts';

describe('edges that meet', () => {
  it.each([0, 20, 45, 70, 90])('a straight break at %i° is measured: length, gap, step', (deg) => {
    const edge = meetingEdge(fragment('a', side(deg, 0.4)), fragment('b', other(deg, 0.4), 0.25));
    // A chord through the middle of a disc of 20 mm radius is 40 mm long; its ends turn away over the smoothing.
    expect(edge?.lengthMm).toBeGreaterThan(38);
    expect(edge?.lengthMm).toBeLessThan(41.5);
    expect(edge?.gapMm).toBeCloseTo(0.8, 0);
    expect(Math.abs((edge?.gapMm ?? 9) - 0.8)).toBeLessThan(0.11);
    expect(edge?.stepMm).toBeCloseTo(0.25, 3);
  });

  it('two that lie over one another have a negative gap', () => {
    const [a, b] = [fragment('a', side(30, -0.5)), fragment('b', other(30, -0.5))];
    const edge = meetingEdge(a, b);
    expect(edge?.gapMm).toBeCloseTo(-1, 0);
  });

  it('edges that lie side by side, or too far away, do not meet', () => {
    expect(meetingEdge(fragment('a', side(0, 4)), fragment('b', other(0, 4)))).toBeNull();
    const whole = fragment('a', () => true);
    expect(meetingEdge(whole, whole)).toBeNull();
  });

  it('exchanged, the gap stays and the step changes sign', () => {
    const [a, b] = [fragment('a', side(10, 0.3)), fragment('b', other(10, 0.3), 0.1)];
    const [one, two] = [meetingEdge(a, b), meetingEdge(b, a)];
    expect(two?.gapMm).toBeCloseTo(one?.gapMm ?? Number.NaN, 1);
    expect(two?.stepMm).toBeCloseTo(-(one?.stepMm ?? Number.NaN), 3);
  });

  it('joined, every place that any carries is there, from the one whose edge is further away', () => {
    const [a, b] = [fragment('a', side(0, -1), 1), fragment('b', other(0, -1), 2)];
    const grid = joined([a, b], 'surface');
    const at = (x: number): number => grid.z[Math.round(26 / 0.1) * grid.width + Math.round((x + 26) / 0.1)];
    expect([at(5), at(0.5), at(-0.5), at(-5)]).toEqual([1, 1, 2, 2]);
    expect(grid.mask.reduce((sum, has) => sum + has, 0) * 0.01).toBeCloseTo(Math.PI * 400, -1);
  });
});
