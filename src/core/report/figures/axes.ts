import { type DrawnMark, line, type Tone, words } from '../drawing/index.ts';

/** A straight map from values to page units. */
export interface Scale {
  readonly from: number;
  readonly to: number;
  readonly start: number;
  readonly end: number;
}

export const along = ({ from, to, start, end }: Scale, value: number): number =>
  start + ((value - from) / (to - from)) * (end - start);

/** Shortest numeral that is exact to the step: 0.05 stays 0.05 and 10 stays 10. */
export const numeral = (value: number): string => String(Number(value.toPrecision(6))).replace('-', '−');

/** A line at y with ticks below it and their numerals. */
export function bottomAxis(
  scale: Scale,
  y: number,
  ticks: readonly number[],
  name: string,
  label = numeral,
): DrawnMark[] {
  return [
    line([scale.start, y, scale.end, y], 'soft', 0.7),
    ...ticks.flatMap((tick) => {
      const x = along(scale, tick);
      return [line([x, y, x, y + 4], 'soft', 0.7), words(x, y + 15, label(tick), 10, 'ink', { align: 'middle' })];
    }),
    words((scale.start + scale.end) / 2, y + 30, name, 10.5, 'soft', { align: 'middle', face: 'italic' }),
  ];
}

/** Numerals left of x with thin lines across to `right`. */
export function leftAxis(
  scale: Scale,
  x: number,
  right: number,
  ticks: readonly number[],
  label = numeral,
  tone: Tone = 'rule',
): DrawnMark[] {
  return ticks.flatMap((tick) => {
    const y = along(scale, tick);
    return [line([x, y, right, y], tone, 0.6), words(x - 6, y + 3.5, label(tick), 10, 'ink', { align: 'end' })];
  });
}
