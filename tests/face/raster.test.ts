import { describe, expect, it } from 'vitest';
import { rasterise, transformPositions } from '../../src/core/face/raster.ts';
import { apply, rotationAbout, type Similarity, seededRandom, xOf, yOf } from '../../src/core/geometry/index.ts';

const window = { xMin: -1, xMax: 1, yMin: -1, yMax: 1, pitch: 0.0531 };

/** Scattered triangles over one another, some looking up and some down. */
function heap(seed: number, count: number): { positions: Float32Array; triangles: Uint32Array } {
  const random = seededRandom(seed);
  const positions = Float32Array.from({ length: 9 * count }, () => random.between(-1, 1));
  return { positions, triangles: Uint32Array.from({ length: 3 * count }, (_, i) => i) };
}

/** Highest upward-looking triangle straight above (x, y), every one tried, by its plane. */
function byTrying(p: Float32Array, t: Uint32Array, x: number, y: number): number {
  let best = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => p.subarray(3 * t[i + k], 3 * t[i + k] + 3));
    const side = (u: Float32Array, v: Float32Array): number => (v[0] - u[0]) * (y - u[1]) - (v[1] - u[1]) * (x - u[0]);
    const [sa, sb, sc] = [side(b, c), side(c, a), side(a, b)];
    const area = sa + sb + sc;
    if (area <= 0 || sa < 0 || sb < 0 || sc < 0) continue;
    best = Math.max(best, (sa * a[2] + sb * b[2] + sc * c[2]) / area);
  }
  return best;
}

describe('rasterise', () => {
  it('shows the highest triangle that looks to the viewer, over each cell', () => {
    const { positions, triangles } = heap(1, 40);
    const grid = rasterise(positions, triangles, window);
    let seen = 0;
    for (let row = 0, i = 0; row < grid.height; row++)
      for (let col = 0; col < grid.width; col++, i++) {
        const expected = byTrying(positions, triangles, xOf(grid, col), yOf(grid, row));
        expect(grid.mask[i]).toBe(Number.isFinite(expected) ? 1 : 0);
        if (!grid.mask[i]) continue;
        seen++;
        expect(grid.z[i]).toBeCloseTo(expected, 5);
      }
    expect(seen).toBeGreaterThan(500);
  });

  it('leaves no gap along the sides that triangles share', () => {
    const positions = Float32Array.of(-1, -1, 0, 1, -1, 0, 1, 1, 0, -1, 1, 0, 0.13, 0.07, 0);
    const triangles = Uint32Array.of(0, 1, 4, 1, 2, 4, 2, 3, 4, 3, 0, 4);
    const grid = rasterise(positions, triangles, { ...window, pitch: 0.05 });
    expect(grid.mask.every((value) => value === 1)).toBe(true);
  });
});

describe('transformPositions', () => {
  it('moves every point as the similarity does', () => {
    const { positions } = heap(3, 10);
    const m: Similarity = { scale: 2, rotation: rotationAbout([0.6, 0, 0.8], 1), translation: [1, 2, 3] };
    const moved = transformPositions(positions, m);
    for (let i = 0; i < positions.length; i += 3) {
      const expected = apply(m, [positions[i], positions[i + 1], positions[i + 2]]);
      for (let k = 0; k < 3; k++) expect(moved[i + k]).toBeCloseTo(expected[k], 5);
    }
  });
});
