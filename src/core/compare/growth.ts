import { solveSymmetric } from '../geometry/index.ts';
import { blockOf, blocksAcross, jackknife } from './blocks.ts';
import { movePoints, type SubjectMotion } from './motion.ts';
import { robustSigma, tukeyWeight } from './robustLine.ts';

/** Growth along the axes of the reference's face frame that the residuals still ask for, and its standard errors. */
export interface Growth {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly sdX: number;
  readonly sdY: number;
  readonly sdZ: number;
}

const parameters = 9;
const samples = 15_000;
/** Narrower than the usual 4.685: rubbed tops lie only a few σ away, and all on one side. */
const tukeyReach = 3;

/**
 * Uneven growth from the depth differences d of a fitted model: minimises, with Tukey's weights,
 *
 *   Σ w (d + n · (ω × p + t + (εx p_x, εy p_y, εz p_z)))²
 *
 * over a small turn ω, shift t and growth ε, p the moved vertex and n the subject's normal in the reference's face frame:
 * only slopes that face along x can tell x, and so on; depth is told by tops and floors that still touch. The standard
 * errors leave out blocks of the face in turn. p is a measured height too, so ε is drawn toward 0 by the share
 * noise²/relief², below one in a thousand here. NaN where there is nothing to tell it by.
 */
export function residualGrowth(
  positions: Float32Array,
  normals: Float32Array,
  motion: SubjectMotion,
  perVertexMm: Float32Array,
  radiusMm: number,
): Growth {
  const rows = residualRows(positions, normals, motion, perVertexMm);
  const systems = Array.from({ length: blocksAcross ** 2 }, () => ({
    h: new Float64Array(parameters ** 2),
    g: new Float64Array(parameters),
  }));
  let step = new Float64Array(parameters);
  for (let round = 0; round < 8; round++) {
    const residual = rows.map((row) => row.d + along(row.g, step));
    const sigma = robustSigma(residual, 1e-6);
    for (const { h, g } of systems) {
      h.fill(0);
      g.fill(0);
    }
    rows.forEach((row, i) => {
      const weight = tukeyWeight(residual[i], sigma, tukeyReach);
      if (weight > 0) accumulate(systems[blockOf(row.x, row.y, radiusMm)], row, weight);
    });
    step = solveWithout(systems, -1);
  }
  const [x = Number.NaN, y = Number.NaN, z = Number.NaN] = step.subarray(6);
  const [sdX = Number.NaN, sdY = Number.NaN, sdZ = Number.NaN] = jackknife(systems.length, (without) => [
    ...solveWithout(systems, without).subarray(6),
  ]);
  return { x, y, z, sdX, sdY, sdZ };
}

interface Row {
  readonly x: number;
  readonly y: number;
  readonly d: number;
  readonly g: Float64Array;
}

function residualRows(
  positions: Float32Array,
  normals: Float32Array,
  motion: SubjectMotion,
  perVertexMm: Float32Array,
): Row[] {
  const { turn: r } = motion;
  const n = perVertexMm.length;
  const stride = Math.max(1, Math.floor(n / samples));
  const rows: Row[] = [];
  const p = new Float64Array(3);
  for (let i = 0; i < n; i += stride) {
    if (Number.isNaN(perVertexMm[i])) continue;
    movePoints(motion, positions, i, i + 1, p);
    const [x, y, z] = p;
    const [a, b, c] = [normals[3 * i], normals[3 * i + 1], normals[3 * i + 2]];
    const nx = r[0] * a + r[1] * b + r[2] * c;
    const ny = r[3] * a + r[4] * b + r[5] * c;
    const nz = r[6] * a + r[7] * b + r[8] * c;
    const turn = [y * nz - z * ny, z * nx - x * nz, x * ny - y * nx];
    rows.push({ x, y, d: perVertexMm[i], g: Float64Array.of(...turn, nx, ny, nz, nx * x, ny * y, nz * z) });
  }
  return rows;
}

function along(g: Float64Array, step: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < parameters; k++) sum += g[k] * step[k];
  return sum;
}

interface System {
  readonly h: Float64Array;
  readonly g: Float64Array;
}

function accumulate({ h, g }: System, row: Row, weight: number): void {
  for (let a = 0; a < parameters; a++) {
    const wa = weight * row.g[a];
    g[a] -= wa * row.d;
    for (let b = 0; b < parameters; b++) h[parameters * a + b] += wa * row.g[b];
  }
}

function solveWithout(systems: readonly System[], without: number): Float64Array<ArrayBuffer> {
  const h = new Float64Array(parameters ** 2);
  const g = new Float64Array(parameters);
  systems.forEach((system, k) => {
    if (k === without) return;
    for (let i = 0; i < h.length; i++) h[i] += system.h[i];
    for (let i = 0; i < g.length; i++) g[i] += system.g[i];
  });
  return Float64Array.from(solveSymmetric(h, g, parameters) ?? []);
}
