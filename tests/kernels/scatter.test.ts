import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { flowRoundsPlainly } from '../../src/core/judge/flowPlainly.ts';
import { scatterOf } from '../../src/core/judge/scatter.ts';
import { type FlowPatches, flowRounds } from '../../src/kernels/index.ts';

const lot = (count: number) => ({
  ...{ sigmaMm: 0.02, outliers: 0.08, outlierWeight: 30, absent: 1 },
  of: Array.from({ length: count }, (_, i) => i),
});

/** Patches with shifts of no order, and the terms of a flow. */
function patches(count: number, terms: number, seed: number): FlowPatches {
  const random = seededRandom(seed);
  const basis = Float64Array.from({ length: count * terms }, (_, k) => (k % terms === 0 ? 1 : random.between(-1, 1)));
  const noise = new Float64Array(3 * count);
  for (let i = 0; i < count; i++)
    noise.set([random.between(1e-3, 1e-2), random.between(-5e-4, 5e-4), random.between(1e-3, 1e-2)], 3 * i);
  return { terms, basis, noise, shifts: Float64Array.from({ length: 2 * count }, () => random.between(-0.2, 0.2)) };
}

describe('the kernel for the flow of the places', () => {
  it('gives the same numbers as its referee, few patches and many, straight flows and cubic', () => {
    for (const terms of [1, 3, 6, 10])
      for (const count of [1, 2, 7, 33, 90]) {
        const given = patches(count, terms, count + terms);
        const kernel = flowRounds(given);
        const what = `${count} patches, ${terms} terms`;
        const lots = [lot(count)];
        const doubts = Array.from({ length: count }, (_, k) => 0.1 * (k % 4));
        const plain = scatterOf(flowRoundsPlainly(given), lots, 2, doubts);
        expect(kernel && scatterOf(kernel, lots, 2, doubts), what).toEqual(plain);
      }
  });

  it('leaves flows of a higher degree to the referee', () => {
    expect(flowRounds(patches(20, 15, 1))).toBeNull();
  });
});
