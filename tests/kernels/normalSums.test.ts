import { describe, expect, it } from 'vitest';
import { normalRows, normalRowsPlainly, normalSystems, seededRandom } from '../../src/core/geometry/index.ts';
import { normalRowsKernel } from '../../src/kernels/index.ts';

describe('the kernel for normal equations', () => {
  it('runs here', () => {
    expect(normalRowsKernel(10, 7, 1)).not.toBeNull();
  });

  it('gives the same numbers as its referee, block by block, and JᵀDJ and Jᵀp as they are defined', () => {
    const random = seededRandom(1);
    for (const [count, parameters, blockCount] of [
      [500, 7, 1],
      [300, 18, 36],
      [1, 6, 2],
      [40, 9, 4],
    ]) {
      const [ours, plain] = [
        normalRows(count, parameters, blockCount),
        normalRowsPlainly(count, parameters, blockCount),
      ];
      for (let i = 0; i < count; i++) {
        for (let k = 0; k < parameters; k++) ours.rows[i * ours.stride + k] = random.between(-2, 2);
        ours.blocks[i] = Math.floor(random.between(0, blockCount));
        ours.curvatures[i] = i % 7 === 0 ? 0 : random.between(-1, 1);
        ours.pulls[i] = i % 14 === 0 ? 0 : random.between(-1, 1);
      }
      plain.rows.set(ours.rows);
      plain.blocks.set(ours.blocks);
      plain.curvatures.set(ours.curvatures);
      plain.pulls.set(ours.pulls);
      const systems = normalSystems(ours, parameters, blockCount);
      expect(systems).toEqual(normalSystems(plain, parameters, blockCount));
      // Asked twice, it says the same.
      expect(normalSystems(ours, parameters, blockCount)).toEqual(systems);
      systems.forEach(({ h, g }, block) => {
        let [wanted, pull] = [0, 0];
        for (let i = 0; i < count; i++) {
          if (plain.blocks[i] !== block) continue;
          const at = i * plain.stride;
          wanted += plain.rows[at + 1] * plain.curvatures[i] * plain.rows[at + parameters - 1];
          pull += plain.rows[at + 2] * plain.pulls[i];
        }
        expect(h[parameters + parameters - 1]).toBeCloseTo(wanted, 10);
        expect(h[(parameters - 1) * parameters + 1]).toBe(h[parameters + parameters - 1]);
        expect(g[2]).toBeCloseTo(pull, 10);
      });
    }
  });
});
