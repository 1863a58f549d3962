import type { ImageBox } from '../face/index.ts';
import {
  blockOf,
  jackknife,
  type NormalRows,
  type NormalSystem,
  normalRows,
  normalSystems,
  rigidRow,
  solveDefinite,
  tukeyBend,
  tukeyWeight,
} from '../geometry/index.ts';
import { movePoints, type SubjectMotion } from './motion.ts';
import { robustSigma } from './robustLine.ts';

/** Growth along the axes of the reference's face frame that the residuals still ask for, and its standard errors. */
export interface Growth {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly sdX: number;
  readonly sdY: number;
  readonly sdZ: number;
}

/** The standard errors leave out one of 6 × 6 blocks of the face at a time. */
export const blocksAcross = 6;
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
 * errors leave out blocks of the face in turn, each by one step from the whole solution with the derivative of what Tukey's
 * weights do (with the weights held they are 1.6 times too small). p's height is that midway between the two surfaces: what the
 * subject has of its own, noise, accidents, detail that the other lacks, would else pass for depth, since it stands on both sides of the equation. NaN where there is nothing to tell it by: no differences, no slopes.
 */
export function residualGrowth(
  positions: Float32Array,
  normals: Float32Array,
  motion: SubjectMotion,
  perVertexMm: Float32Array,
  face: Pick<ImageBox, 'middle' | 'side'>,
): Growth {
  const residuals = residualRows(positions, normals, motion, perVertexMm, face);
  let step = new Float64Array(parameters);
  for (let round = 0; round < 8; round++) step = sum(step, solve(systemsOf(residuals, step, tukeyWeight)));
  const [x, y, half] = step.subarray(6);
  const bent = systemsOf(residuals, step, tukeyBend);
  const [sdX = Number.NaN, sdY = Number.NaN, sdZ = Number.NaN] = jackknife(bent.length, (without) => [
    ...solve(bent, without).subarray(6),
  ]);
  // From a growth of what lies midway between both surfaces to one of the subject's.
  return { x, y, z: half / (1 - half / 2), sdX, sdY, sdZ: sdZ / (1 - half / 2) ** 2 };
}

/** Rows of the equations, laid out once, and the differences that they are to explain, mm. */
interface Residuals {
  readonly laid: NormalRows;
  readonly d: Float64Array;
}

function residualRows(
  positions: Float32Array,
  normals: Float32Array,
  motion: SubjectMotion,
  perVertexMm: Float32Array,
  { middle: [x, y], side }: Pick<ImageBox, 'middle' | 'side'>,
): Residuals {
  const some = someOf(perVertexMm);
  const laid = normalRows(some.length, parameters, blocksAcross ** 2);
  const d = new Float64Array(some.length);
  const p = new Float64Array(3);
  for (let k = 0; k < some.length; k++) {
    const i = some[k];
    d[k] = perVertexMm[i];
    movePoints(motion, positions, i, i + 1, p);
    writeRow(p, normals, i, motion.turn, d[k], laid.rows, k * laid.stride);
    laid.blocks[k] = blockOf(p[0] - x, p[1] - y, side / 2, blocksAcross);
  }
  return { laid, d };
}

/** Vertices that have a difference, some fifteen thousand. */
function someOf(perVertexMm: Float32Array): Uint32Array {
  const stride = Math.max(1, Math.floor(perVertexMm.length / samples));
  const some = new Uint32Array(Math.ceil(perVertexMm.length / stride));
  let count = 0;
  for (let i = 0; i < perVertexMm.length; i += stride) if (!Number.isNaN(perVertexMm[i])) some[count++] = i;
  return some.subarray(0, count);
}

/** (p × n, n, n_x p_x, n_y p_y, n_z p_z) of the moved vertex i, its height midway between the surfaces; written at `at`. */
function writeRow(
  p: Float64Array,
  normals: Float32Array,
  i: number,
  r: SubjectMotion['turn'],
  d: number,
  rows: Float64Array,
  at: number,
): void {
  const a = normals[3 * i];
  const b = normals[3 * i + 1];
  const c = normals[3 * i + 2];
  const nx = r[0] * a + r[1] * b + r[2] * c;
  const ny = r[3] * a + r[4] * b + r[5] * c;
  const nz = r[6] * a + r[7] * b + r[8] * c;
  rigidRow(p[0], p[1], p[2], nx, ny, nz, rows, at);
  rows[at + 6] = nx * p[0];
  rows[at + 7] = ny * p[1];
  rows[at + 8] = nz * (p[2] - (nz * d) / 2);
}

function residualsAt({ laid: { rows, stride }, d }: Residuals, step: Float64Array): Float64Array {
  const residual = new Float64Array(d.length);
  for (let i = 0; i < d.length; i++) residual[i] = d[i] + along(rows, i * stride, step);
  return residual;
}

function along(rows: Float64Array, at: number, step: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < parameters; k++) sum += rows[at + k] * step[k];
  return sum;
}

/** Sums of the normal equations by block of the face, at the solution `step`. */
function systemsOf(residuals: Residuals, step: Float64Array, curvature: (u: number) => number): NormalSystem[] {
  const { laid } = residuals;
  const residual = residualsAt(residuals, step);
  const reach = tukeyReach * robustSigma(residual, 1e-6);
  for (let i = 0; i < residual.length; i++) {
    const u = residual[i] / reach;
    laid.curvatures[i] = curvature(u);
    laid.pulls[i] = -tukeyWeight(u) * residual[i];
  }
  return normalSystems(laid, parameters, blocksAcross ** 2);
}

/** The step that the systems ask for, all but one; NaN where they do not tell every parameter. */
function solve(systems: readonly NormalSystem[], without = -1): Float64Array<ArrayBuffer> {
  const h = new Float64Array(parameters ** 2);
  const g = new Float64Array(parameters);
  systems.forEach((system, k) => {
    if (k === without) return;
    for (let i = 0; i < h.length; i++) h[i] += system.h[i];
    for (let i = 0; i < g.length; i++) g[i] += system.g[i];
  });
  return Float64Array.from(solveDefinite(h, g, parameters) ?? new Float64Array(parameters).fill(Number.NaN));
}

const sum = (a: Float64Array, b: Float64Array): Float64Array<ArrayBuffer> => Float64Array.from(a, (v, k) => v + b[k]);
