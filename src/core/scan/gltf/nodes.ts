import type { GltfDocument, GltfNode } from './document.ts';
import { malformedGltf, whole } from './views.ts';

/** 4×4, column-major as glTF writes it. */
export type Matrix4 = readonly number[];

/** A tree deeper or larger than this is a loop, or made to exhaust the reader. */
const deepest = 1000;
const mostSteps = 100_000;

const identity: Matrix4 = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];

export interface Placed {
  readonly mesh: number;
  /** World ← mesh. */
  readonly worldFromMesh: Matrix4;
}

/**
 * The meshes that the file shows and where: those of the default scene, of the first one, or of all nodes without a
 * parent where there is no scene; every mesh as it is where there are no nodes at all. Throws `malformed` where nodes form a loop or a node is missing.
 */
export function placedMeshes(document: GltfDocument): Placed[] {
  const nodes = document.nodes ?? [];
  const placed: Placed[] = [];
  let steps = 0;
  const walk = (index: number, worldFromParent: Matrix4, depth: number) => {
    const node = nodes[index];
    if (!node || typeof node !== 'object') throw malformedGltf('a node is missing');
    if (depth > Math.min(nodes.length, deepest) || ++steps > mostSteps)
      throw malformedGltf('nodes contain one another');
    const worldFromNode = multiply(worldFromParent, localMatrix(node));
    if (node.mesh !== undefined) placed.push({ mesh: whole(node.mesh, 'mesh'), worldFromMesh: worldFromNode });
    for (const child of list(node.children)) walk(whole(child, 'child'), worldFromNode, depth + 1);
  };
  for (const root of roots(document)) walk(whole(root, 'node'), identity, 0);
  if (nodes.length > 0) return placed;
  return list(document.meshes).map((_, mesh) => ({ mesh, worldFromMesh: identity }));
}

const list = <T>(value: readonly T[] | undefined): readonly T[] => {
  if (value === undefined) return [];
  if (!Array.isArray(value)) throw malformedGltf('a list is not a list');
  return value;
};

function roots(document: GltfDocument): readonly number[] {
  const scene = list(document.scenes)[whole(document.scene, 'scene', 0)];
  if (scene) return list(scene.nodes);
  const nodes = list(document.nodes);
  const children = new Set(nodes.flatMap((node) => list(node?.children)));
  return nodes.map((_, index) => index).filter((index) => !children.has(index));
}

function localMatrix(node: GltfNode): Matrix4 {
  if (node.matrix !== undefined) return numbers(node.matrix, 16);
  const [tx, ty, tz] = numbers(node.translation ?? [0, 0, 0], 3);
  const [x, y, z, w] = numbers(node.rotation ?? [0, 0, 0, 1], 4);
  const [sx, sy, sz] = numbers(node.scale ?? [1, 1, 1], 3);
  // Unit quaternion to matrix, columns scaled.
  return [
    (1 - 2 * (y * y + z * z)) * sx,
    2 * (x * y + z * w) * sx,
    2 * (x * z - y * w) * sx,
    0,
    2 * (x * y - z * w) * sy,
    (1 - 2 * (x * x + z * z)) * sy,
    2 * (y * z + x * w) * sy,
    0,
    2 * (x * z + y * w) * sz,
    2 * (y * z - x * w) * sz,
    (1 - 2 * (x * x + y * y)) * sz,
    0,
    tx,
    ty,
    tz,
    1,
  ];
}

function numbers(value: unknown, length: number): readonly number[] {
  if (!Array.isArray(value) || value.length !== length || !value.every((entry) => typeof entry === 'number'))
    throw malformedGltf('a transform');
  return value;
}

function multiply(a: Matrix4, b: Matrix4): Matrix4 {
  const out: number[] = [];
  for (let column = 0; column < 16; column += 4)
    for (let row = 0; row < 4; row++)
      out.push(
        a[row] * b[column] + a[row + 4] * b[column + 1] + a[row + 8] * b[column + 2] + a[row + 12] * b[column + 3],
      );
  return out;
}

/** Determinant of the upper left 3×3: negative where the node mirrors its mesh. */
export const determinant = (m: Matrix4): number =>
  m[0] * (m[5] * m[10] - m[9] * m[6]) - m[4] * (m[1] * m[10] - m[9] * m[2]) + m[8] * (m[1] * m[6] - m[5] * m[2]);
