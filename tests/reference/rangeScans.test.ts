import { describe, expect, it } from 'vitest';
import type { Target } from '../../src/core/fit/correspondenceGround.ts';
import { type IcpOptions, icp } from '../../src/core/fit/icp.ts';
import type { FacePoints } from '../../src/core/fit/points.ts';
import {
  angleBetweenDeg,
  apply,
  buildSurfaceIndex,
  compose,
  emptyGrid,
  identity,
  invert,
  type Mesh,
  normalise,
  rotationAbout,
  type Similarity,
  transpose3,
  type Vec3,
  vertexNormals,
} from '../../src/core/geometry/index.ts';
import { readScan, toMillimetres } from '../../src/core/scan/index.ts';
import { needing, realData } from '../realData.ts';

// Four laser range scans of one object and their poses: Stanford 3D Scanning Repository. Lengths are metres;
// world = R(q)ᵀ v + t with q = (x, y, z, w).
const folder = 'range-scans';

/** World ← scan, mm, by file name. */
function publishedPoses(): Map<string, Similarity> {
  const text = new TextDecoder().decode(realData(`${folder}/bun.conf`) as Uint8Array);
  const lines = text.split('\n').map((line) => line.trim().split(/\s+/));
  return new Map(
    lines
      .filter(([word]) => word === 'bmesh')
      .map(([, name, ...numbers]) => {
        const [tx, ty, tz, x, y, z, w] = numbers.map(Number);
        return [name, { scale: 1, rotation: transpose3(rotationOf(x, y, z, w)), translation: inMm([tx, ty, tz]) }];
      }),
  );
}

const inMm = ([x, y, z]: number[]): Vec3 => [1000 * x, 1000 * y, 1000 * z];

function rotationOf(x: number, y: number, z: number, w: number): number[] {
  const half = Math.atan2(Math.hypot(x, y, z), w);
  return [...rotationAbout(half === 0 ? [0, 0, 1] : normalise([x, y, z]), 2 * half)];
}

async function meshOf(name: string): Promise<Mesh> {
  const raw = await readScan(realData(`${folder}/${name}`) as Uint8Array, name);
  return toMillimetres(raw, 'm', 'stated').mesh;
}

/** The whole scan to fit to: a pair may end anywhere on it. */
function wholeTarget(mesh: Mesh): Target {
  const grid = emptyGrid(-200, 200, -200, 200, 4);
  grid.mask.fill(1);
  const index = buildSurfaceIndex(mesh, { normals: vertexNormals(mesh) });
  return { index, faceFromScan: identity, grid, inside: grid.mask };
}

/** Every so many vertices of a scan with their normals. */
function pointsOf(mesh: Mesh, count: number): FacePoints {
  const normals = vertexNormals(mesh);
  const step = Math.ceil(mesh.positions.length / 3 / count);
  const used = [...Array(mesh.positions.length / 3).keys()].filter((i) => i % step === 0 && normals[3 * i + 2] !== 0);
  const pick = (values: Float32Array): Float64Array =>
    Float64Array.from(used.flatMap((i) => [...values.subarray(3 * i, 3 * i + 3)]));
  return { positions: pick(mesh.positions), normals: pick(normals) };
}

function centreOf({ positions }: FacePoints): Vec3 {
  const sum = [0, 0, 0];
  positions.forEach((value, k) => {
    sum[k % 3] += value;
  });
  return inMm(sum.map((value) => (3 * value) / positions.length / 1000));
}

const shifted = (by: readonly number[]): Similarity => ({ ...identity, translation: [by[0], by[1], by[2]] });

/** Turned by `deg` about the place `centre` and pushed by `mm`. */
function knocked(centre: Vec3, deg: number, mm: number): Similarity {
  const turn: Similarity = {
    ...identity,
    rotation: rotationAbout(normalise([1, -1, 0.5]), (deg * Math.PI) / 180),
  };
  const push = shifted([0.7 * mm, -0.5 * mm, 0.5 * mm]);
  return compose(push, compose(shifted(centre), compose(turn, invert(shifted(centre)))));
}

const options: IcpOptions = {
  scale: false,
  warp: false,
  meeting: 'closest',
  opposed: false,
  radiusMm: 80,
  reachMm: [10, 0.8],
  rounds: 40,
  floorMm: 0.05,
};

describe('range scans with published poses', () => {
  for (const [reference, subject] of [
    ['bun000.ply', 'bun045.ply'],
    ['bun000.ply', 'bun315.ply'],
    ['bun045.ply', 'bun090.ply'],
  ])
    it.skipIf(!realData(`${folder}/${subject}`))(
      needing(`${folder}/${subject}`, `${subject} comes back to ${reference} from 6° and 4 mm off`),
      async () => {
        const poses = publishedPoses();
        const [a, b] = await Promise.all([meshOf(reference), meshOf(subject)]);
        const world = (name: string, mesh: Mesh): Similarity =>
          compose(poses.get(name) as Similarity, shifted(mesh.offset));
        const published = compose(invert(world(reference, a)), world(subject, b));
        const points = pointsOf(b, 5000);
        const centre = centreOf(points);
        const start = compose(knocked(apply(published, centre), 6, 4), published);
        const { motion, converged } = icp(wholeTarget(a), points, start, options);
        const [found, expected] = [apply(motion, centre), apply(published, centre)];
        expect(converged).toBe(true);
        // The scans' points lie 0.8 mm apart on an object of 150 mm.
        expect(angleBetweenDeg(motion.rotation, published.rotation)).toBeLessThan(0.2);
        expect(Math.hypot(...found.map((value, k) => value - expected[k]))).toBeLessThan(0.1);
      },
    );
});
