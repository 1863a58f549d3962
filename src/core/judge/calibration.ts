/** Scores of pairs whose answer is known: the user's own, or simulated ones. */
export interface KnownScores {
  /** Who and what: printed wherever the calibration is used. */
  readonly name: string;
  readonly same: readonly number[];
  readonly different: readonly number[];
}

/**
 * log₁₀ likelihood ratio of a score under known pairs, by isotonic regression of the answers on the scores (pool
 * adjacent violators, Ayer et al. 1955) divided by the prior odds of the known pairs. Held between −log₁₀ n_same and
 * log₁₀ n_different: no figure goes beyond the number of pairs behind it. Null with fewer than ten pairs of a kind.
 */
export function log10LikelihoodRatio(score: number, known: KnownScores): number | null {
  const { same, different } = known;
  if (same.length < 10 || different.length < 10) return null;
  const share = isotonicShare(known, score);
  const prior = same.length / different.length;
  const most = Math.log10(different.length);
  const least = -Math.log10(same.length);
  const odds = share / (1 - share) / prior;
  return Math.max(least, Math.min(most, Math.log10(odds)));
}

interface Block {
  /** Greatest score in the block. */
  readonly upTo: number;
  readonly same: number;
  readonly count: number;
}

/** Share of "same" among known pairs near the score, never falling as the score rises. */
function isotonicShare({ same, different }: KnownScores, score: number): number {
  const sorted = [...same.map((value) => [value, 1] as const), ...different.map((value) => [value, 0] as const)];
  sorted.sort((a, b) => a[0] - b[0] || b[1] - a[1]);
  const blocks: Block[] = [];
  for (const [value, answer] of sorted) {
    let block: Block = { upTo: value, same: answer, count: 1 };
    for (let last = blocks.at(-1); last && last.same / last.count >= block.same / block.count; last = blocks.at(-1)) {
      blocks.pop();
      block = { upTo: block.upTo, same: last.same + block.same, count: last.count + block.count };
    }
    blocks.push(block);
  }
  const found = blocks.find((block) => score <= block.upTo) ?? blocks[blocks.length - 1];
  return found.same / found.count;
}

/**
 * C_llr = ½ (mean log₂(1 + 1/LR) over pairs of one matrix + mean log₂(1 + LR) over different ones): 0 for a perfect
 * system, 1 for one that says nothing (Brümmer and du Preez 2006). Takes likelihood ratios, not logarithms.
 */
export function cllr(same: readonly number[], different: readonly number[]): number {
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  return (mean(same.map((lr) => Math.log2(1 + 1 / lr))) + mean(different.map((lr) => Math.log2(1 + lr)))) / 2;
}

/** Probability that a pair of one matrix scores above a different one: area under the ROC curve; ties count half. */
export function rocArea({ same, different }: Omit<KnownScores, 'name'>): number {
  let sum = 0;
  for (const a of same) for (const b of different) sum += a > b ? 1 : a === b ? 0.5 : 0;
  return sum / (same.length * different.length);
}
