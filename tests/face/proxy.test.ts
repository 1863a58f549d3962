import { describe, expect, it } from 'vitest';
import { coarseProxy } from '../../src/core/face/proxy.ts';
import { buildSurfaceIndex, closestOnSurface, newSurfacePoint } from '../../src/core/geometry/index.ts';
import { bumpySheet, shuffledMesh } from '../geometry/surface.ts';

const sheet = bumpySheet(120, 30, 1);
const options = { fromTriangles: 0, cells: 40 };

describe('coarseProxy', () => {
  it('hands a small mesh back as it is', () => {
    expect(coarseProxy(sheet)).toBe(sheet);
  });

  it('has fewer triangles, and stays within a cell of the surface and as wide as it', () => {
    const proxy = coarseProxy(sheet, options);
    expect(proxy.triangles.length).toBeLessThan(sheet.triangles.length / 3);
    expect(proxy.triangles.length / 3).toBeGreaterThan(1000);
    const index = buildSurfaceIndex(sheet);
    const foot = newSurfacePoint();
    const cell = 30 / options.cells;
    for (let i = 0; i < proxy.positions.length; i += 3) {
      const [x, y, z] = proxy.positions.subarray(i, i + 3);
      expect(closestOnSurface(index, x, y, z, cell, 0, 0, 1, -2, foot)).toBe(true);
    }
    const across = (positions: Float32Array): number =>
      positions.reduce((most, value, i) => (i % 3 === 0 ? Math.max(most, value) : most), 0);
    expect(across(sheet.positions) - across(proxy.positions)).toBeLessThan(cell);
  });

  it('has the same corners in whatever order the vertices come', () => {
    const cornersOf = (positions: Float32Array): string[] => {
      const rounded = Array.from(positions, (value) => value.toFixed(4).replace('-0.0000', '0.0000'));
      return Array.from({ length: rounded.length / 3 }, (_, i) => rounded.slice(3 * i, 3 * i + 3).join(' ')).sort();
    };
    const shuffled = coarseProxy(shuffledMesh(sheet, 2).mesh, options);
    const plain = coarseProxy(sheet, options);
    expect(cornersOf(shuffled.positions)).toEqual(cornersOf(plain.positions));
    expect(shuffled.triangles.length).toBe(plain.triangles.length);
  });
});
