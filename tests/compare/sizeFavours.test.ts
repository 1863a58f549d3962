import { describe, expect, it } from 'vitest';
import type { SizedObject } from '../../src/core/compare/materials.ts';
import { copyRanges, directRange, onlyCopy, sizeFavours } from '../../src/core/compare/sizeFavours.ts';

const stated = { scaleUncertaintyPercent: 0.02, scaleUncertaintyFrom: 'stated' } as const;
const matrix: SizedObject = { ...stated, sense: 'intaglio', kind: 'matrix', material: 'latten' };
const impression: SizedObject = { ...stated, sense: 'relief', kind: 'impression', material: 'pressed beeswax' };
const plasterCast: SizedObject = { ...stated, sense: 'relief', kind: 'cast', material: 'plaster' };
const objects = [matrix, impression, plasterCast];
const sizes = [0.94, 0.96, 0.98, 0.99, 0.994, 0.999, 1, 1.003, 1.01, 1.02, 1.04, 1.06];

describe('sizeFavours', () => {
  it('finds a matrix larger than its wax, and one recast from the wax smaller', () => {
    // Pressed wax shrinks by 0.2 to 1 %, cast metal by 1 to 2.6 %: the figures of materials.ts.
    expect(sizeFavours({ ratio: 0.994, sd: 0.0005 }, matrix, impression)).toEqual({
      favours: 'direct',
      copyIs: 'either',
    });
    expect(sizeFavours({ ratio: 1.02, sd: 0.0005 }, matrix, impression)).toEqual({
      favours: 'copy',
      copyIs: 'reference',
    });
    expect(sizeFavours({ ratio: 0.98, sd: 0.0005 }, impression, matrix)).toEqual({
      favours: 'copy',
      copyIs: 'subject',
    });
  });

  it('says the same whichever of the two is the reference', () => {
    const turned = { reference: 'subject', subject: 'reference', either: 'either' } as const;
    for (const a of objects)
      for (const b of objects)
        for (const ratio of sizes) {
          const one = sizeFavours({ ratio, sd: 0.0008 }, a, b);
          const other = sizeFavours({ ratio: 1 / ratio, sd: 0.0008 / ratio ** 2 }, b, a);
          expect(other).toEqual({ favours: one.favours, copyIs: turned[one.copyIs] });
        }
  });

  it('decides nothing where a scale was not stated, or the ratio is loose, or both ranges are met', () => {
    const assumed = { ...matrix, scaleUncertaintyFrom: 'assumed' } as const;
    for (const ratio of sizes) {
      expect(sizeFavours({ ratio, sd: 0.0005 }, assumed, impression).favours).toBe('neither');
      expect(sizeFavours({ ratio, sd: 0.02 }, matrix, impression).favours).toBe('neither');
    }
    expect(sizeFavours({ ratio: 1.004, sd: 0.005 }, matrix, impression).favours).toBe('neither');
  });

  it('never favours a side whose own range it does not meet', () => {
    for (const a of objects)
      for (const b of objects)
        for (const ratio of sizes) {
          const { favours } = sizeFavours({ ratio, sd: 0 }, a, b);
          const meets = ([least, most]: readonly [number, number]): boolean => ratio >= least && ratio <= most;
          if (favours === 'direct') expect(meets(directRange(a, b))).toBe(true);
          if (favours === 'copy') expect(copyRanges(a, b).some(({ range }) => meets(range))).toBe(true);
        }
  });
});

describe('onlyCopy', () => {
  it('is the smaller, where it is smaller by more than a mould and plaster grow, whichever is the reference', () => {
    // 0.999 · 1.0035: the largest cast of anything.
    const unsaid = { sense: 'relief', scaleUncertaintyPercent: 0.1, scaleUncertaintyFrom: 'stated' } as const;
    expect(onlyCopy({ ratio: 0.99, sd: 0.001 }, unsaid, plasterCast)).toMatchObject({
      copyIs: 'subject',
      material: null,
    });
    expect(onlyCopy({ ratio: 1.01, sd: 0.001 }, plasterCast, unsaid)?.copyIs).toBe('reference');
    expect(onlyCopy({ ratio: 1.01, sd: 0.001 }, unsaid, plasterCast)?.copyIs).toBe('reference');
    for (const ratio of [0.998, 1, 1.002]) expect(onlyCopy({ ratio, sd: 0.0001 }, unsaid, plasterCast)).toBeNull();
    expect(onlyCopy({ ratio: 0.99, sd: 0.005 }, unsaid, plasterCast)).toBeNull();
  });

  it('is the smaller by any step that is seen, where the larger is stated to be of what shrinks as it sets', () => {
    for (const sd of [0.0005, 0.0014])
      for (const steps of [0, 1.5, 1.9, 2, 4]) {
        const ratio = 1 + steps * sd;
        expect(onlyCopy({ ratio, sd }, plasterCast, impression)?.copyIs ?? null).toBe(
          steps > 1.96 ? 'reference' : null,
        );
        // The larger is plaster, which grows.
        const grown = ratio - 1.96 * sd > 0.999 * 1.0035;
        expect(onlyCopy({ ratio, sd }, impression, plasterCast)?.copyIs ?? null).toBe(grown ? 'reference' : null);
      }
    expect(onlyCopy({ ratio: 1.003, sd: 0.001 }, plasterCast, impression)?.mostPercent).toBeLessThan(0);
  });

  it('is none where a scale was not stated, or one of the two is a negative', () => {
    const assumed = { ...plasterCast, scaleUncertaintyFrom: 'assumed' } as const;
    expect(onlyCopy({ ratio: 0.98, sd: 0.001 }, impression, assumed)).toBeNull();
    expect(onlyCopy({ ratio: 0.98, sd: 0.001 }, matrix, impression)).toBeNull();
  });
});
