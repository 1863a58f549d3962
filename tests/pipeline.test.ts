import { describe, expect, it } from 'vitest';
import { makePair, randomRecipe } from '../sample-scans/generator/node.ts';
import { angleBetweenDeg, apply, compose } from '../src/core/geometry/index.ts';
import { comparePrepared, prepareScan } from '../src/core/pipeline.ts';
import { writePly } from '../src/core/scan/index.ts';

const prepare = async (relation: 'same' | 'handCopy' | 'unrelated', seed = 22) => {
  const pair = makePair({ ...randomRecipe(seed, relation, { vertices: 15_000, coverage: [1, 1] }), whole: false });
  const read = (side: 'reference' | 'subject') =>
    prepareScan({ name: `${side}.ply`, bytes: writePly(pair[side].positions, pair[side].triangles), unit: 'mm' });
  return [await read('reference'), await read('subject')] as const;
};

describe('the pipeline', () => {
  it('supports a pair of one matrix, and the other way round undoes it', async () => {
    const [a, b] = await prepare('same');
    const there = comparePrepared(a, b);
    expect(there.judgement.finding).toBe('supported');
    const back = comparePrepared(b, a);
    // The floors are 0.02° and 0.005 mm; exchanging the scans inverts the answer exactly.
    const round = compose(back.fit.models[1].referenceFromSubject, there.fit.models[1].referenceFromSubject);
    expect(angleBetweenDeg(round.rotation, [1, 0, 0, 0, 1, 0, 0, 0, 1])).toBeLessThan(1e-6);
    const corner = [15, 10, 1] as const;
    expect(Math.hypot(...apply(round, corner).map((value, i) => value - corner[i]))).toBeLessThan(1e-6);
  });

  it('does not support a copy cut again by hand', async () => {
    const { judgement } = comparePrepared(...(await prepare('handCopy')));
    expect(judgement.finding).not.toBe('supported');
    expect(judgement.sentence).not.toMatch(/identical|proves/);
  });

  it('finds no fit between unrelated seals and claims nothing', async () => {
    const { fit, difference, judgement } = comparePrepared(...(await prepare('unrelated')));
    expect(fit.found).toBe(false);
    expect(difference).toBeNull();
    expect(judgement.finding).toBe('undecided');
  });

  it('a scan against itself: the same place, size 1, no difference', async () => {
    const [a] = await prepare('same');
    const { fit, difference } = comparePrepared(a, a);
    expect(fit.turnedOver).toBe(false);
    expect(fit.models[1].scale).toBeCloseTo(1, 5);
    expect(Math.abs(difference?.whole.medianMm ?? 1)).toBeLessThan(1e-4);
  });
});
