import type { Mesh } from '../geometry/index.ts';

export const proxyDefaults = {
  /** Meshes with fewer triangles are used as they are. */
  fromTriangles: 80_000,
  /** Cells along the mesh's longest extent. */
  cells: 256,
};

/**
 * A coarse stand-in for looking at a large mesh as a whole: vertices in one cell of a cubic grid become one, at their
 * mean, and triangles that keep three different corners stay (vertex clustering, Rossignac and Borrel 1993). Does
 * not depend on the order of vertices, and costs one pass over them and one over the triangles.
 */
export function coarseProxy(mesh: Mesh, options = proxyDefaults): Mesh {
  if (mesh.triangles.length / 3 < options.fromTriangles) return mesh;
  const { cluster, positions } = clusterVertices(mesh, options.cells);
  const triangles = new Uint32Array(mesh.triangles.length);
  let n = 0;
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const a = cluster[mesh.triangles[t]];
    const b = cluster[mesh.triangles[t + 1]];
    const c = cluster[mesh.triangles[t + 2]];
    if (a === b || b === c || c === a) continue;
    triangles[n++] = a;
    triangles[n++] = b;
    triangles[n++] = c;
  }
  return { positions, triangles: triangles.subarray(0, n), offset: mesh.offset };
}

function clusterVertices({ positions: p }: Mesh, cells: number) {
  const { low, size } = extentOf(p);
  const scale = cells / (size || 1);
  const number = new Map<number, number>();
  const cluster = new Uint32Array(p.length / 3);
  const sums: number[] = [];
  const counts: number[] = [];
  let [last, k] = [-1, -1];
  for (let v = 0, i = 0; i < p.length; v++, i += 3) {
    const x = Math.floor((p[i] - low[0]) * scale);
    const y = Math.floor((p[i + 1] - low[1]) * scale);
    const z = Math.floor((p[i + 2] - low[2]) * scale);
    const key = (z * 2048 + y) * 2048 + x;
    // Vertices that follow one another mostly lie in one cell.
    if (key !== last) {
      last = key;
      k = number.get(key) ?? -1;
      if (k < 0) {
        k = counts.length;
        number.set(key, k);
        counts.push(0);
        sums.push(0, 0, 0);
      }
    }
    cluster[v] = k;
    counts[k]++;
    sums[3 * k] += p[i];
    sums[3 * k + 1] += p[i + 1];
    sums[3 * k + 2] += p[i + 2];
  }
  const positions = new Float32Array(sums.length);
  for (let i = 0, j = 0; j < counts.length; i += 3, j++) {
    positions[i] = sums[i] / counts[j];
    positions[i + 1] = sums[i + 1] / counts[j];
    positions[i + 2] = sums[i + 2] / counts[j];
  }
  return { cluster, positions };
}

function extentOf(p: Float32Array): { low: number[]; size: number } {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < p.length; i++) {
    const axis = i % 3;
    if (p[i] < low[axis]) low[axis] = p[i];
    if (p[i] > high[axis]) high[axis] = p[i];
  }
  return { low, size: Math.max(high[0] - low[0], high[1] - low[1], high[2] - low[2]) };
}
