import { beforeAll, describe, expect, it } from 'vitest';
import type { ChangeFound } from '../../src/core/change/index.ts';
import { type ChangeComparison, changeBetween } from '../../src/core/changeBetween.ts';
import type { Similarity } from '../../src/core/geometry/index.ts';
import { type PreparedScan, prepareScan } from '../../src/core/pipeline.ts';
import { writePly } from '../../src/core/scan/index.ts';
import { compareDates, grade } from '../bench/change/grade.ts';
import { type TwoDates, twoDates } from '../bench/change/twoDates.ts';
import { chanceOf } from '../populations/chance.ts';
import { randomPose } from '../populations/scanning.ts';

/** A small object, seeds of development: what is asserted are laws, the rates stand in docs/change.md. */
const small = { sizeMm: 18, maxVertices: 16_000, negative: false };

const foundOf = ({ result }: ChangeComparison): ChangeFound => {
  if (!result.judged) throw new Error(`not judged: ${result.why}`);
  return result;
};

/** The same scan, moved as a whole in its file. */
function movedScan({ positions, triangles }: TwoDates['earlier']['scan'], by: Similarity): Uint8Array {
  const { rotation: r, translation: t } = by;
  const out = new Float64Array(positions.length);
  for (let i = 0; i < out.length; i += 3)
    for (let k = 0; k < 3; k++)
      out[i + k] = r[3 * k] * positions[i] + r[3 * k + 1] * positions[i + 1] + r[3 * k + 2] * positions[i + 2] + t[k];
  return writePly(out, triangles);
}

const read = (bytes: Uint8Array, stated: object = {}): Promise<PreparedScan> =>
  prepareScan({ name: 'scan.ply', bytes, unit: 'mm', ...stated });

describe('a loss between two dates', () => {
  const two = twoDates(12, 'loss', small);
  let comparison: ChangeComparison;
  let found: ChangeFound;
  beforeAll(async () => {
    comparison = await compareDates(two);
    found = foundOf(comparison);
  });

  it('is the one change found, where it is and as large as it is', () => {
    const graded = grade(12, 'loss', two, comparison);
    expect(graded.hit).toMatchObject({ direction: 'lowered', shape: 'area' });
    expect(graded.falseChanges).toEqual([]);
    const sd = Math.hypot(...found.changes.filter((c) => c.direction !== 'absent').map((c) => c.volumeSdMm3));
    expect(Math.abs(graded.volumeErrorMm3)).toBeLessThan(3.5 * sd);
  });

  it('names every cause that it can have, handling and cleaning among them', () => {
    expect(found.changes[0].causes).toEqual(expect.arrayContaining(['rubbed', 'chipped', 'dirtTaken', 'pressed']));
  });

  it('changes its sign where the two dates are exchanged', async () => {
    const turned = foundOf(changeBetween({ earlier: comparison.later, later: comparison.earlier }));
    expect(turned.changes[0].direction).toBe('raised');
    const [a, b] = [found.total.loweredMm3, turned.total.raisedMm3];
    expect(Math.abs(a + b)).toBeLessThan(2.5 * Math.hypot(found.total.loweredSdMm3, turned.total.raisedSdMm3));
    expect(turned.size.ratio * found.size.ratio).toBeCloseTo(1, 3);
  });

  it('stays the same where both scans are moved, each in its own way', async () => {
    const chance = chanceOf('moves');
    const earlier = await read(movedScan(two.earlier.scan, randomPose(chance)));
    const later = await read(movedScan(two.later.scan, randomPose(chance)));
    const again = foundOf(changeBetween({ earlier, later }));
    expect(again.changes.filter((c) => c.direction !== 'absent')).toHaveLength(1);
    expect(Math.abs(again.total.loweredMm3 - found.total.loweredMm3)).toBeLessThan(2 * found.total.loweredSdMm3);
  });
});

describe('no change between two dates', () => {
  it('is what two scans of one date show, on a negative as on a positive', async () => {
    for (const negative of [false, true]) {
      const found = foundOf(await compareDates(twoDates(14, 'none', { ...small, negative })));
      expect(found.changes.filter(({ direction }) => direction !== 'absent')).toEqual([]);
      expect(found.limits.map(({ code }) => code)).toContain('evenChangeUnseen');
    }
  });

  it('is not said of two objects, nor of a negative and its positive', async () => {
    const [one, other] = [twoDates(15, 'none', small), twoDates(16, 'none', small)];
    const mixed = { ...one, later: other.later };
    expect((await compareDates(mixed)).result).toMatchObject({ judged: false });
  });
});

describe('a third of the face cleaned by 40 µm', () => {
  it('does not draw the registration after it', async () => {
    const two = twoDates(1, 'cleaned', small);
    const comparison = await compareDates(two);
    const graded = grade(1, 'cleaned', two, comparison);
    expect(graded.hit?.direction).toBe('lowered');
    expect(graded.poseMm).toBeLessThan(0.008);
    expect(foundOf(comparison).total.raisedMm3).toBeLessThan(0.2 * Math.abs(foundOf(comparison).total.loweredMm3));
  });
});

describe('a change of size', () => {
  const two = twoDates(17, 'none', small);
  const grown = { scale: 1.004, rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], translation: [0, 0, 0] } as const;
  const larger = two.later.scan.positions.map((value) => value * grown.scale);

  it('is said apart from places that changed, and only where both scales are stated', async () => {
    const bytes = writePly(larger, two.later.scan.triangles);
    const sizeOf = async (stated: object) => {
      const earlier = await read(two.earlier.scan.bytes, stated);
      return foundOf(changeBetween({ earlier, later: await read(bytes, stated) }));
    };
    const stated = await sizeOf({ scaleUncertaintyPercent: 0.05 });
    expect(stated.size.reading).toBe('larger');
    expect(stated.size.ratio).toBeCloseTo(1.004, 2);
    expect(stated.changes.filter(({ direction }) => direction !== 'absent')).toEqual([]);
    const unstated = await sizeOf({});
    expect(unstated.size.reading).toBe('notStated');
    expect(unstated.limits.map(({ code }) => code)).toContain('scaleNotStated');
  });
});
