import { solveDefinite } from '../../geometry/index.ts';

/** y less the parabola in x that fits it best (least squares), in y's unit. */
export function beyondCurve(x: Float64Array, y: Float64Array): Float64Array {
  const middle = x.reduce((sum, value) => sum + value, 0) / x.length;
  const scale = x.reduce((most, value) => Math.max(most, Math.abs(value - middle)), 1e-9);
  const powers = (value: number): number[] => {
    const u = (value - middle) / scale;
    return [1, u, u * u];
  };
  const h = new Float64Array(9);
  const g = new Float64Array(3);
  for (let i = 0; i < x.length; i++) {
    const row = powers(x[i]);
    for (let r = 0; r < 3; r++) {
      g[r] += row[r] * y[i];
      for (let c = 0; c < 3; c++) h[3 * r + c] += row[r] * row[c];
    }
  }
  const curve = solveDefinite(h, g, 3);
  if (!curve) return new Float64Array(x.length);
  return y.map((value, i) => value - powers(x[i]).reduce((sum, power, k) => sum + power * curve[k], 0));
}
