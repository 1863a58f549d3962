/**
 * How far a surface moves along its normal n at p when it is turned about the axes by a small angle (first three) and shifted
 * (next three): (p × n, n), the row of point-to-plane registration (Chen and Medioni 1992). Written into six of `row` from `at` on.
 */
export function rigidRow(
  x: number,
  y: number,
  z: number,
  nx: number,
  ny: number,
  nz: number,
  row: { [index: number]: number },
  at = 0,
): void {
  row[at] = y * nz - z * ny;
  row[at + 1] = z * nx - x * nz;
  row[at + 2] = x * ny - y * nx;
  row[at + 3] = nx;
  row[at + 4] = ny;
  row[at + 5] = nz;
}
