import { number } from '../look/numbers.ts';

/** The words of the legend of depth differences, on the plate, in figures and in the seminar. */
export const legendOf = (rangeMm: number, levelMm: number) => ({
  low: 'b lacks height',
  high: 'b stands higher',
  grey: `grey: within ± ${number(levelMm, 3)} mm, not measurable`,
  whole: `Depth differences from minus to plus ${number(rangeMm, 2)} millimetres about zero; grey within plus or minus ${number(levelMm, 3)}, hatched where nothing was compared`,
});
