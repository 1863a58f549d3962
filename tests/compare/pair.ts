import { type Face, findFace, type Sense } from '../../src/core/face/index.ts';
import type { Fit, FitModel } from '../../src/core/fit/index.ts';
import {
  apply,
  compose,
  identity,
  invert,
  type Mesh,
  rotationAbout,
  type Similarity,
  turnOver,
  vertexNormals,
} from '../../src/core/geometry/index.ts';
import { bumpySheet } from '../geometry/surface.ts';

/** Half the side of the square face, mm, and points along a side. */
export const halfMm = 10;
const points = 140;

/** Height of a die's face, mm: rings, strokes and a motif sunk into a level field. */
export function dieHeight(x: number, y: number): number {
  const r = Math.hypot(x, y);
  const step = (v: number): number => 1 / (1 + Math.exp(-12 * v));
  const ring = step(0.25 - Math.abs(r - 8.6)) + step(0.25 - Math.abs(r - 5.2));
  const strokes = step(Math.sin(9 * Math.atan2(y, x) + 0.7 * r) - 0.3) * step(r - 5.9) * step(8 - r);
  const motif = step(Math.sin(1.1 * x + 0.4) * Math.cos(0.9 * y - 0.3) - 0.2) * step(4.4 - r);
  return -0.3 * ring - 0.25 * strokes - 0.7 * motif;
}

export interface Side {
  readonly mesh: Mesh;
  readonly face: Face;
  readonly normals: Float32Array;
  readonly scaleUncertaintyPercent: number;
  readonly scaleUncertaintyFrom: 'stated' | 'assumed';
  readonly kind?: string;
  readonly material?: string;
}

/** One side of a pair; its face is looked for when somebody asks for it. */
export function side(mesh: Mesh, sense: Sense, more: Partial<Side> = {}): Side {
  let found = more.face;
  return {
    mesh,
    normals: vertexNormals(mesh),
    scaleUncertaintyPercent: 0.05,
    scaleUncertaintyFrom: 'stated',
    ...more,
    get face() {
      found ??= findFace(mesh, { sense });
      return found;
    },
  };
}

/** A die's face as a mesh, `change` mm added outward. */
export const dieMesh = (seed: number, change: (x: number, y: number) => number = () => 0, noiseMm = 0): Mesh =>
  bumpySheet(points, 2 * halfMm, seed, (x, y) => dieHeight(x, y) + change(x, y), noiseMm);

/**
 * The impression of a die: the same surface turned over with its normals turned round, `change` mm added outward where
 * the die has (x, y), then laid anywhere by `subjectFromDie`, which should hold a turn over.
 */
export function impressionMesh(
  seed: number,
  subjectFromDie: Similarity = turnOver,
  change: (x: number, y: number) => number = () => 0,
  noiseMm = 0,
): Mesh {
  const pressed = dieMesh(seed, (x, y) => -change(x, y), noiseMm);
  return moved({ ...pressed, triangles: pressed.triangles.map((_, i, t) => t[i + [0, 1, -1][i % 3]]) }, subjectFromDie);
}

export function moved(mesh: Mesh, motion: Similarity): Mesh {
  const positions = new Float32Array(mesh.positions.length);
  for (let i = 0; i < positions.length; i += 3)
    positions.set(apply(motion, [mesh.positions[i], mesh.positions[i + 1], mesh.positions[i + 2]]), i);
  return { ...mesh, positions };
}

/** A motion of no special kind. */
export const anyMotion = (scale = 1): Similarity => ({
  scale,
  rotation: rotationAbout([0.6, 0, 0.8], 0.9),
  translation: [3, -2, 5],
});

/** A subject lies as it was pressed, then was moved anywhere: its motion back to the die. */
export const laidBack = (motion: Similarity): Similarity => invert(compose(motion, turnOver));

export function model(
  name: FitModel['model'],
  referenceFromSubject: Similarity,
  more: Partial<FitModel> = {},
): FitModel {
  const { scale } = referenceFromSubject;
  return { model: name, referenceFromSubject, scale, scaleSd: 1e-4, rmsMm: 0.01, heldOutRmsMm: 0.01, ...more };
}

/** A fit that found the given motion; all three models the same, a pose known to `sdMm` and `sdRad`. */
export function fitOf(referenceFromSubject: Similarity, turnedOver: boolean, sdMm = 0.001, sdRad = 1e-4): Fit {
  const covariance = new Float64Array(49);
  for (let k = 0; k < 7; k++) covariance[8 * k] = k < 3 || k === 6 ? sdRad ** 2 : sdMm ** 2;
  return {
    found: true,
    chance: { location: 5, spread: 0.5, log10P: -20, mirror: 5 },
    doubts: [],
    chosen: 'oneScale',
    turnedOver,
    mirrored: false,
    overlap: 1,
    score: 0.9,
    rivalScore: 0.1,
    significance: 50,
    models: (['rigid', 'oneScale', 'smoothWarp'] as const).map((name) => model(name, referenceFromSubject)),
    rotationSdDeg: 0.01,
    translationSdMm: sdMm,
    covariance,
    degenerate: [],
    rivalTurns: [],
  };
}

export { identity, turnOver };
