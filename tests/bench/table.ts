/** One line of the bench table: what was measured, the floor, the figure. */
export interface Row {
  readonly what: string;
  readonly floor: string;
  readonly measured: string;
}

export const tableOf = (rows: readonly Row[]): string =>
  [
    '| what | floor | measured |',
    '|---|---|---|',
    ...rows.map((row) => `| ${row.what} | ${row.floor} | ${row.measured} |`),
  ].join('\n');

export const share = (count: number, of: number): string => `${count} of ${of} (${((100 * count) / of).toFixed(1)} %)`;

/** Upper 95 % bound of a rate of which none was seen in n: 1 − 0.05^(1/n) (exact binomial). */
export const noneSeenBound = (n: number): string => `upper 95 % bound ${(100 * (1 - 0.05 ** (1 / n))).toFixed(1)} %`;

export function quantileOf(values: readonly number[], q: number): number {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))];
}
