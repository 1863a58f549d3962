/**
 * Standard error of an estimate whose data err together in patches: the estimate is repeated with each block of the
 * face left out, sd² = (g − 1)/g Σ (θ₍₋ₖ₎ − mean)². `estimate(k)` leaves block k out. Blocks whose absence leaves no
 * estimate (NaN) are passed over. Source: delete-one-group jackknife, Wu, Ann. Statist. 14, 1986 (from memory).
 */
export function jackknife(groups: number, estimate: (without: number) => readonly number[]): number[] {
  const all = Array.from({ length: groups }, (_, k) => estimate(k)).filter((values) => values.every(Number.isFinite));
  const g = all.length;
  if (g < 2) return [];
  return all[0].map((_, c) => {
    const mean = all.reduce((sum, values) => sum + values[c], 0) / g;
    return Math.sqrt(((g - 1) / g) * all.reduce((sum, values) => sum + (values[c] - mean) ** 2, 0));
  });
}

/** The same for several estimates at once: their covariance, row-major; `estimates` are those without each block, none left out. */
export function jackknifeCovariance(estimates: readonly Float64Array[]): Float64Array {
  const g = estimates.length;
  const n = estimates[0]?.length ?? 0;
  const mean = Float64Array.from({ length: n }, (_, r) => estimates.reduce((sum, one) => sum + one[r], 0) / g);
  const out = new Float64Array(n * n);
  for (const one of estimates)
    for (let r = 0; r < n; r++)
      for (let c = 0; c < n; c++) out[r * n + c] += (1 - 1 / g) * (one[r] - mean[r]) * (one[c] - mean[c]);
  return out;
}

export const blocksAcross = 6;

/** Which of 6 × 6 blocks over a face of half-width `radiusMm` the place (x, y) mm lies in. */
export function blockOf(x: number, y: number, radiusMm: number): number {
  const index = (v: number): number =>
    Math.min(blocksAcross - 1, Math.max(0, Math.floor(((v / radiusMm + 1) / 2) * blocksAcross)));
  return index(y) * blocksAcross + index(x);
}
