import { BufferAttribute, BufferGeometry, Vector3 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import { describe, expect, it } from 'vitest';
import {
  anyNormal,
  buildSurfaceIndex,
  closestOnSurface,
  type Mesh,
  newSurfacePoint,
  type Random,
  type SurfacePoint,
  scaleMesh,
  seededRandom,
  vertexNormals,
} from '../../../src/core/geometry/index.ts';
import { bumpySheet, shuffledMesh } from '../surface.ts';

/** Any triangles at all: slivers, points, overlaps. */
function triangleSoup(count: number, random: Random): Mesh {
  const positions = new Float32Array(9 * count);
  for (let i = 0; i < count; i++) {
    const centre = [random.between(-10, 10), random.between(-5, 5), random.between(-3, 3)];
    const size = 10 ** random.between(-3, 0.5);
    for (let k = 0; k < 9; k++) positions[9 * i + k] = centre[k % 3] + size * random.between(-1, 1);
    if (i % 17 === 0) positions.copyWithin(9 * i + 3, 9 * i, 9 * i + 3);
  }
  return { positions, triangles: Uint32Array.from({ length: 3 * count }, (_, i) => i), offset: [0, 0, 0] };
}

/** Referee: distance from p to a triangle by minimising over inside, edges and corners with plain projections. */
function bruteDistance(mesh: Mesh, p: readonly number[], keep: (triangle: number) => boolean = () => true): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < mesh.triangles.length / 3; i++) {
    if (!keep(i)) continue;
    const [a, b, c] = [0, 1, 2].map((k) => {
      const at = 3 * mesh.triangles[3 * i + k];
      return new Vector3().fromArray(mesh.positions, at);
    });
    best = Math.min(best, triangleDistance(new Vector3(...p), a, b, c));
  }
  return best;
}

function triangleDistance(p: Vector3, a: Vector3, b: Vector3, c: Vector3): number {
  const n = b.clone().sub(a).cross(c.clone().sub(a));
  const edges = [
    [a, b],
    [b, c],
    [c, a],
  ] as const;
  if (n.length() > 0) {
    const inside = edges.every(([s, e]) => e.clone().sub(s).cross(p.clone().sub(s)).dot(n) >= 0);
    if (inside) return Math.abs(p.clone().sub(a).dot(n)) / n.length();
  }
  return Math.min(
    ...edges.map(([s, e]) => {
      const along = e.clone().sub(s);
      const t = along.lengthSq() > 0 ? Math.min(1, Math.max(0, p.clone().sub(s).dot(along) / along.lengthSq())) : 0;
      return p.distanceTo(s.clone().addScaledVector(along, t));
    }),
  );
}

describe('closestOnSurface', () => {
  it('finds the distance that trying every triangle finds, on any triangles', () => {
    for (const seed of [1, 2, 3]) {
      const random = seededRandom(seed);
      const mesh = triangleSoup(400, random);
      const index = buildSurfaceIndex(mesh);
      const out = newSurfacePoint();
      for (let q = 0; q < 300; q++) {
        const p = [random.between(-14, 14), random.between(-8, 8), random.between(-6, 6)];
        expect(closestOnSurface(index, p[0], p[1], p[2], 100, 0, 0, 0, anyNormal, out), `seed ${seed}`).toBe(true);
        expect(out.distance).toBeCloseTo(bruteDistance(mesh, p), 9);
        expect(Math.hypot(p[0] - out.x, p[1] - out.y, p[2] - out.z)).toBeCloseTo(out.distance, 12);
      }
    }
  });

  it('finds the same where a few triangles are far longer than the rest, which then stand in a grid of their own', () => {
    const random = seededRandom(12);
    const sheet = bumpySheet(60, 20, 4);
    const n = sheet.positions.length / 3;
    const long = Array.from({ length: 3 * 24 }, () => [random.between(-11, 11), random.between(-11, 11), 0.4]);
    const mesh: Mesh = {
      positions: Float32Array.of(...sheet.positions, ...long.flat()),
      triangles: Uint32Array.of(...sheet.triangles, ...long.map((_, k) => n + k)),
      offset: [0, 0, 0],
    };
    const index = buildSurfaceIndex(mesh);
    expect(index.grids.map((grid) => grid.blockStart[grid.blockStart.length - 1] - grid.blockStart[0])).toEqual([
      sheet.triangles.length / 3,
      24,
    ]);
    const out = newSurfacePoint();
    let onLong = 0;
    for (let q = 0; q < 200; q++) {
      const p = [random.between(-12, 12), random.between(-12, 12), random.between(-1, 1)];
      closestOnSurface(index, p[0], p[1], p[2], 50, 0, 0, 0, anyNormal, out);
      expect(out.distance).toBeCloseTo(bruteDistance(mesh, p), 9);
      if (out.triangle >= sheet.triangles.length / 3) onLong++;
    }
    expect(onLong).toBeGreaterThan(20);
    expect(onLong).toBeLessThan(180);
  });

  it('agrees with three-mesh-bvh on a relief, near and far, whatever axis it was built along', () => {
    const mesh = bumpySheet(120, 20, 4);
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(mesh.positions, 3));
    geometry.setIndex(new BufferAttribute(mesh.triangles.slice(), 1));
    const referee = new MeshBVH(geometry);
    const indices = [buildSurfaceIndex(mesh), buildSurfaceIndex(mesh, { axis: [1, 0, 0] })];
    const random = seededRandom(5);
    for (const index of indices) {
      const out = newSurfacePoint();
      for (let q = 0; q < 2000; q++) {
        const p = [random.between(-12, 12), random.between(-12, 12), random.between(-3, 3)] as const;
        const truth = referee.closestPointToPoint(new Vector3(...p));
        closestOnSurface(index, ...p, 50, 0, 0, 0, anyNormal, out);
        expect(out.distance).toBeCloseTo(truth?.distance ?? Number.NaN, 6);
      }
    }
  });

  it('stops at the greatest distance asked for', () => {
    const index = buildSurfaceIndex(bumpySheet(40, 20, 4, () => 0));
    const out = newSurfacePoint();
    expect(closestOnSurface(index, 1, 1, 0.5, 0.499, 0, 0, 0, anyNormal, out)).toBe(false);
    expect(closestOnSurface(index, 1, 1, 0.5, 0.501, 0, 0, 0, anyNormal, out)).toBe(true);
    expect(out.distance).toBeCloseTo(0.5, 6);
  });

  it('takes only surfaces that face the right way: the far sheet of two where the near one looks down', () => {
    const upper = bumpySheet(40, 20, 4, () => 0.3);
    const lower = bumpySheet(40, 20, 4, () => 0);
    const n = upper.positions.length / 3;
    const both: Mesh = {
      positions: Float32Array.of(...upper.positions, ...lower.positions),
      triangles: Uint32Array.of(
        // Winding turned: the upper sheet looks down.
        ...upper.triangles.map((_, i, t) => t[i % 3 === 0 ? i : i % 3 === 1 ? i + 1 : i - 1]),
        ...lower.triangles.map((v) => v + n),
      ),
      offset: [0, 0, 0],
    };
    for (const normals of [undefined, vertexNormals(both)]) {
      const index = buildSurfaceIndex(both, { ...(normals && { normals }) });
      const out = newSurfacePoint();
      closestOnSurface(index, 2, 3, 0.4, 2, 0, 0, 1, 0.5, out);
      expect([out.distance, out.z, out.nz]).toEqual([
        expect.closeTo(0.4, 6),
        expect.closeTo(0, 6),
        expect.closeTo(1, 6),
      ]);
      closestOnSurface(index, 2, 3, 0.4, 2, 0, 0, -1, 0.5, out);
      expect(out.distance).toBeCloseTo(0.1, 6);
      closestOnSurface(index, 2, 3, 0.4, 2, 0, 0, 1, anyNormal, out);
      expect(out.distance).toBeCloseTo(0.1, 6);
    }
  });

  it('gives the same answer whatever the order of vertices and triangles and whatever was asked before', () => {
    const mesh = bumpySheet(60, 12, 6);
    const shuffled = shuffledMesh(mesh, 7).mesh;
    for (const withNormals of [true, false]) {
      const index = buildSurfaceIndex(mesh, withNormals ? { normals: vertexNormals(mesh) } : {});
      const other = buildSurfaceIndex(shuffled, withNormals ? { normals: vertexNormals(shuffled) } : {});
      const random = seededRandom(8);
      const a = newSurfacePoint();
      for (let q = 0; q < 2000; q++) {
        // A third stand exactly on vertices, where up to eight triangles are equally far.
        const v = 3 * random.below(mesh.positions.length / 3);
        const p = [0, 1, 2].map((k) => mesh.positions[v + k] + (q % 3 === 0 ? 0 : random.between(-0.5, 0.5)));
        const b = newSurfacePoint();
        closestOnSurface(index, p[0], p[1], p[2], 5, 0, 0, 1, 0.3, a);
        closestOnSurface(other, p[0], p[1], p[2], 5, 0, 0, 1, 0.3, b);
        for (const key of ['x', 'y', 'z', 'nx', 'ny', 'nz', 'distance'] satisfies (keyof SurfacePoint)[])
          expect(Math.abs(a[key] - b[key])).toBeLessThan(1e-6);
        expect(a.onBorder).toBe(b.onBorder);
      }
    }
  });

  it('scales with the surface from 10⁻⁶ to 10⁶', () => {
    const mesh = bumpySheet(40, 12, 6);
    const plain = buildSurfaceIndex(mesh);
    const random = seededRandom(9);
    for (const factor of [1e-6, 1e-3, 1e3, 1e6]) {
      const scaled = buildSurfaceIndex(scaleMesh(mesh, factor));
      const a = newSurfacePoint();
      const b = newSurfacePoint();
      for (let q = 0; q < 200; q++) {
        const p = [random.between(-7, 7), random.between(-7, 7), random.between(-2, 2)];
        closestOnSurface(plain, p[0], p[1], p[2], 30, 0, 0, 0, anyNormal, a);
        closestOnSurface(scaled, p[0] * factor, p[1] * factor, p[2] * factor, 30 * factor, 0, 0, 0, anyNormal, b);
        expect(b.distance / factor).toBeCloseTo(a.distance, 5);
      }
    }
  });

  it('misses nothing on a mesh that lies far from the origin', () => {
    const near = bumpySheet(40, 12, 6);
    const far: Mesh = { ...near, positions: near.positions.map((value) => value + 3000) };
    const index = buildSurfaceIndex(far);
    const out = newSurfacePoint();
    const random = seededRandom(11);
    for (let q = 0; q < 40; q++) {
      const p = [0, 1, 2].map(() => 3000 + random.between(-6, 6));
      closestOnSurface(index, p[0], p[1], p[2], 30, 0, 0, 0, anyNormal, out);
      expect(out.distance).toBeCloseTo(bruteDistance(far, p), 9);
    }
  });

  it('says where the surface ends: on the rim and on the rim of a subset of a larger mesh only if the mesh ends there', () => {
    const mesh = bumpySheet(21, 20, 4, () => 0);
    const whole = buildSurfaceIndex(mesh);
    const out = newSurfacePoint();
    closestOnSurface(whole, 12, 0.3, 0.1, 9, 0, 0, 0, anyNormal, out);
    expect(out.onBorder).toBe(true);
    closestOnSurface(whole, 3, 0.3, 0.1, 9, 0, 0, 0, anyNormal, out);
    expect(out.onBorder).toBe(false);
    const leftHalf = Uint32Array.from({ length: mesh.triangles.length / 3 }, (_, i) => i).filter(
      (i) => mesh.positions[3 * mesh.triangles[3 * i]] < 0,
    );
    const half = buildSurfaceIndex(mesh, { triangles: leftHalf });
    closestOnSurface(half, 3, 0.3, 0.1, 9, 0, 0, 0, anyNormal, out);
    expect(out.distance).toBeGreaterThan(1);
    expect(out.onBorder).toBe(false);
  });

  it('answers nothing on a mesh without triangles, and skips vertices that are not numbers', () => {
    const empty = buildSurfaceIndex({
      positions: new Float32Array(0),
      triangles: new Uint32Array(0),
      offset: [0, 0, 0],
    });
    expect(closestOnSurface(empty, 0, 0, 0, 9, 0, 0, 0, anyNormal, newSurfacePoint())).toBe(false);
    const mesh = bumpySheet(21, 20, 4, () => 0);
    const spoilt: Mesh = { ...mesh, positions: Float32Array.of(...mesh.positions, Number.NaN, Number.NaN, Number.NaN) };
    const out = newSurfacePoint();
    expect(closestOnSurface(buildSurfaceIndex(spoilt), 0, 0, 1, 9, 0, 0, 0, anyNormal, out)).toBe(true);
    expect(out.distance).toBeCloseTo(1, 6);
    expect(closestOnSurface(buildSurfaceIndex(mesh), Number.NaN, 0, 1, 9, 0, 0, 0, anyNormal, out)).toBe(false);
  });
});
