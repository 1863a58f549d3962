import { describe, expect, it } from 'vitest';
import { type Mesh, medianEdge, scaleMesh, vertexNormals } from '../../../src/core/geometry/index.ts';
import { bumpySheet, shuffledMesh } from '../surface.ts';

const sheet = bumpySheet(40, 12, 1);

/** A sphere of latitude rings, wound outward. */
function sphere(radius: number, rings: number): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  const around = 2 * rings;
  for (let i = 0; i <= rings; i++)
    for (let j = 0; j < around; j++) {
      const [t, f] = [(Math.PI * i) / rings, (2 * Math.PI * j) / around];
      positions.push(radius * Math.sin(t) * Math.cos(f), radius * Math.sin(t) * Math.sin(f), radius * Math.cos(t));
      if (i === rings) continue;
      const a = i * around + j;
      const b = i * around + ((j + 1) % around);
      triangles.push(a, a + around, b + around, a, b + around, b);
    }
  return { positions: Float32Array.from(positions), triangles: Uint32Array.from(triangles), offset: [0, 0, 0] };
}

describe('medianEdge', () => {
  it('is the middle one of all sides, sorted', () => {
    const { positions: p, triangles: t } = sheet;
    const sides: number[] = [];
    for (let i = 0; i < t.length; i += 3)
      for (const [j, k] of [
        [0, 1],
        [1, 2],
        [2, 0],
      ])
        sides.push(Math.hypot(...[0, 1, 2].map((axis) => p[3 * t[i + j] + axis] - p[3 * t[i + k] + axis])));
    sides.sort((a, b) => a - b);
    expect(medianEdge(sheet)).toBeCloseTo(sides[sides.length >> 1], 6);
  });

  it('is the same number for any order of vertices, triangles and corners', () => {
    for (const seed of [1, 2, 3]) expect(medianEdge(shuffledMesh(sheet, seed).mesh)).toBe(medianEdge(sheet));
  });

  for (const factor of [1e-3, 7, 1e3])
    it(`grows with the model, times ${factor}`, () => {
      expect(medianEdge(scaleMesh(sheet, factor)) / medianEdge(sheet) / factor).toBeCloseTo(1, 5);
    });

  it('is 0 where there are no triangles', () => {
    expect(medianEdge({ ...sheet, triangles: new Uint32Array(0) })).toBe(0);
  });
});

describe('vertexNormals', () => {
  it('look away from the middle of a sphere', () => {
    const ball = sphere(5, 40);
    const normals = vertexNormals(ball);
    for (let i = 0; i < normals.length; i += 3) {
      const along = [0, 1, 2].reduce((sum, k) => sum + (normals[i + k] * ball.positions[i + k]) / 5, 0);
      if (normals[i] || normals[i + 1] || normals[i + 2]) expect(along).toBeGreaterThan(0.99);
    }
  });

  it('have unit length, and none where no triangle meets the vertex', () => {
    const loose: Mesh = { ...sheet, positions: Float32Array.of(...sheet.positions, 9, 9, 9) };
    const normals = vertexNormals(loose);
    for (let i = 0; i < sheet.positions.length; i += 3)
      expect(Math.hypot(normals[i], normals[i + 1], normals[i + 2])).toBeCloseTo(1, 5);
    expect([...normals.slice(-3)]).toEqual([0, 0, 0]);
  });
});

describe('scaleMesh', () => {
  it('grows the offset too, and keeps the triangles', () => {
    const grown = scaleMesh({ ...sheet, offset: [1, 2, 3] }, 10);
    expect(grown.offset).toEqual([10, 20, 30]);
    expect(grown.positions[5]).toBeCloseTo(10 * sheet.positions[5], 5);
    expect(grown.triangles).toBe(sheet.triangles);
  });
});
