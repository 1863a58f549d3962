import { areaVector, dot, type Mesh, normalise, type Vec3 } from '../geometry/index.ts';

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
  const bins = gatherNormals(mesh, options.cells).filter((bin) => bin.area > 0);
  const cosKernel = Math.cos((options.kernelDeg * Math.PI) / 180);
  const peaked = bins.map((bin) => smooth(bins, normalise(bin.sum), cosKernel));
  peaked.sort((a, b) => b.area - a.area);
  const cosApart = Math.cos((options.apartDeg * Math.PI) / 180);
  const kept: FacingDirection[] = [];
  for (const candidate of peaked) {
    if (candidate.area < options.leastShare * peaked[0].area) break;
    if (kept.every((peak) => dot(peak.direction, candidate.direction) <= cosApart)) kept.push(candidate);
  }
  return kept;
}

interface NormalBin {
  area: number;
  sum: Vec3;
}

/** Sums area and area-weighted normals in the cells of a cube around the sphere of directions. */
function gatherNormals(mesh: Mesh, cells: number): NormalBin[] {
  const { positions: p, triangles: t } = mesh;
  const sums = new Float64Array(6 * cells * cells * 4);
  const n = new Float64Array(3);
  for (let i = 0; i < t.length; i += 3) {
    areaVector(p, t, i, n);
    const [nx, ny, nz] = n;
    const twice = Math.sqrt(nx * nx + ny * ny + nz * nz);
    if (!(twice > 0)) continue;
    const k = cubeCell(nx, ny, nz, cells) * 4;
    sums[k] += twice / 2;
    sums[k + 1] += nx;
    sums[k + 2] += ny;
    sums[k + 3] += nz;
  }
  return Array.from({ length: sums.length / 4 }, (_, i) => ({
    area: sums[i * 4],
    sum: [sums[i * 4 + 1], sums[i * 4 + 2], sums[i * 4 + 3]] as const,
  }));
}

function cubeCell(x: number, y: number, z: number, cells: number): number {
  const ax = Math.abs(x);
  const ay = Math.abs(y);
  const az = Math.abs(z);
  let side = 0;
  let u = 0;
  let v = 0;
  if (ax >= ay && ax >= az) [side, u, v] = [x > 0 ? 0 : 1, y / ax, z / ax];
  else if (ay >= az) [side, u, v] = [y > 0 ? 2 : 3, x / ay, z / ay];
  else [side, u, v] = [z > 0 ? 4 : 5, x / az, y / az];
  const col = Math.min(cells - 1, Math.floor(((u + 1) / 2) * cells));
  const row = Math.min(cells - 1, Math.floor(((v + 1) / 2) * cells));
  return (side * cells + row) * cells + col;
}

function smooth(bins: readonly NormalBin[], direction: Vec3, cosKernel: number): FacingDirection {
  let area = 0;
  let [x, y, z] = [0, 0, 0];
  for (const bin of bins) {
    const along = dot(bin.sum, direction);
    if (along < cosKernel * Math.sqrt(dot(bin.sum, bin.sum))) continue;
    area += bin.area;
    x += bin.sum[0];
    y += bin.sum[1];
    z += bin.sum[2];
  }
  return { direction: normalise([x, y, z]), area };
}
