import { describe, expect, it } from 'vitest';
import { planeCellsPlainly } from '../../src/core/face/planeCells.ts';
import { type HeightGrid, seededRandom } from '../../src/core/geometry/index.ts';
import { type Plane, type PlaneCells, planeCells } from '../../src/kernels/index.ts';

/** A leaning face with cut letters and holes. */
function face(width: number, height: number, seed: number, holes: number): HeightGrid {
  const random = seededRandom(seed);
  const mask = Uint8Array.from({ length: width * height }, () => (random.between(0, 1) < holes ? 0 : 1));
  const z = Float32Array.from(mask, (_, i) => {
    const leaning = 0.01 * (i % width) - 0.02 * Math.floor(i / width);
    return leaning + random.between(-0.05, 0.05) - (random.between(0, 1) < 0.3 ? 0.8 : 0);
  });
  return { width, height, pitch: 0.13, left: -4, top: 7, z, mask };
}

const planes: Plane[] = [
  { a: 0, b: 0, c: 0 },
  { a: 0.9, b: 0.077, c: 0.15 },
  { a: -0.3, b: 0.08, c: 0.16 },
  { a: 40, b: 3, c: -2 },
];

/** What is asked of the cells, each plane in turn. */
function asked({ cells, inliers, refined }: PlaneCells, step: number): unknown {
  let most = 0;
  return [
    cells.slice(),
    planes.map((plane) => {
      most = Math.max(most, inliers(plane, 0.1, step, most));
      return [inliers(plane, 0.1, step, 0), most, refined(plane, 0.2)];
    }),
  ];
}

describe('the kernel that looks for a plane among cells', () => {
  it('gives the same numbers as its referee on any shape of picture', () => {
    for (const [width, height] of [
      [1, 1],
      [1, 40],
      [2, 3],
      [61, 47],
      [300, 210],
    ])
      for (const holes of [0, 0.3, 1])
        for (const step of [1, 3]) {
          const grid = face(width, height, 5, holes);
          const kernel = planeCells(grid);
          expect(kernel && asked(kernel, step), `${width} × ${height}, holes ${holes}, every ${step}`).toEqual(
            asked(planeCellsPlainly(grid), step),
          );
        }
  });
});
