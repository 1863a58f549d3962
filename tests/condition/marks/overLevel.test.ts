import { describe, expect, it } from 'vitest';
import { shareOverLevel } from '../../../src/core/condition/marks/overLevel.ts';
import type { LossField } from '../../../src/core/condition/relief/loss.ts';
import type { WearRelief } from '../../../src/core/condition/relief/relief.ts';

const cells = Array.from({ length: 300 }, (_, k) => k);
/** A letter whose strokes rise to 0.4 mm, with 2 µm of unevenness. */
const own = Float32Array.from(cells, (k) => 0.1 + (0.3 * (k % 100)) / 99);
const uneven = (k: number): number => 0.002 * Math.sin(7 * k);

function ratio(otherOf: (height: number) => number, carriedBy: 'reference' | 'subject' = 'reference'): number {
  const other = own.map((height, k) => otherOf(height) + uneven(k));
  const difference =
    carriedBy === 'reference' ? other.map((value, k) => value - own[k]) : own.map((value, k) => value - other[k]);
  const [height, subjectHeight] = carriedBy === 'reference' ? [own, other] : [other, own];
  return shareOverLevel({ difference } as WearRelief, { height, subjectHeight } as LossField, cells, carriedBy, 0.35);
}

describe('a share over a level', () => {
  it('is below 1 for the same strokes higher by a share, whichever face has them', () => {
    expect(ratio((height) => 0.7 * height)).toBeLessThan(0.1);
    expect(ratio((height) => 0.7 * height, 'subject')).toBeLessThan(0.1);
  });

  it('is far above 1 for what the other face shows up to a level: filled, clogged, rubbed, or under dirt', () => {
    expect(ratio((height) => Math.min(height, 0.25))).toBeGreaterThan(10);
    expect(ratio((height) => Math.min(height, 0.25), 'subject')).toBeGreaterThan(10);
  });
});
