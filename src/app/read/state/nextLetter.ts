/** The usual distance from letter to letter against the letters' height. */
const usualStep = 0.8;

/**
 * Where the next letter is likely to stand, mm along the strip: the first place between half a letter's height and 1⅓ beyond
 * the last one where the relief, smoothed over half a letter, is at its strongest; else the usual step on.
 * `ink`: amount of relief by column, mm.
 */
export function nextLetterMm(ink: ArrayLike<number>, pitchMm: number, fromMm: number, letterMm: number): number {
  const usual = fromMm + usualStep * letterMm;
  const half = Math.max(1, Math.round((0.25 * letterMm) / pitchMm));
  const first = Math.round((fromMm + 0.5 * letterMm) / pitchMm);
  const last = Math.min(ink.length - half - 1, Math.round((fromMm + 1.33 * letterMm) / pitchMm));
  if (last <= first) return Math.min(usual, (ink.length - 1) * pitchMm);
  const smooth = (column: number): number => {
    let sum = 0;
    for (let k = -half; k <= half; k++) sum += ink[Math.max(0, column + k)] ?? 0;
    return sum;
  };
  for (let column = first + 1; column < last; column++) {
    const here = smooth(column);
    if (here > 0 && here >= smooth(column - 1) && here > smooth(column + 1)) return column * pitchMm;
  }
  return usual;
}
