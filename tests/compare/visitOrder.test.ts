import { expect, it } from 'vitest';
import { subjectMotion } from '../../src/core/compare/index.ts';
import { visitOrder } from '../../src/core/compare/visitOrder.ts';
import { shuffledMesh } from '../geometry/surface.ts';
import { dieMesh, identity, model, side } from './pair.ts';

it('keeps a file’s order where neighbours follow one another, else visits each vertex of the range once, near after near', () => {
  const die = side(dieMesh(1), 'intaglio');
  const still = subjectMotion(die.face, model('oneScale', identity));
  const p = die.mesh.positions;
  expect(visitOrder(still, p, 10, 0, p.length / 3)).toBeNull();
  const q = shuffledMesh(die.mesh, 2).mesh.positions;
  const order = visitOrder(still, q, 10, 100, 9000) as Uint32Array;
  const sorted = order.slice().sort();
  expect(sorted.length).toBe(8900);
  expect(sorted.every((v, k) => v === 100 + k)).toBe(true);
  const far = order.filter(
    (v, k) => k > 0 && Math.hypot(q[3 * v] - q[3 * order[k - 1]], q[3 * v + 1] - q[3 * order[k - 1] + 1]) > 1,
  );
  expect(far.length).toBeLessThan(0.05 * order.length);
});
