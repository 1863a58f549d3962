import {
  blockOf,
  jackknife,
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
  radiusMm: number,
): Growth {
  const rows = residualRows(positions, normals, motion, perVertexMm);
  let step = new Float64Array(parameters);
  for (let round = 0; round < 8; round++) step = sum(step, solve(systemsOf(rows, step, radiusMm, tukeyWeight)));
  const [x, y, half] = step.subarray(6);
  const bent = systemsOf(rows, step, radiusMm, tukeyBend);
  const [sdX = Number.NaN, sdY = Number.NaN, sdZ = Number.NaN] = jackknife(bent.length, (without) => [
    ...solve(bent, without).subarray(6),
  ]);
  // From a growth of what lies midway between both surfaces to one of the subject's.
  return { x, y, z: half / (1 - half / 2), sdX, sdY, sdZ: sdZ / (1 - half / 2) ** 2 };
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
    const d = perVertexMm[i];
    if (Number.isNaN(d)) continue;
    movePoints(motion, positions, i, i + 1, p);
    const x = p[0];
    const y = p[1];
    const z = p[2];
    const a = normals[3 * i];
    const b = normals[3 * i + 1];
    const c = normals[3 * i + 2];
    const nx = r[0] * a + r[1] * b + r[2] * c;
    const ny = r[3] * a + r[4] * b + r[5] * c;
    const nz = r[6] * a + r[7] * b + r[8] * c;
    const g = new Float64Array(parameters);
    rigidRow(x, y, z, nx, ny, nz, g);
    g[6] = nx * x;
    g[7] = ny * y;
    g[8] = nz * (z - (nz * d) / 2);
    rows.push({ x, y, d, g });
  }
  return rows;
}

function along(g: Float64Array, step: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < parameters; k++) sum += g[k] * step[k];
  return sum;
}

function residualsAt(rows: readonly Row[], step: Float64Array): Float64Array {
  const residual = new Float64Array(rows.length);
  for (let i = 0; i < rows.length; i++) residual[i] = rows[i].d + along(rows[i].g, step);
  return residual;
}

/** Sums of the normal equations by block of the face, at the solution `step`. */
function systemsOf(
  rows: readonly Row[],
  step: Float64Array,
  radiusMm: number,
  curvature: (u: number) => number,
): NormalSystem[] {
  const residual = residualsAt(rows, step);
  const reach = tukeyReach * robustSigma(residual, 1e-6);
  const laid = normalRows(rows.length, parameters, blocksAcross ** 2);
  for (let i = 0; i < rows.length; i++) {
    const u = residual[i] / reach;
    if (!(Math.abs(u) < 1)) continue;
    const { x, y, g } = rows[i];
    laid.rows.set(g, i * laid.stride);
    laid.blocks[i] = blockOf(x, y, radiusMm, blocksAcross);
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
