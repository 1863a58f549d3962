import { describe, expect, it } from 'vitest';
import { depthsBefore, depthsJob, depthsOf, otherDepths } from '../../src/core/compare/index.ts';
import { buildSurfaceIndex } from '../../src/core/geometry/index.ts';
import { dieMesh, fitOf, identity, impressionMesh, model, side, turnOver } from './pair.ts';

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
const always = { leastVertices: 0, fewer: 0 };

describe('depth differences shared with another thread', () => {
  it('are those that are measured here alone, in every vertex', () => {
    expect(alone.oneScale.filter((value) => !Number.isNaN(value)).length).toBeGreaterThan(0.8 * vertices);
    for (const fewer of [0, 501, vertices - 2]) {
      const job = depthsJob(indexed, wax, fit, { ...always, fewer });
      if (!job) throw new Error('nothing to share');
      expect(job.from).toBe(Math.ceil((vertices + fewer) / 2));
      const others = otherDepths(structuredClone(job));
      expect(others).toHaveLength(1);
      const joined = depthsBefore(job.from, indexed, wax, fit);
      expect(joined(structuredClone(others))).toEqual(alone);
    }
  });

  it('are those of both models where these are two', () => {
    const job = depthsJob(indexed, wax, bent, always);
    const others = job && otherDepths(structuredClone(job));
    expect(others).toHaveLength(2);
    const joined = depthsBefore(job?.from ?? 0, indexed, wax, bent)(others);
    expect(joined).toEqual(depthsOf(indexed, wax, bent));
    expect(joined.oneScale).toEqual(alone.oneScale);
    expect(joined.chosen).not.toEqual(alone.oneScale);
  });

  it('are measured here where the other thread cannot ask the index', () => {
    expect(depthsBefore(100, indexed, wax, fit)(null)).toEqual(alone);
  });

  it('are not shared of few vertices, nor of a reference that is not indexed', () => {
    expect(depthsJob(indexed, wax, fit)).toBeNull();
    expect(depthsJob(die, wax, fit, always)).toBeNull();
    expect(depthsJob(indexed, wax, fitOf(identity, false), always)).not.toBeNull();
  });
});
