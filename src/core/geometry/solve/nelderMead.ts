/**
 * Greatest value of f near `start` by the simplex of Nelder and Mead, Computer Journal 7, 1965 (reflection 1,
 * expansion 2, contraction ½, shrinkage ½). `steps` are the first simplex's sides; stops after `evaluations`.
 */
export function climb(
  f: (p: readonly number[]) => number,
  start: readonly number[],
  steps: readonly number[],
  evaluations: number,
): { readonly at: number[]; readonly value: number } {
  const n = start.length;
  const corners = [start.slice(), ...steps.map((step, k) => start.map((v, j) => (j === k ? v + step : v)))].map(
    (at) => ({
      at,
      value: f(at),
    }),
  );
  let used = n + 1;
  const toward = (centre: readonly number[], worst: readonly number[], by: number) => {
    const at = centre.map((v, j) => v + by * (v - worst[j]));
    used++;
    return { at, value: f(at) };
  };
  while (used < evaluations) {
    corners.sort((p, q) => q.value - p.value);
    const worst = corners[n];
    const centre = start.map((_, j) => corners.slice(0, n).reduce((sum, corner) => sum + corner.at[j], 0) / n);
    const mirrored = toward(centre, worst.at, 1);
    if (mirrored.value > corners[0].value) {
      const further = toward(centre, worst.at, 2);
      corners[n] = further.value > mirrored.value ? further : mirrored;
    } else if (mirrored.value > corners[n - 1].value) corners[n] = mirrored;
    else {
      const nearer = toward(centre, worst.at, mirrored.value > worst.value ? 0.5 : -0.5);
      if (nearer.value > Math.max(worst.value, mirrored.value)) corners[n] = nearer;
      else
        for (let k = 1; k <= n; k++) {
          const at = corners[k].at.map((v, j) => 0.5 * (v + corners[0].at[j]));
          corners[k] = { at, value: f(at) };
          used++;
        }
    }
  }
  corners.sort((p, q) => q.value - p.value);
  return corners[0];
}
