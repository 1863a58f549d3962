import { describe, expect, it } from 'vitest';
import { depthsOf, otherDepths, sharedDepths } from '../../src/core/compare/index.ts';
import type { Fit } from '../../src/core/fit/index.ts';
import { buildSurfaceIndex } from '../../src/core/geometry/index.ts';
import { dieMesh, fitOf, impressionMesh, model, side, turnOver } from './pair.ts';

const bump = (x: number, y: number): number => 0.15 * Math.exp(-((x + 1) ** 2 + (y - 7) ** 2));
const die = side(dieMesh(1), 'intaglio');
const indexed = { ...die, index: buildSurfaceIndex(die.mesh, { normals: die.normals }) };
const wax = side(impressionMesh(2, turnOver, bump), 'relief');
const vertices = wax.mesh.positions.length / 3;
const fit = fitOf(turnOver, true);
const alone = depthsOf(indexed, wax, fit);
/** Another model was chosen than the one of one scale. */
const lower = model('smoothWarp', { ...turnOver, translation: [0, 0, -0.05] });
const bent = { ...fit, chosen: 'smoothWarp' as const, models: [...fit.models.slice(0, 2), lower] };
const always = { leastVertices: 0, fewer: 0, moreOfLarge: 0 };

function shared(...[subject, fit, sharing]: [typeof wax, Fit, typeof always]) {
  const made = sharedDepths(indexed, subject, fit, sharing);
  if (!made) throw new Error('nothing to share');
  return made;
}

describe('depth differences shared with another thread', () => {
  it('are those that are measured here alone, in every vertex', () => {
    expect(alone.oneScale.filter((value) => !Number.isNaN(value)).length).toBeGreaterThan(0.8 * vertices);
    for (const fewer of [0, 501, vertices - 2]) {
      const { job, here } = shared(wax, fit, { ...always, fewer });
      expect(job.positions.length / 3).toBe(Math.floor((vertices - fewer) / 2));
      const others = otherDepths(structuredClone(job));
      expect(others).toHaveLength(1);
      expect(here()(structuredClone(others))).toEqual(alone);
    }
  });

  it('are those of both models where these are two', () => {
    const { job, here } = shared(wax, bent, always);
    const others = otherDepths(structuredClone(job));
    expect(others).toHaveLength(2);
    const joined = here()(others);
    expect(joined).toEqual(depthsOf(indexed, wax, bent));
    expect(joined.oneScale).toEqual(alone.oneScale);
    expect(joined.chosen).not.toEqual(alone.oneScale);
  });

  it('are measured here where the other thread cannot ask the index', () => {
    expect(shared(wax, fit, always).here()(null)).toEqual(alone);
  });

  it('are not shared of few vertices, nor of a reference that is not indexed', () => {
    expect(sharedDepths(indexed, wax, fit)).toBeNull();
    expect(sharedDepths(die, wax, fit, always)).toBeNull();
  });
});
