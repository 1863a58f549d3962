import { describe, expect, it } from 'vitest';
import { agreementsPlainly, type GhostCells } from '../../src/core/condition/marks/ghosts.ts';
import { type HeightGrid, seededRandom } from '../../src/core/geometry/index.ts';
import { ghostAgreements } from '../../src/kernels/index.ts';

const random = seededRandom(3);

/** Rings and holes, some of them without a height. */
function relief(width: number, height: number, holes: number): HeightGrid {
  const mask = Uint8Array.from({ length: width * height }, () => (random.between(0, 1) < holes ? 0 : 1));
  const z = Float32Array.from(mask, (has, i) =>
    has ? Math.sin((i % width) / 4) * Math.cos(i / width / 5) : Number.NaN,
  );
  return { width, height, pitch: 0.13, left: -0.065 * width, top: 0.065 * height, z, mask };
}

/** Cells within the relief, beside it, and midway between two of its cells. */
function cellsOf({ width, height, pitch, left, top }: HeightGrid, count: number): GhostCells {
  const places = (from: number, size: number): Float64Array =>
    Float64Array.from({ length: count }, (_, k) =>
      k % 5 === 0 ? from + 0.5 * (k % 2) * pitch : from + random.between(-0.2, 1.2) * size * pitch,
    );
  const x = places(left, width);
  const y = places(top - height * pitch, height);
  const heights = Float64Array.from(x, () => Math.max(0, random.between(-0.3, 0.6)));
  return { x, y, height: heights, excess: Float32Array.from(x, () => Math.max(0, random.between(-0.3, 0.4))) };
}

describe('the kernel for ghosts of a relief', () => {
  it('gives the same numbers as its referee, whatever the way and however many cells', () => {
    for (const [width, height] of [
      [1, 1],
      [61, 47],
      [300, 210],
    ])
      for (const holes of [0, 0.3, 1])
        for (const count of [0, 1, 700]) {
          const ground = relief(width, height, holes);
          const cells = cellsOf(ground, count);
          const plainly = agreementsPlainly(ground, cells, { weaker: 0.65, clear: 0.03 });
          const kernel = ghostAgreements(ground, cells, { weaker: 0.65, clear: 0.03 });
          for (const [dx, dy, turnDeg, every] of [
            [0, 0, 0, 1],
            [0.25, 0, 0, 3],
            [-0.065, 0.13, -4, 1],
            [1.2, -0.85, 2.5, 2],
          ])
            expect(
              kernel?.({ dx, dy, turnDeg }, every),
              `${width} × ${height}, holes ${holes}, ${count} cells, ${dx}, ${dy}`,
            ).toBe(plainly({ dx, dy, turnDeg }, every));
        }
  });
});
