/**
 * How far a surface moves along its normal n at p when it is turned about the axes by a small angle (first three) and shifted
 * (next three): (p × n, n), the row of point-to-plane registration (Chen and Medioni 1992). Written into the first six of `row`.
 */
export function rigidRow(
  x: number,
  y: number,
  z: number,
  nx: number,
  ny: number,
  nz: number,
  row: { [index: number]: number },
): void {
  row[0] = y * nz - z * ny;
  row[1] = z * nx - x * nz;
  row[2] = x * ny - y * nx;
  row[3] = nx;
  row[4] = ny;
  row[5] = nz;
}
