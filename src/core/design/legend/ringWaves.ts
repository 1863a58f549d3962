import { ringWavesKernel } from '../../../kernels/index.ts';

/** Tells the power |Σ z exp(2πi k c / n)|² of k waves along rows of n places, all rows together; to be asked before it is made for other rows. */
export const ringWaves = (rows: readonly Float64Array[]): ((k: number) => number) =>
  ringWavesKernel(rows) ?? ringWavesPlainly(rows);

/** The kernel's referee, which gives the same numbers. */
export const ringWavesPlainly =
  (rows: readonly Float64Array[]) =>
  (k: number): number =>
    rows.reduce((sum, row) => sum + powerAt(row, k), 0);

/** … of one row, by turning a unit vector from place to place. */
function powerAt(row: Float64Array, k: number): number {
  const turn = (2 * Math.PI * k) / row.length;
  const [stepC, stepS] = [Math.cos(turn), Math.sin(turn)];
  let re = 0;
  let im = 0;
  let c = 1;
  let s = 0;
  for (let i = 0; i < row.length; i++) {
    re += row[i] * c;
    im += row[i] * s;
    const next = c * stepC - s * stepS;
    s = c * stepS + s * stepC;
    c = next;
  }
  return re * re + im * im;
}
