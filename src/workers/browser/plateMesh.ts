import { MeshoptSimplifier } from 'meshoptimizer/simplifier';
import type { HeightGrid } from '../../core/geometry/index.ts';
import { grownGrid, halved } from './reliefPicture.ts';

/** A light surface in the face frame that carries the stored normal picture. */
export interface PlateMesh {
  readonly positions: Float32Array;
  readonly triangles: Uint32Array;
  /** Fewer triangles over the same positions, for the screen; absent in what was read from a file. */
  readonly few?: Uint32Array;
}

const startCells = 160_000;

/**
 * The relief as few triangles: the grid halved until it is small, its edge grown by one cell (the mask cuts the true
 * edge), then simplified by quadric error to `targetTriangles`, and for the screen to `fewTriangles`: each costs time
 * where there is no graphics card, and the light does not depend on them.
 */
export async function plateMesh(relief: HeightGrid, targetTriangles: number, fewTriangles: number): Promise<PlateMesh> {
  let grid = relief;
  while (grid.width * grid.height > startCells) grid = halved(grid);
  const full = gridMesh(grownGrid(grownGrid(grid)));
  await MeshoptSimplifier.ready;
  const target = Math.min(targetTriangles * 3, full.triangles.length);
  const [kept] = MeshoptSimplifier.simplify(full.triangles, full.positions, 3, target, 0.5);
  const used = new Uint32Array(kept);
  const [remap, count] = MeshoptSimplifier.compactMesh(used);
  const positions = new Float32Array(count * 3);
  for (let i = 0; i < remap.length; i++)
    if (remap[i] !== 0xffffffff) positions.set(full.positions.subarray(3 * i, 3 * i + 3), 3 * remap[i]);
  const [few] = MeshoptSimplifier.simplify(used, positions, 3, Math.min(3 * fewTriangles, used.length), 0.5);
  return { positions, triangles: used, few: new Uint32Array(few) };
}

function gridMesh(grid: HeightGrid): PlateMesh {
  const { width, height, pitch, left, top, z, mask } = grid;
  const positions = new Float32Array(width * height * 3);
  for (let i = 0; i < width * height; i++) {
    positions[3 * i] = left + (i % width) * pitch;
    positions[3 * i + 1] = top - Math.floor(i / width) * pitch;
    positions[3 * i + 2] = z[i];
  }
  const triangles: number[] = [];
  for (let row = 0; row < height - 1; row++)
    for (let col = 0; col < width - 1; col++) {
      const a = row * width + col;
      if (!(mask[a] && mask[a + 1] && mask[a + width] && mask[a + width + 1])) continue;
      triangles.push(a, a + width, a + 1, a + 1, a + width, a + width + 1);
    }
  return { positions, triangles: Uint32Array.from(triangles) };
}
