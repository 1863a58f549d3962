import { describe, expect, it } from 'vitest';
import { type HeightGrid, seededRandom } from '../../src/core/geometry/index.ts';
import { congruentTiles, correlationCells } from '../../src/core/judge/tiles.ts';

/** A ring of 3.8 mm with a hole, relief of waves of about 6 cells; turned by `turnDeg` about its middle. */
function ring(seed: number, turnDeg = 0): HeightGrid {
  const size = 190;
  const pitch = 0.02;
  const random = seededRandom(seed);
  const waves = Array.from({ length: 40 }, () => {
    const [k, a] = [random.between(0.5, 1.1), random.between(0, 6.3)];
    return [k * Math.cos(a), k * Math.sin(a), random.between(0, 6.3)];
  });
  const [c, s] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  const z = new Float32Array(size * size);
  const mask = new Uint8Array(size * size);
  const middle = (size - 1) / 2;
  for (let i = 0; i < z.length; i++) {
    const [x, y] = [(i % size) - middle, Math.floor(i / size) - middle];
    const r = Math.hypot(x, y) / middle;
    if (r > 1 || r < 0.5) continue;
    mask[i] = 1;
    z[i] = waves.reduce((sum, [u, v, p]) => sum + 1e-3 * Math.sin(u * (c * x - s * y) + v * (s * x + c * y) + p), 0);
  }
  return { width: size, height: size, pitch, left: -1.89, top: 1.89, z, mask };
}
const patch = { noiseCells: 1, clipMm: [0.05, 0.05] as const };

describe('cells by the correlation length of the relief', () => {
  it('fill a small ring: fifteen or more, all congruent with the ring itself', () => {
    const tiles = congruentTiles(ring(1), ring(1), 3.8, patch);
    expect(tiles.compared).toBeGreaterThanOrEqual(15);
    expect(tiles.congruent).toBe(tiles.compared);
  });
  it('are hardly congruent with another ring of the same texture', () => {
    const tiles = congruentTiles(ring(1), ring(2), 3.8, patch);
    expect(tiles.congruent).toBeLessThanOrEqual(2);
  });
  it('measure a turn of each cell', () => {
    const { cells } = congruentTiles(ring(1), ring(1, 2), 3.8, patch);
    const turns = cells.map(({ turnDeg }) => Math.abs(turnDeg)).sort((a, b) => a - b);
    expect(turns[turns.length >> 1]).toBeCloseTo(2, 0);
  });
  it('grow with the relief: twice as coarse, twice the correlation length', () => {
    const fine = ring(3);
    const coarse = {
      ...fine,
      z: fine.z.map(
        (_, i) => fine.z[Math.floor(i / fine.width / 2 + 47) * fine.width + Math.floor((i % fine.width) / 2 + 47)],
      ),
    };
    expect(correlationCells({ ...coarse, mask: new Uint8Array(fine.mask.length).fill(1) })).toBeGreaterThan(
      correlationCells(fine),
    );
  });
});
