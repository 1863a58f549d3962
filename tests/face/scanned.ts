import { type GeneratedScan, mmPerUnit } from '../../sample-scans/generator/index.ts';
import { apply, compose, identity, invert, type Mesh, type Similarity } from '../../src/core/geometry/index.ts';

/** A generated scan as a centred mesh in mm, as reading a file would give it. */
export function meshOf({ positions, triangles, unit }: GeneratedScan): Mesh {
  const middle = [0, 0, 0];
  positions.forEach((value, i) => {
    middle[i % 3] += (3 * value * mmPerUnit[unit]) / positions.length;
  });
  return {
    positions: Float32Array.from(positions, (value, i) => value * mmPerUnit[unit] - middle[i % 3]),
    triangles,
    offset: [middle[0], middle[1], middle[2]],
  };
}

/** True face frame ← found face frame of a mesh made by `meshOf`: the identity where the face was found exactly. */
export function trueFromFound(scan: GeneratedScan, mesh: Mesh, faceFromScan: Similarity): Similarity {
  const fileFromMesh: Similarity = { ...identity, translation: mesh.offset };
  return compose(scan.faceFromScan, compose(fileFromMesh, invert(faceFromScan)));
}

/** Angle between the z axes of two frames, degrees. */
export const tiltDeg = ({ rotation }: Similarity): number =>
  (Math.atan2(Math.hypot(rotation[2], rotation[5]), rotation[8]) * 180) / Math.PI;

/** The mesh after a rigid motion of its own coordinates. */
export function movedMesh(mesh: Mesh, motion: Similarity): Mesh {
  const positions = new Float32Array(mesh.positions.length);
  for (let i = 0; i < positions.length; i += 3)
    positions.set(apply(motion, [mesh.positions[i], mesh.positions[i + 1], mesh.positions[i + 2]]), i);
  return { ...mesh, positions };
}

/** Several surfaces in one file. */
export function joined(...meshes: readonly Mesh[]): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (const mesh of meshes) {
    const first = positions.length / 3;
    for (const value of mesh.positions) positions.push(value);
    for (const corner of mesh.triangles) triangles.push(first + corner);
  }
  return { positions: Float32Array.from(positions), triangles: Uint32Array.from(triangles), offset: [0, 0, 0] };
}

/** A grid of points over a rectangle, counter-clockwise seen from +z. */
export function sheet(width: number, depth: number, step: number, height: (x: number, y: number) => number): Mesh {
  const columns = Math.round(width / step) + 1;
  const rows = Math.round(depth / step) + 1;
  const positions: number[] = [];
  const triangles: number[] = [];
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++) {
      const [x, y] = [(c / (columns - 1) - 0.5) * width, (r / (rows - 1) - 0.5) * depth];
      positions.push(x, y, height(x, y));
      const i = r * columns + c;
      if (r + 1 < rows && c + 1 < columns) triangles.push(i, i + 1, i + columns + 1, i, i + columns + 1, i + columns);
    }
  return { positions: Float32Array.from(positions), triangles: Uint32Array.from(triangles), offset: [0, 0, 0] };
}
