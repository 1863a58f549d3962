import { type Mesh, type Random, seededRandom } from '../../src/core/geometry/index.ts';

/** A bumpy sheet of n × n jittered points, `sideMm` wide, heights from `height`, with noise: for tests only. */
export function bumpySheet(
  n: number,
  sideMm: number,
  seed: number,
  height: (x: number, y: number) => number = hills,
  noiseMm = 0,
): Mesh {
  const random = seededRandom(seed);
  const pitch = sideMm / (n - 1);
  const positions = new Float32Array(3 * n * n);
  for (let row = 0; row < n; row++)
    for (let col = 0; col < n; col++) {
      const jitter = (k: number): number => (k === 0 || k === n - 1 ? 0 : random.between(-0.3, 0.3) * pitch);
      const x = col * pitch - sideMm / 2 + jitter(col);
      const y = row * pitch - sideMm / 2 + jitter(row);
      positions.set([x, y, height(x, y) + noiseMm * random.normal()], 3 * (row * n + col));
    }
  return { positions, triangles: sheetTriangles(n), offset: [0, 0, 0] };
}

export const hills = (x: number, y: number): number => 0.6 * Math.sin(1.3 * x) * Math.cos(1.1 * y) + 0.002 * x * x;

/** Counter-clockwise seen from +z. */
function sheetTriangles(n: number): Uint32Array {
  const triangles = new Uint32Array(6 * (n - 1) ** 2);
  let k = 0;
  for (let row = 0; row + 1 < n; row++)
    for (let col = 0; col + 1 < n; col++) {
      const a = row * n + col;
      triangles.set([a, a + 1, a + n + 1, a, a + n + 1, a + n], k);
      k += 6;
    }
  return triangles;
}

/** The same surface with vertices and triangles in another order and corners rotated; winding kept. */
export function shuffledMesh(mesh: Mesh, seed: number): { mesh: Mesh; newVertexOf: Uint32Array } {
  const random = seededRandom(seed);
  const newVertexOf = shuffledOrder(mesh.positions.length / 3, random);
  const positions = new Float32Array(mesh.positions.length);
  newVertexOf.forEach((to, from) => {
    positions.set(mesh.positions.subarray(3 * from, 3 * from + 3), 3 * to);
  });
  const triangles = new Uint32Array(mesh.triangles.length);
  shuffledOrder(mesh.triangles.length / 3, random).forEach((to, from) => {
    const turn = random.below(3);
    for (let k = 0; k < 3; k++) triangles[3 * to + k] = newVertexOf[mesh.triangles[3 * from + ((k + turn) % 3)]];
  });
  return { mesh: { positions, triangles, offset: mesh.offset }, newVertexOf };
}

function shuffledOrder(count: number, random: Random): Uint32Array {
  const order = Uint32Array.from({ length: count }, (_, i) => i);
  for (let i = count - 1; i > 0; i--) {
    const j = random.below(i + 1);
    [order[i], order[j]] = [order[j], order[i]];
  }
  return order;
}
