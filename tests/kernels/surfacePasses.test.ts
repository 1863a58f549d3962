import { describe, expect, it } from 'vitest';
import { heightsSeen, heightsSeenPlainly, type WindowOf } from '../../src/core/face/raster.ts';
import { type Mesh, rotationAbout, type Similarity, seededRandom } from '../../src/core/geometry/index.ts';
import { medianSquaredPlainly, normalsPlainly } from '../../src/core/geometry/mesh/mesh.ts';
import { heightsSeenFrom, medianSquaredSide, normalsOfVertices } from '../../src/kernels/index.ts';

/** A bumpy sheet of many triangles, and a heap of long ones over and under it; some of no area, some vertices unused. */
function surface(seed: number, across: number): Mesh {
  const random = seededRandom(seed);
  const positions: number[] = [];
  for (let i = 0; i < across * across; i++)
    positions.push((i % across) / across - 0.5, Math.floor(i / across) / across - 0.5, random.between(-0.02, 0.02));
  const triangles: number[] = [];
  for (let row = 0; row + 1 < across; row++)
    for (let col = 0; col + 1 < across; col++) {
      const a = row * across + col;
      triangles.push(a, a + 1, a + across, a + 1, a + across + 1, a + across);
    }
  for (let k = 0; k < 60; k++) {
    const first = positions.length / 3;
    for (let i = 0; i < 9; i++) positions.push(random.between(-0.6, 0.6));
    triangles.push(first, first + 1, k % 7 === 0 ? first : first + 2);
  }
  return { positions: Float32Array.from(positions), triangles: Uint32Array.from(triangles), offset: [0, 0, 0] };
}

const frames: Similarity[] = [
  { scale: 1, rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], translation: [0, 0, 0] },
  { scale: 1.7, rotation: rotationAbout([0.3, -0.5, 0.8], 1.1), translation: [3, -2, 0.5] },
];

const views: WindowOf[] = [
  (extent) => ({ ...extent(), pitch: 0.013 }),
  () => ({ xMin: -0.2, xMax: 0.3, yMin: -0.1, yMax: 0.1, pitch: 0.0071 }),
  (extent) => ({ ...extent(), pitch: 0.4 }),
  () => ({ xMin: 20, xMax: 21, yMin: 20, yMax: 21, pitch: 0.1 }),
];

describe('the kernel for passes over a surface', () => {
  const none: Mesh = { positions: new Float32Array(0), triangles: new Uint32Array(0), offset: [0, 0, 0] };
  // Above 16,384 triangles, which are one call of the kernel.
  const surfaces = [surface(1, 5), surface(2, 101), surface(3, 40)];

  const grid = Float32Array.from({ length: 3 * 160 * 160 }, (_, i) =>
    i % 3 === 2 ? 0 : i % 3 === 0 ? Math.floor(i / 3) % 160 : Math.floor(i / 480),
  );
  const cells = Array.from({ length: 158 * 158 }, (_, i) => Math.floor(i / 158) * 160 + (i % 158));
  /** Two lengths in all. */
  const equalSides = {
    ...none,
    positions: grid,
    triangles: Uint32Array.from(cells.flatMap((a) => [a, a + 1, a + 160])),
  };
  /** Small is every seventh, which are those that are asked first: what they say of the others is wrong. */
  const wideApart = {
    ...none,
    positions: grid,
    triangles: Uint32Array.from(cells.flatMap((a, k) => [a, a + 1 + (k % 7 === 0 ? 0 : (k * 37) % 90), a + 160])),
  };

  it('sees the same heights as its referee, of any surface from any side', () => {
    for (const mesh of surfaces)
      for (const frame of frames)
        for (const view of views) expect(heightsSeen(mesh, frame, view)).toEqual(heightsSeenPlainly(mesh, frame, view));
    const cells = { width: 2, height: 2, pitch: 1, left: 0, top: 0 };
    expect(heightsSeenFrom(none, [1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0], () => cells)?.heights).toEqual(
      new Float32Array(4).fill(Number.NEGATIVE_INFINITY),
    );
  });

  it('finds the same median side as its referee', () => {
    for (const mesh of [...surfaces, none, equalSides, wideApart])
      expect(medianSquaredSide(mesh)).toBe(medianSquaredPlainly(mesh));
  });

  it('gives the same normals as its referee', () => {
    for (const mesh of [...surfaces, none]) expect(normalsOfVertices(mesh)).toEqual(normalsPlainly(mesh));
  });

  it('leaves the surface as it is', () => {
    const mesh = surface(4, 20);
    heightsSeen(mesh, frames[1], views[0]);
    expect(mesh).toEqual(surface(4, 20));
  });
});
