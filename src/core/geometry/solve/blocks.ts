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

/** Which of `across` × `across` blocks over a face of half-width `radiusMm` the place (x, y) mm lies in; row by row from −y. */
export function blockOf(x: number, y: number, radiusMm: number, across: number): number {
  const index = (v: number): number => Math.min(across - 1, Math.max(0, Math.floor(((v / radiusMm + 1) / 2) * across)));
  return index(y) * across + index(x);
}
