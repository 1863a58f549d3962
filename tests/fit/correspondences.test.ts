import { describe, expect, it } from 'vitest';
import {
  isInside,
  type Meet,
  type Meeting,
  meetAlongHeight,
  meetClosest,
  pairingTarget,
  type Target,
} from '../../src/core/fit/correspondenceGround.ts';
import { pairPoints } from '../../src/core/fit/correspondences.ts';
import { facePoints } from '../../src/core/fit/points.ts';
import { applyWarp, warpParameters } from '../../src/core/fit/warp.ts';
import {
  apply,
  buildSurfaceIndex,
  identity,
  invert,
  normalise,
  rotate,
  rotationAbout,
  type Similarity,
  seededRandom,
  type Vec3,
} from '../../src/core/geometry/index.ts';
import { gridOf, meshOf, normalAt, pointsOn, reliefOf, targetOf } from './relief.ts';

/** A level that leans both ways, unequally. */
const leaning = reliefOf((x, y) => 0.3 * x - 0.2 * y + 0.5);
const up = normalAt([0.3, -0.2]);
const rigid: Similarity = {
  scale: 1,
  rotation: rotationAbout(normalise([0.5, -0.8, 0.3]), 1.1),
  translation: [3, -7, 2],
};
const met = (): Meeting => ({ dx: Number.NaN, dy: 0, dz: 0, nx: 0, ny: 0, nz: 0 });
const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** What a point meets; null for nothing. */
function metBy(meet: Meet, target: Target, p: Vec3, n: Vec3, reachMm = 2): { to: Vec3; normal: Vec3 } | null {
  const out = met();
  if (!meet(target, ...p, ...n, reachMm, out)) return null;
  return { to: [out.dx, out.dy, out.dz], normal: [out.nx, out.ny, out.nz] };
}

/** The same target, its scan lying elsewhere. */
function lyingAt(scanFromFace: Similarity): Target {
  const grid = gridOf(leaning, 5, 0.25);
  const { mesh, normals } = meshOf(leaning, grid);
  const positions = Float32Array.from({ length: mesh.positions.length }, (_, k) => {
    const i = 3 * Math.floor(k / 3);
    return apply(scanFromFace, [mesh.positions[i], mesh.positions[i + 1], mesh.positions[i + 2]])[k % 3];
  });
  const turned = Float32Array.from({ length: normals.length }, (_, k) => {
    const i = 3 * Math.floor(k / 3);
    return rotate(scanFromFace.rotation, [normals[i], normals[i + 1], normals[i + 2]])[k % 3];
  });
  return {
    index: buildSurfaceIndex({ ...mesh, positions }, { normals: turned }),
    faceFromScan: invert(scanFromFace),
    grid,
    inside: grid.mask,
  };
}

describe('a point and its counterpart', () => {
  const random = seededRandom(12);
  const places = Array.from({ length: 40 }, (): Vec3 => {
    const [x, y] = [random.between(-3, 3), random.between(-3, 3)];
    return [x, y, leaning.height(x, y) + random.between(-0.8, 0.8)];
  });
  const distance = (p: Vec3): number => (p[2] - leaning.height(p[0], p[1])) * up[2];

  it('closest on a plane is the foot of the perpendicular, wherever the scan lies', () => {
    for (const target of [targetOf(leaning, 5, 0.25), lyingAt(rigid)])
      for (const p of places) {
        const found = metBy(meetClosest, target, p, up);
        for (let k = 0; k < 3; k++) {
          expect(found?.to[k]).toBeCloseTo(-distance(p) * up[k], 5);
          expect(found?.normal[k]).toBeCloseTo(up[k], 5);
        }
      }
  });

  it('along the height on a plane is straight above or below', () => {
    const target = targetOf(leaning, 5, 0.25);
    for (const p of places) {
      const found = metBy(meetAlongHeight, target, p, up);
      expect(found?.to[0]).toBe(0);
      expect(found?.to[1]).toBe(0);
      expect(found?.to[2]).toBeCloseTo(leaning.height(p[0], p[1]) - p[2], 6);
      for (let k = 0; k < 3; k++) expect(found?.normal[k]).toBeCloseTo(up[k], 6);
    }
  });

  it.each([
    ['closest', meetClosest],
    ['along the height', meetAlongHeight],
  ] as const)('%s is within reach and within 60° of the same way, or none', (_, meet) => {
    const target = targetOf(leaning, 5, 0.25);
    const off = (mm: number): Vec3 => [0.1 + mm * up[0], 0.2 + mm * up[1], leaning.height(0.1, 0.2) + mm * up[2]];
    expect(metBy(meet, target, off(0.98), up, 1)).not.toBeNull();
    expect(metBy(meet, target, off(1.02), up, 1)).toBeNull();
    expect(metBy(meet, target, off(-0.98), up, 1)).not.toBeNull();
    expect(metBy(meet, target, off(-1.02), up, 1)).toBeNull();
    const side = normalise([up[2], 0, -up[0]]);
    const leant = (deg: number): Vec3 => {
      const a = (deg * Math.PI) / 180;
      return [0, 1, 2].map((k) => Math.cos(a) * up[k] + Math.sin(a) * side[k]) as unknown as Vec3;
    };
    for (const sign of [1, -1]) {
      expect(metBy(meet, target, off(0.1), leant(58 * sign))).not.toBeNull();
      expect(metBy(meet, target, off(0.1), leant(62 * sign))).toBeNull();
    }
    expect(metBy(meet, target, off(0.1), [-up[0], -up[1], -up[2]])).toBeNull();
  });

  it('is none on an open edge, nor where a neighbour of the cell carries nothing', () => {
    const whole = targetOf(leaning, 5, 0.25);
    expect(metBy(meetClosest, whole, [5.3, 0, leaning.height(5.3, 0)], up)).toBeNull();
    expect(metBy(meetClosest, whole, [4.7, 0, leaning.height(4.7, 0)], up)).not.toBeNull();
    const at = (row: number, col: number): Vec3 => {
      const [x, y] = [whole.grid.left + col * 0.25, whole.grid.top - row * 0.25];
      return [x, y, leaning.height(x, y)];
    };
    const { width, height } = whole.grid;
    for (const [row, col, there] of [
      [0, 9, false],
      [1, 9, true],
      [9, 0, false],
      [9, 1, true],
      [height - 1, 9, false],
      [height - 2, 9, true],
      [9, width - 1, false],
      [9, width - 2, true],
    ] as const)
      expect(metBy(meetAlongHeight, whole, at(row, col), up) !== null).toBe(there);
    for (const [dr, dc] of [
      [0, 0],
      [0, 1],
      [0, -1],
      [1, 0],
      [-1, 0],
      [1, 1],
    ]) {
      const inside = Uint8Array.from(whole.inside);
      inside[(12 + dr) * width + 14 + dc] = 0;
      expect(metBy(meetAlongHeight, { ...whole, inside }, at(12, 14), up) !== null).toBe(dr * dc !== 0);
    }
  });

  it('lies over a cell of the face, its margin left out', () => {
    const grid = gridOf(leaning, 2, 0.5);
    const target = { ...targetOf(leaning, 2, 0.5), grid, inside: grid.mask };
    const { left, top, width, height } = grid;
    const [right, foot] = [left + (width - 1) * 0.5, top - (height - 1) * 0.5];
    for (const [x, y, there] of [
      [left - 0.2, 0, true],
      [left - 0.3, 0, false],
      [right + 0.2, 0, true],
      [right + 0.3, 0, false],
      [0, top + 0.2, true],
      [0, top + 0.3, false],
      [0, foot - 0.2, true],
      [0, foot - 0.3, false],
    ] as const)
      expect(isInside(target, x, y)).toBe(there);
    const { inside } = pairingTarget(target.index, { relief: grid, image: grid, faceFromScan: identity }, 1);
    for (let row = 0, i = 0; row < height; row++)
      for (let col = 0; col < width; col++, i++)
        if (inside[i]) expect(Math.min(row, col, height - 1 - row, width - 1 - col)).toBeGreaterThanOrEqual(2);
    expect(inside[4 * width + 4]).toBe(1);
  });
});

describe('points in pairs', () => {
  const relief = reliefOf((x, y) => 0.3 * Math.sin(1.1 * x) * Math.cos(0.9 * y - 0.4));
  const target = targetOf(relief, 6, 0.1);
  const bending = Float64Array.from({ length: warpParameters }, (_, k) => 0.05 * Math.cos(3 * k));

  it.each([false, true])('are the moved and bent points with what they meet, opposed: %s', (opposed) => {
    const motion = invert({ ...rigid, scale: 1.2 });
    const points = pointsOn(relief, 0.7, 5, { ...rigid, scale: 1.2 });
    if (opposed) for (let k = 0; k < points.normals.length; k++) points.normals[k] *= -1;
    const pairs = pairPoints(target, 'closest', points, motion, bending, 1, { opposed, radiusMm: 5 });
    let seen = 0;
    for (let i = 0; i < pairs.residual.length; i++) {
      const of = (a: Float64Array): Vec3 => [a[3 * i], a[3 * i + 1], a[3 * i + 2]];
      const moved = apply(motion, of(points.positions));
      for (let k = 0; k < 3; k++) expect(pairs.moved[3 * i + k]).toBeCloseTo(moved[k], 9);
      const bent = applyWarp({ before: identity, radiusMm: 5, coefficients: bending }, moved);
      const way = rotate(motion.rotation, of(points.normals)).map((n) => (opposed ? -n : n)) as unknown as Vec3;
      const found = isInside(target, moved[0], moved[1]) ? metBy(meetClosest, target, bent, way, 1) : null;
      if (!found) {
        expect(pairs.residual[i]).toBeNaN();
        continue;
      }
      const normal = normalise([0, 1, 2].map((k) => found.normal[k] + way[k]) as unknown as Vec3);
      for (let k = 0; k < 3; k++) expect(pairs.normals[3 * i + k]).toBeCloseTo(normal[k], 9);
      expect(pairs.residual[i]).toBeCloseTo(dot(found.to, normal), 9);
      seen++;
    }
    expect(seen).toBeGreaterThan(100);
  });

  it('are without a residual where they lie beyond the face', () => {
    const points = { positions: Float64Array.of(20, 0, 0, 0, 0, 0), normals: Float64Array.of(0, 0, 1, 0, 0, 1) };
    const { residual } = pairPoints(target, 'closest', points, identity, undefined, 1, {
      opposed: false,
      radiusMm: 5,
    });
    expect(residual[0]).toBeNaN();
    expect(residual[1]).not.toBeNaN();
  });
});

describe('points of a face', () => {
  it('lie on it with its normals, evenly, as many as asked for', () => {
    const grid = gridOf(leaning, 10, 0.1, (x, y) => Math.hypot(x, y) < 9);
    const { positions, normals } = facePoints(grid, 1000);
    const count = positions.length / 3;
    expect(Math.abs(count / 1000 - 1)).toBeLessThan(0.1);
    for (let i = 0; i < count; i++) {
      const [x, y, z] = positions.subarray(3 * i);
      expect(z).toBeCloseTo(leaning.height(x, y), 6);
      expect(Math.hypot(x, y)).toBeLessThan(9);
      for (let k = 0; k < 3; k++) expect(normals[3 * i + k]).toBeCloseTo(up[k], 4);
    }
    // Every fifth cell along a row: 25,447 cells for 1000 points.
    expect(positions[3] - positions[0]).toBeCloseTo(0.5, 9);
  });

  it('are only where a cell and its four neighbours carry data', () => {
    const grid = gridOf(leaning, 0.5, 0.25);
    const all = facePoints(grid, 1e6).positions.length / 3;
    expect(all).toBe((grid.width - 2) * (grid.height - 2));
    const middle = Math.floor(grid.height / 2) * grid.width + Math.floor(grid.width / 2);
    grid.mask[middle] = 0;
    // It and its four neighbours.
    expect(facePoints(grid, 1e6).positions.length / 3).toBe(all - 5);
  });
});
