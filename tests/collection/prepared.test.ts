import { describe, expect, it } from 'vitest';
import { agreement, indexFace } from '../../src/core/collection/index.ts';
import { prepareScan } from '../../src/core/pipeline.ts';
import { chanceOf } from '../populations/chance.ts';
import { makeCollection, plainPlan } from '../populations/collection.ts';
import type { Support } from '../populations/index.ts';
import { scanOf } from '../populations/scanning.ts';

const plan = { ...plainPlan, matrices: 1, objectsEach: 3, sisters: 0, casts: 0, singletons: 2, mirrored: 0 };

describe('an index of a scan that was read and prepared', () => {
  it('agrees with that of the face made without a scan, whatever else the scan shows', async () => {
    const objects = makeCollection(47, plan);
    const [one, , other] = objects;
    const stranger = objects[objects.length - 1];
    for (const support of ['table', 'closed'] as const satisfies readonly Support[]) {
      const how = { support, spacingMm: one.sizeMm / 150, noiseUm: 8, unit: 'mm', maxVertices: 30_000 } as const;
      const { scan } = scanOf(one.made(), how, chanceOf(`scan ${support}`));
      const { face } = await prepareScan({ name: 'one.ply', bytes: scan.bytes, kind: one.kind, unit: 'mm' });
      const index = indexFace(face);
      expect(agreement(index, indexFace(one.face())).inliers, support).toBeGreaterThan(25);
      const [likely, chance] = [other, stranger].map((object) => agreement(index, indexFace(object.face())).score);
      expect(likely, support).toBeGreaterThan(10);
      expect(chance, support).toBeLessThan(5);
    }
  }, 120_000);
});
