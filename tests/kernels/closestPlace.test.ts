import { describe, expect, it } from 'vitest';
import {
  anyNormal,
  buildSurfaceIndex,
  closestOnSurface,
  closestPlainly,
  type Mesh,
  newSurfacePoint,
  type SurfaceIndex,
  seededRandom,
  vertexNormals,
} from '../../src/core/geometry/index.ts';
import { type ClosestPlace, closestPlaceKernel, closestPlaceOn } from '../../src/kernels/index.ts';
import { bumpySheet } from '../geometry/surface.ts';

/** Triangles of all sizes over one another, a tenth of them slivers, some without area. */
function soup(count: number, seed: number): Mesh {
  const random = seededRandom(seed);
  const positions = new Float32Array(9 * count);
  for (let i = 0; i < count; i++) {
    const centre = [random.between(-15, 15), random.between(-12, 12), random.between(-2, 2)];
    const size = 10 ** random.between(-3, 0.3);
    for (let k = 0; k < 9; k++) positions[9 * i + k] = centre[k % 3] + size * random.between(-1, 1);
    if (i % 10 === 0) for (let k = 6; k < 9; k++) positions[9 * i + k] = positions[9 * i + k - 3] + 1e-6 * size;
    if (i % 97 === 0) positions.copyWithin(9 * i + 3, 9 * i, 9 * i + 3);
  }
  return { positions, triangles: Uint32Array.from({ length: 3 * count }, (_, i) => i), offset: [0, 0, 0] };
}

/** Asks kernel and referee the same at random places, and compares every number of the answers. */
function expectSame(index: SurfaceIndex, seed: number, farMm: number, leastCosine: number): number {
  const random = seededRandom(seed);
  const [ours, plain] = [newSurfacePoint(), newSurfacePoint()];
  let found = 0;
  for (let q = 0; q < 1500; q++) {
    const p = [random.between(-17, 17), random.between(-14, 14), random.between(-farMm, farMm)] as const;
    const d = [random.between(-1, 1), random.between(-1, 1), random.between(-1, 1)] as const;
    const limit = q % 7 === 0 ? Number.POSITIVE_INFINITY : 10 ** random.between(-2, 1);
    const one = closestOnSurface(index, ...p, limit, ...d, leastCosine, ours);
    expect(one, `query ${q}`).toBe(closestPlainly(index, ...p, limit, ...d, leastCosine, plain));
    if (!one) continue;
    found++;
    expect(ours, `query ${q}`).toEqual(plain);
  }
  return found;
}

describe('the kernel for the closest place', () => {
  it('runs here', () => {
    expect(closestPlaceKernel(buildSurfaceIndex(bumpySheet(60, 28, 1)))).not.toBeNull();
  });

  it('is asked from two sides over one memory, neither in the way of the other', () => {
    const kernel = closestPlaceKernel(buildSurfaceIndex(bumpySheet(60, 28, 1)));
    const other = kernel?.shared && closestPlaceOn(structuredClone(kernel.shared));
    if (!kernel || !other) throw new Error('no memory to share');
    const random = seededRandom(7);
    const answer = ({ ask, closest, out }: ClosestPlace, place: readonly number[]): number[] => {
      ask.set(place);
      return [closest(0), ...out];
    };
    for (let q = 0; q < 300; q++) {
      const [p, away] = [0, 1].map(() => [random.between(-17, 17), random.between(-17, 17), 1, 30, 0, 0, 1, anyNormal]);
      kernel.ask.set(p);
      const there = answer(other, away);
      const here = [kernel.closest(0), ...kernel.out];
      expect(answer(other, p)).toEqual(here);
      expect(answer(kernel, away)).toEqual(there);
    }
  });

  it('gives the same numbers as its referee on a sheet, near and far', () => {
    const mesh = bumpySheet(130, 28, 2);
    const index = buildSurfaceIndex(mesh, { normals: vertexNormals(mesh) });
    for (const [seed, farMm] of [
      [1, 0.5],
      [2, 5],
      [3, 300],
    ])
      expect(expectSame(index, seed, farMm, seed === 1 ? 0 : anyNormal)).toBeGreaterThan(150);
  });

  it('gives the same numbers on any triangles, slivers and points too', () => {
    for (const seed of [4, 5, 6]) {
      const index = buildSurfaceIndex(soup(4000, seed));
      expect(expectSame(index, seed, 3, seed === 4 ? 0.3 : anyNormal)).toBeGreaterThan(150);
    }
  });

  it('gives the same numbers far from the origin, where float32 is coarse', () => {
    const { positions, ...mesh } = soup(4000, 7);
    const index = buildSurfaceIndex({ ...mesh, positions: positions.map((v, i) => v + [4, -3, 2][i % 3] * 10) });
    expect(expectSame(index, 7, 40, anyNormal)).toBeGreaterThan(150);
  });

  it('leaves the work to the plain code where there is no WebAssembly', async () => {
    const engine = Object.getOwnPropertyDescriptor(globalThis, 'WebAssembly');
    try {
      Object.defineProperty(globalThis, 'WebAssembly', { value: undefined, configurable: true });
      const index = buildSurfaceIndex(bumpySheet(60, 28, 1));
      expect(closestPlaceKernel(index)).toBeNull();
      expect(expectSame(index, 8, 1, anyNormal)).toBeGreaterThan(150);
    } finally {
      if (engine) Object.defineProperty(globalThis, 'WebAssembly', engine);
    }
  });
});
