import { type NormalRows, normalRowsKernel } from '../../../kernels/index.ts';

export type { NormalRows } from '../../../kernels/index.ts';

/** Normal equations: JᵀDJ, full and row-major, and Jᵀp. */
export interface NormalSystem {
  readonly h: Float64Array<ArrayBuffer>;
  readonly g: Float64Array<ArrayBuffer>;
}

/**
 * Room for `count` rows of `parameters` numbers with their curvatures, pulls and blocks, all 0. By a compiled kernel where the engine
 * lets it run, which gives the same numbers as `normalRowsPlainly`. Good until the next are asked for.
 */
export const normalRows = (count: number, parameters: number, blockCount = 1): NormalRows =>
  normalRowsKernel(count, parameters, blockCount) ?? normalRowsPlainly(count, parameters, blockCount);

/** The systems of the blocks that the rows were dealt to. */
export function normalSystems(rows: NormalRows, parameters: number, blockCount = 1): NormalSystem[] {
  const { stride } = rows;
  const sums = rows.sums();
  const length = stride * (parameters + 1);
  return Array.from({ length: blockCount }, (_, block) => {
    const own = sums.subarray(block * length, (block + 1) * length);
    const h = new Float64Array(parameters * parameters);
    for (let r = 0; r < parameters; r++)
      for (let c = 0; c <= r; c++) {
        h[r * parameters + c] = own[r * stride + c];
        h[c * parameters + r] = own[r * stride + c];
      }
    return { h, g: Float64Array.from(own.subarray(stride * parameters, stride * parameters + parameters)) };
  });
}

/** The same without the kernel. */
export function normalRowsPlainly(count: number, parameters: number, blockCount: number): NormalRows {
  const stride = 2 * Math.ceil(parameters / 2);
  const length = stride * (parameters + 1);
  const given = {
    rows: new Float64Array(stride * count),
    stride,
    curvatures: new Float64Array(count),
    pulls: new Float64Array(count),
    blocks: new Int32Array(count),
  };
  const sums = (): Float64Array => {
    const systems = new Float64Array(length * blockCount);
    for (let i = 0; i < count; i++) {
      const row = given.rows.subarray(i * stride, i * stride + parameters);
      const own = systems.subarray(given.blocks[i] * length, (given.blocks[i] + 1) * length);
      addRow(own, row, stride, given.curvatures[i], given.pulls[i]);
    }
    return systems;
  };
  return { ...given, sums };
}

function addRow(system: Float64Array, row: Float64Array, stride: number, curvature: number, pull: number): void {
  const parameters = row.length;
  for (let r = 0, at = 0; r < parameters; r++, at += stride) {
    const w = curvature * row[r];
    for (let c = 0; c <= r; c++) system[at + c] += w * row[c];
    system[stride * parameters + r] += pull * row[r];
  }
}
