import { sharedRoom } from '../room.ts';
import type { Mesh } from './mesh.ts';

/** The same surface in memory that other threads see. */
export function sharedMesh({ positions, triangles, offset }: Mesh): Mesh {
  const shared = {
    positions: new Float32Array(sharedRoom(positions.byteLength)),
    triangles: new Uint32Array(sharedRoom(triangles.byteLength)),
    offset,
  };
  shared.positions.set(positions);
  shared.triangles.set(triangles);
  return shared;
}
