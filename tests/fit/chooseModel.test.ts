import { describe, expect, it } from 'vitest';
import { chooseModel, judgeFitDefaults } from '../../src/core/fit/assessment.ts';
import type { ThreeModels } from '../../src/core/fit/models.ts';
import type { PoseUncertainty } from '../../src/core/fit/uncertainty.ts';

/** Residuals of the three models over blocks of the face that they did not see, and over those that they did, µm. */
const chosen = (unseen: readonly number[], seen: readonly number[], scale = 1, scaleSd = 0.001) => {
  const [rigid, oneScale, smoothWarp] = unseen.map((um, k) => ({
    heldOutRmsMm: um / 1000,
    rmsMm: seen[k] / 1000,
    motion: { scale },
  }));
  const models = { rigid, oneScale, smoothWarp } as unknown as ThreeModels;
  return chooseModel(models, { scaleSd } as PoseUncertainty, judgeFitDefaults);
};

describe('the choice among the three models', () => {
  it('takes the warp where unseen blocks are much nearer under it, and only there', () => {
    expect(chosen([60, 60, 20], [60, 60, 20])).toBe('smoothWarp');
    expect(chosen([60, 60, 59], [60, 60, 20])).toBe('rigid');
  });

  it('listens to the unseen blocks alone: what was fitted to says nothing', () => {
    expect(chosen([20, 20, 20], [60, 40, 5])).toBe('rigid');
    expect(chosen([60, 60, 20], [20, 20, 20])).toBe('smoothWarp');
  });

  it('takes one scale where the size differs beyond its own uncertainty, though no residual shows it', () => {
    expect(chosen([20, 20, 20], [20, 20, 20], 1.01)).toBe('oneScale');
    expect(chosen([20, 20, 20], [20, 20, 20], 1.01, 0.01)).toBe('rigid');
  });

  it('takes one scale where unseen blocks are nearer under it', () => {
    expect(chosen([60, 40, 40], [60, 40, 40])).toBe('oneScale');
  });
});
