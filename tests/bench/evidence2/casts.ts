import {
  gaussianFilter,
  type HeightGrid,
  sampleGrid,
  seededRandom,
  xOf,
  yOf,
} from '../../../src/core/geometry/index.ts';
import { type PreparedScan, prepareScan } from '../../../src/core/pipeline.ts';
import { writePly } from '../../../src/core/scan/index.ts';

export const accidents = ['none', 'half', 'cut', 'pits', 'lip', 'lumps'] as const;
export type Accident = (typeof accidents)[number];

/** A cast and its true size ÷ that of what it was cast from. */
export interface KnownCast {
  readonly scan: PreparedScan;
  readonly size: number;
}

/**
 * A cast of a scanned face made from its own heights: turned over, turned in the plane, shrunk, bent, worn, noised, a part lost,
 * and one accident added. Heights are the face's relief.
 */
export async function castOf({ face }: PreparedScan, accident: Accident, seed: number): Promise<KnownCast> {
  const random = seededRandom(seed * 7919 + accident.length);
  const { relief } = face;
  const size = Math.max(face.outline.widthMm, face.outline.heightMm);
  const pitch = relief.pitch * 1.07;
  const n = Math.ceil((1.25 * size) / pitch);
  const half = ((n - 1) / 2) * pitch;
  const smooth = gaussianFilter(relief, 2 * relief.pitch);
  const depth = rms(face.detail);
  const [turn, shrink] = [random.between(0, 2 * Math.PI), random.between(0.005, 0.02)];
  const bend = [random.between(-1, 1), random.between(-1, 1), random.between(-1, 1)].map((v) => v * 0.004 * size);
  const flow = [random.between(-1, 1), random.between(-1, 1)].map((v) => v * 0.003 * size);
  const z = new Float32Array(n * n);
  const mask = new Uint8Array(n * n);
  const grid: HeightGrid = { width: n, height: n, pitch, left: -half, top: half, z, mask };
  const marks = accidentsOf(accident, size, depth, random);
  const lost = accident === 'half' ? 0 : 0.28 * size;
  for (let row = 0, i = 0; row < n; row++)
    for (let col = 0; col < n; col++, i++) {
      const [x, y] = [xOf(grid, col), yOf(grid, row)];
      if (x * Math.cos(seed) + y * Math.sin(seed) > (accident === 'half' ? 0.02 * size : lost + 0.1 * size)) continue;
      const [u0, v0] = [x / (1 - shrink), y / (1 - shrink)];
      const u1 = u0 + flow[0] * ((v0 / size) * 2) ** 2;
      const v1 = v0 + flow[1] * ((u0 / size) * 2) ** 2;
      const u = -(Math.cos(turn) * u1 - Math.sin(turn) * v1);
      const v = Math.sin(turn) * u1 + Math.cos(turn) * v1;
      const height = sampleGrid(smooth, u, v);
      const [p, q] = [(2 * x) / size, (2 * y) / size];
      let h = Number.isNaN(height) ? Number.NaN : -(1 - shrink) * height;
      h += marks(x, y);
      if (accident === 'lip') {
        const r = Math.hypot(x, y) / size;
        if (Number.isNaN(h) && r < 0.56) h = 3 * depth;
        if (r > 0.44) h += 6 * depth * Math.min(1, (r - 0.44) / 0.05) + depth * Math.sin(9 * Math.atan2(y, x));
      }
      if (Number.isNaN(h)) continue;
      z[i] = h + bend[0] * p * p + bend[1] * q * q + bend[2] * p * q + random.normal() * (face.noiseMm + 0.03 * depth);
      mask[i] = 1;
    }
  const sheet = meshOf(grid);
  const scan = await prepareScan({
    name: 'cast.ply',
    bytes: writePly(sheet.positions, sheet.triangles),
    unit: 'mm',
    sha256: () => '',
  });
  return { scan, size: 1 - shrink };
}

export function rms({ z, mask }: HeightGrid): number {
  let [s, n] = [0, 0];
  for (let i = 0; i < z.length; i++)
    if (mask[i]) {
      s += z[i] ** 2;
      n++;
    }
  return Math.sqrt(s / n);
}

function accidentsOf(accident: Accident, size: number, depth: number, random: ReturnType<typeof seededRandom>) {
  if (accident === 'cut') {
    const [a, off] = [random.between(0, Math.PI), random.between(-0.1, 0.1) * size];
    return (x: number, y: number) =>
      -8 * depth * Math.max(0, 1 - Math.abs(x * Math.cos(a) + y * Math.sin(a) - off) / (0.02 * size));
  }
  if (accident === 'pits' || accident === 'lumps') {
    const count = accident === 'pits' ? 45 : 5;
    const spots = Array.from({ length: count }, () => ({
      x: random.between(-0.45, 0.45) * size,
      y: random.between(-0.45, 0.45) * size,
      r: (accident === 'pits' ? random.between(0.005, 0.02) : random.between(0.04, 0.08)) * size,
      h: (accident === 'pits' ? (random.next() < 0.5 ? -1 : 1) : 1) * random.between(2, 8) * depth,
    }));
    return (x: number, y: number) =>
      spots.reduce((s, p) => s + p.h * Math.max(0, 1 - ((x - p.x) ** 2 + (y - p.y) ** 2) / p.r ** 2), 0);
  }
  return () => 0;
}

export function meshOf({ width, height, z, mask, ...grid }: HeightGrid) {
  const id = new Int32Array(z.length).fill(-1);
  const positions: number[] = [];
  for (let i = 0; i < z.length; i++)
    if (mask[i]) {
      id[i] = positions.length / 3;
      positions.push(grid.left + (i % width) * grid.pitch, grid.top - Math.floor(i / width) * grid.pitch, z[i]);
    }
  const triangles: number[] = [];
  for (let r = 0; r + 1 < height; r++)
    for (let c = 0; c + 1 < width; c++) {
      const [a, b, d, e] = [r * width + c, r * width + c + 1, (r + 1) * width + c, (r + 1) * width + c + 1];
      if (!(mask[a] && mask[b] && mask[d] && mask[e])) continue;
      triangles.push(id[a], id[d], id[b], id[b], id[d], id[e]);
    }
  return { positions: Float32Array.from(positions), triangles: Uint32Array.from(triangles) };
}
