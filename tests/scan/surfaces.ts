import type { Mesh } from '../../src/core/geometry/index.ts';

/** Every triangle's corners in the file's coordinates, nine numbers a triangle. */
export function cornersInFile(mesh: Mesh): Float64Array {
  return Float64Array.from({ length: mesh.triangles.length * 3 }, (_, i) => {
    const axis = i % 3;
    return mesh.positions[mesh.triangles[(i - axis) / 3] * 3 + axis] + mesh.offset[axis];
  });
}

/**
 * Triangles as a sorted list of texts, rounded to `decimals`, each begun at its smallest corner: equal for two meshes
 * that are the same surface wound the same way, whatever the order of vertices, triangles and corners.
 */
export function asSet(corners: ArrayLike<number>, decimals: number): string[] {
  const out: string[] = [];
  const text = (value: number) => (Math.round(value * 10 ** decimals) + 0).toString();
  for (let i = 0; i < corners.length; i += 9) {
    const points = [0, 3, 6].map((k) => [0, 1, 2].map((axis) => text(corners[i + k + axis])).join());
    const first = points.indexOf([...points].sort()[0]);
    out.push([...points.slice(first), ...points.slice(0, first)].join(' '));
  }
  return out.sort();
}

/** Largest difference between two lists of numbers of the same length; infinite for different lengths. */
export function largestDifference(a: ArrayLike<number>, b: ArrayLike<number>): number {
  if (a.length !== b.length) return Number.POSITIVE_INFINITY;
  let largest = 0;
  for (let i = 0; i < a.length; i++) largest = Math.max(largest, Math.abs(a[i] - b[i]));
  return largest;
}

/** Area and volume Σ a·(b × c)/6 of a mesh, in the file's unit. */
export function areaAndVolume(mesh: Mesh): { area: number; volume: number } {
  const { positions: p, triangles: t } = mesh;
  let area = 0;
  let volume = 0;
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [t[i], t[i + 1], t[i + 2]].map((v) => [p[v * 3], p[v * 3 + 1], p[v * 3 + 2]]);
    const u = b.map((value, k) => value - a[k]);
    const v = c.map((value, k) => value - a[k]);
    const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    area += Math.hypot(...n) / 2;
    volume += (a[0] * n[0] + a[1] * n[1] + a[2] * n[2]) / 6;
  }
  return { area, volume };
}

/**
 * One number per triangle, sorted: a weighted sum of its corners and its volume with the origin, which changes sign with
 * the winding. Equal lists mean the same surface for all that chance allows; for surfaces too large for `asSet`.
 */
export function sortedMarks(corners: ArrayLike<number>): Float64Array {
  const marks = new Float64Array(corners.length / 9);
  for (let i = 0; i < marks.length; i++) {
    const at = (k: number) => corners[i * 9 + k];
    const x = at(0) + at(3) + at(6);
    const y = at(1) + at(4) + at(7);
    const z = at(2) + at(5) + at(8);
    const volume =
      at(0) * (at(4) * at(8) - at(5) * at(7)) -
      at(1) * (at(3) * at(8) - at(5) * at(6)) +
      at(2) * (at(3) * at(7) - at(4) * at(6));
    marks[i] = 1.7 * x + 2.9 * y + 5.3 * z + volume;
  }
  return marks.sort();
}
