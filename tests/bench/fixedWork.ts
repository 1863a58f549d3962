import { BufferAttribute, BufferGeometry, Vector3 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';

/**
 * CPU seconds of work that never changes: a bounding volume hierarchy over the triangles of a wavy sheet of `across`² vertices, and
 * the closest place to `asked` points beside it, by a library that this program does not use. By default two million triangles.
 */
export function fixedWork(across = 1000, asked = 200_000): number {
  const positions = new Float32Array(3 * across * across);
  for (let i = 0; i < across * across; i++)
    positions.set([i % across, Math.floor(i / across), 8 * Math.sin(i * 0.013) * Math.cos(i * 0.000_02)], 3 * i);
  const corners = new Uint32Array(6 * (across - 1) ** 2);
  for (let row = 0, at = 0; row + 1 < across; row++)
    for (let col = 0; col + 1 < across; col++, at += 6) {
      const a = row * across + col;
      corners.set([a, a + 1, a + across, a + 1, a + across + 1, a + across], at);
    }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(positions, 3));
  geometry.setIndex(new BufferAttribute(corners, 1));
  const start = process.cpuUsage();
  const tree = new MeshBVH(geometry);
  const point = new Vector3();
  for (let q = 0; q < asked; q++)
    tree.closestPointToPoint(point.set((q * 7.31) % across, (q * 0.005) % across, (q % 20) - 10));
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1e6;
}
