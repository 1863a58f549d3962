import { areaVector, dot, inStretches, type Mesh, normalise, type Vec3 } from '../geometry/index.ts';

/** A direction that much of the surface looks toward. */
export interface FacingDirection {
  readonly direction: Vec3;
  /** Surface area whose normal lies within the kernel of it, in square units of the mesh. */
  readonly area: number;
}

export const directionDefaults = {
  /** Half-width of the kernel: engraved flanks spread the normals of a face by about this much. */
  kernelDeg: 25,
  /** Peaks nearer than this are one. */
  apartDeg: 40,
  /** Peaks with less than this share of the strongest are dropped. */
  leastShare: 0.2,
  /** Cells along each side of the six faces of a cube that the normals are gathered in; 16 are about 6° wide. */
  cells: 16,
};

/**
 * Directions toward which the surface turns most of its area: local maxima of the area-weighted normal density on
 * the sphere (the extended Gaussian image, Horn 1984), each refined by one weighted mean. Strongest first.
 * Every triangle counts, so the order of the triangles does not matter.
 */
export function facingDirections(mesh: Mesh, options = directionDefaults): FacingDirection[] {
  const bins = filled(gatherNormals(mesh, options.cells));
  const cosKernel = Math.cos((options.kernelDeg * Math.PI) / 180);
  const peaked = Array.from({ length: bins.length / 4 }, (_, k) =>
    smooth(bins, normalise([bins[4 * k + 1], bins[4 * k + 2], bins[4 * k + 3]]), cosKernel),
  );
  peaked.sort((a, b) => b.area - a.area);
  const cosApart = Math.cos((options.apartDeg * Math.PI) / 180);
  const kept: FacingDirection[] = [];
  for (const candidate of peaked) {
    if (candidate.area < options.leastShare * peaked[0].area) break;
    if (kept.every((peak) => dot(peak.direction, candidate.direction) <= cosApart)) kept.push(candidate);
  }
  return kept;
}

/** Area and area-weighted normal in the cells of a cube around the sphere of directions: four numbers a cell. */
function gatherNormals(mesh: Mesh, cells: number): Float64Array {
  const sums = new Float64Array(6 * cells * cells * 4);
  inStretches(addNormals, { mesh, cells, sums }, mesh.triangles.length / 3);
  return sums;
}

interface Gathered {
  readonly mesh: Mesh;
  readonly cells: number;
  readonly sums: Float64Array;
}

function addNormals({ mesh, cells, sums }: Gathered, from: number, to: number): void {
  const n = new Float64Array(3);
  for (let i = from; i < to; i++) {
    areaVector(mesh.positions, mesh.triangles, 3 * i, n);
    const nx = n[0];
    const ny = n[1];
    const nz = n[2];
    const twice = Math.sqrt(nx * nx + ny * ny + nz * nz);
    if (!(twice > 0)) continue;
    const k = cubeCell(nx, ny, nz, cells) * 4;
    sums[k] += twice / 2;
    sums[k + 1] += nx;
    sums[k + 2] += ny;
    sums[k + 3] += nz;
  }
}

/** The cells with area, moved to the front. */
function filled(bins: Float64Array): Float64Array {
  let n = 0;
  for (let k = 0; k < bins.length; k += 4)
    if (bins[k] > 0) {
      bins.copyWithin(n, k, k + 4);
      n += 4;
    }
  return bins.subarray(0, n);
}

function cubeCell(x: number, y: number, z: number, cells: number): number {
  const ax = Math.abs(x);
  const ay = Math.abs(y);
  const az = Math.abs(z);
  const alongX = ax >= ay && ax >= az;
  const alongY = !alongX && ay >= az;
  const most = alongX ? ax : alongY ? ay : az;
  const side = alongX ? (x > 0 ? 0 : 1) : alongY ? (y > 0 ? 2 : 3) : z > 0 ? 4 : 5;
  const u = (alongX ? y : x) / most;
  const v = (alongX || alongY ? z : y) / most;
  const col = Math.min(cells - 1, Math.floor(((u + 1) / 2) * cells));
  const row = Math.min(cells - 1, Math.floor(((v + 1) / 2) * cells));
  return (side * cells + row) * cells + col;
}

function smooth(bins: Float64Array, direction: Vec3, cosKernel: number): FacingDirection {
  const [dx, dy, dz] = direction;
  let area = 0;
  let x = 0;
  let y = 0;
  let z = 0;
  for (let k = 0; k < bins.length; k += 4) {
    const bx = bins[k + 1];
    const by = bins[k + 2];
    const bz = bins[k + 3];
    if (bx * dx + by * dy + bz * dz < cosKernel * Math.sqrt(bx * bx + by * by + bz * bz)) continue;
    area += bins[k];
    x += bx;
    y += by;
    z += bz;
  }
  return { direction: normalise([x, y, z]), area };
}
