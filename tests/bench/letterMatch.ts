/** How one reading agrees with the truth, letter by letter. */
export interface LetterMatch {
  /** For each letter of the truth: was it read? */
  readonly right: readonly boolean[];
  /** Letters read that stand against none of the truth. */
  readonly invented: number;
}

/**
 * Aligns a reading with the truth by least edit distance (insertion, loss and exchange of a letter cost 1 each), the most
 * letters right among equals. Wagner and Fischer, J. ACM 21(1), 1974.
 */
export function matchLetters(truth: string, read: string): LetterMatch {
  const n = truth.length;
  const m = read.length;
  // Cost of a letter right is a hair below nothing: among equal distances the most letters right win.
  const bonus = 1 / (4 * (n + m + 1));
  const cost = Array.from({ length: n + 1 }, (_, i) =>
    Float64Array.from({ length: m + 1 }, (_, k) => (i === 0 ? k : i)),
  );
  const exchange = (i: number, k: number): number => cost[i - 1][k - 1] + (truth[i - 1] === read[k - 1] ? -bonus : 1);
  for (let i = 1; i <= n; i++)
    for (let k = 1; k <= m; k++) cost[i][k] = Math.min(exchange(i, k), cost[i - 1][k] + 1, cost[i][k - 1] + 1);
  const right = new Array<boolean>(n).fill(false);
  let invented = 0;
  let [i, k] = [n, m];
  while (i > 0 && k > 0) {
    if (cost[i][k] === exchange(i, k)) {
      right[i - 1] = truth[i - 1] === read[k - 1];
      i--;
      k--;
    } else if (cost[i][k] === cost[i - 1][k] + 1) i--;
    else {
      invented++;
      k--;
    }
  }
  return { right, invented: invented + k };
}
