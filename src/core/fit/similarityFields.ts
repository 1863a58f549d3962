import type { Vec3 } from '../geometry/index.ts';

/** Displacements at p, mm, by the seven motions of a small similarity: unit turn about x, y, z (times R), shift, growth (times R). */
export const similarityFields = ([x, y, z]: Vec3, R: number): Vec3[] => [
  [0, -z / R, y / R],
  [z / R, 0, -x / R],
  [-y / R, x / R, 0],
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
  [x / R, y / R, z / R],
];
