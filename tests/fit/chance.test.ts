import { describe, expect, it } from 'vitest';
import { chanceOf, reachOf } from '../../src/core/fit/index.ts';

describe('what chance reaches', () => {
  it('is as likely as not near the greatest of the impossible ways, and ever less likely above', () => {
    const at = [5, 6, 8, 12, 40].map((best) => chanceOf(best, [5.1, 4.6], 4).log10P);
    expect(at[0]).toBeGreaterThan(-0.5);
    for (let k = 1; k < at.length; k++) expect(at[k]).toBeLessThan(at[k - 1]);
    expect(at[4]).toBeLessThan(-20);
  });
  it('asks more of faces that reach much where they cannot agree', () => {
    expect(chanceOf(14, [12, 11], 4).log10P).toBeGreaterThan(chanceOf(14, [5, 4], 4).log10P);
  });
  it('inverts: what must be reached for a chance has that chance', () => {
    const chance = chanceOf(9, [5.2, 4.9], 4);
    expect(chanceOf(reachOf(chance, -4), [5.2, 4.9], 4).log10P).toBeCloseTo(-4, 3);
  });
});
