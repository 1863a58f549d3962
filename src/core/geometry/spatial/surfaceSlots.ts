import { borderEdges } from '../mesh/borderEdges.ts';
import type { Mesh } from '../mesh/mesh.ts';

/** Open edges and corners of the triangles in slot order. */
export function openSlots(mesh: Mesh, order: Uint32Array): Uint8Array {
  const openOf = borderEdges(mesh);
  const open = new Uint8Array(order.length);
  for (let slot = 0; slot < order.length; slot++) open[slot] = openOf[order[slot]];
  return open;
}
