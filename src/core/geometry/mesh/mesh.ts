import { medianSquaredSide, normalsOfVertices } from '../../../kernels/index.ts';
import type { Vec3 } from '../vector.ts';
import { areaVector } from './areaVector.ts';

/**
 * A triangle surface as plain typed arrays.
 *
 * `positions` are xyz triples in millimetres (file units until the unit is settled), centred so that float32
 * keeps its resolution: position in the file = position + `offset`. Vertices keep the order of the file; a vertex
 * that is not a number stays in place and is used by no triangle. Triangles wind counter-clockwise seen from outside.
 */
export interface Mesh {
  readonly positions: Float32Array;
  readonly triangles: Uint32Array;
  readonly offset: Vec3;
}

/** The same surface `factor` times as large; the offset grows with it. */
export function scaleMesh(mesh: Mesh, factor: number): Mesh {
  if (factor === 1) return mesh;
  const [x, y, z] = mesh.offset;
  return {
    positions: mesh.positions.map((value) => value * factor),
    triangles: mesh.triangles,
    offset: [x * factor, y * factor, z * factor],
  };
}

/**
 * Area-weighted vertex normals, xyz triples of unit length; zero for a vertex that no triangle uses.
 * The unnormalised cross product of two edges is twice the triangle's area times its normal.
 */
export const vertexNormals = (mesh: Mesh): Float32Array => normalsOfVertices(mesh) ?? normalsPlainly(mesh);

/** The same without the kernel, whose referee this is. */
export function normalsPlainly(mesh: Mesh): Float32Array {
  const { positions: p, triangles: t } = mesh;
  const normals = new Float32Array(p.length);
  const n = new Float64Array(3);
  for (let i = 0; i < t.length; i += 3) {
    areaVector(p, t, i, n);
    for (let corner = 0; corner < 3; corner++) {
      const v = t[i + corner] * 3;
      normals[v] += n[0];
      normals[v + 1] += n[1];
      normals[v + 2] += n[2];
    }
  }
  normaliseTriples(normals);
  return normals;
}

function normaliseTriples(v: Float32Array): void {
  for (let i = 0; i < v.length; i += 3) {
    const length = Math.sqrt(v[i] * v[i] + v[i + 1] * v[i + 1] + v[i + 2] * v[i + 2]);
    if (length === 0) continue;
    v[i] /= length;
    v[i + 1] /= length;
    v[i + 2] /= length;
  }
}

/**
 * Median length of all triangle sides, in the mesh's unit: the scan's point spacing. Every side counts, so the order of
 * vertices, triangles and corners does not matter.
 */
export const medianEdge = (mesh: Mesh): number => Math.sqrt(medianSquaredSide(mesh) ?? medianSquaredPlainly(mesh));

/** The square of it without the kernel, whose referee this is. */
export function medianSquaredPlainly({ positions: p, triangles: t }: Mesh): number {
  const squared = new Float32Array(t.length);
  for (let i = 0; i < t.length; i += 3)
    for (let k = 0; k < 3; k++) {
      const a = t[i + k] * 3;
      const b = t[i + (k === 2 ? 0 : k + 1)] * 3;
      const x = p[a] - p[b];
      const y = p[a + 1] - p[b + 1];
      const z = p[a + 2] - p[b + 2];
      squared[i + k] = x * x + y * y + z * z;
    }
  return middleOf(squared);
}

/**
 * The upper median of numbers ≥ 0, or 0 for none. The bits of such floats sort as the floats do: a count by their leading
 * bits finds the few among which the median lies, and only those are sorted.
 */
function middleOf(values: Float32Array): number {
  const bits = new Uint32Array(values.buffer);
  const counts = new Uint32Array(1 << 19);
  for (let i = 0; i < bits.length; i++) counts[bits[i] >>> 12]++;
  let rank = values.length >> 1;
  let bin = 0;
  while (bin < counts.length - 1 && rank >= counts[bin]) rank -= counts[bin++];
  const near = new Float32Array(counts[bin]);
  for (let i = 0, n = 0; i < bits.length; i++) if (bits[i] >>> 12 === bin) near[n++] = values[i];
  return near.sort()[rank] ?? 0;
}
