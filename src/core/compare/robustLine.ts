import { median, sigmaFromMad, tukeyWeight as weightAt } from '../geometry/index.ts';

/** Tukey's weight (1 − (r/c s)²)², 0 beyond; c 4.685 keeps 95 % efficiency for normal residuals. */
export const tukeyWeight = (residual: number, scale: number, c = 4.685): number => weightAt(residual / (c * scale));

/** Robust σ of residuals about zero; at least `least`. */
export const robustSigma = (residuals: ArrayLike<number>, least = 1e-12): number =>
  Math.max(least, sigmaFromMad * median(sizesOf(residuals)));

function sizesOf(values: ArrayLike<number>): Float64Array {
  const out = new Float64Array(values.length);
  for (let i = 0; i < out.length; i++) out[i] = Math.abs(values[i]);
  return out;
}

/** Sums of a weighted straight relation b ≈ c + slope · a. */
export interface LineSums {
  w: number;
  a: number;
  b: number;
  aa: number;
  ab: number;
  bb: number;
}

export const noSums = (): LineSums => ({ w: 0, a: 0, b: 0, aa: 0, ab: 0, bb: 0 });

export function addPoint(s: LineSums, a: number, b: number, w: number): void {
  s.w += w;
  s.a += w * a;
  s.b += w * b;
  s.aa += w * a * a;
  s.ab += w * a * b;
  s.bb += w * b * b;
}

/** Least-squares slope and offset of b on a. */
export function plainSlope({ w, a, b, aa, ab }: LineSums): { slope: number; offset: number } {
  const slope = (ab - (a * b) / w) / (aa - (a * a) / w);
  return { slope, offset: b / w - (slope * a) / w };
}

/** Straight line y = offset + slope · x by repeated least squares with Tukey's weights. */
export function robustLine(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  rounds = 12,
): { slope: number; offset: number; sigma: number } {
  let line = { slope: 0, offset: median(y) };
  let sigma = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round++) {
    const s = noSums();
    for (let i = 0; i < x.length; i++) {
      const r = y[i] - line.offset - line.slope * x[i];
      addPoint(s, x[i], y[i], round === 0 ? 1 : tukeyWeight(r, sigma));
    }
    const next = plainSlope(s);
    if (!Number.isFinite(next.slope)) break;
    line = next;
    sigma = robustSigma(Array.from(x, (v, i) => y[i] - line.offset - line.slope * v));
  }
  return { ...line, sigma };
}
