/** The brightest grey that prints: below white. */
const brightest = 254;

/**
 * A grey above the level field's, held below white: it rises ever more slowly toward the brightest, level + x/(1 + x/r) for x
 * above the level and r from there to the brightest, so that slopes that face a low lamp keep their shape. Below the level nothing changes.
 */
export function heldBelowWhite(grey: number, level: number): number {
  const from = Math.min(level, brightest);
  const above = grey - from;
  return above <= 0 ? grey : from + above / (1 + above / (brightest - from));
}
