import type { Box, Drawing } from '../drawing/index.ts';

/** One figure of the report: its drawing and the words under it. */
export interface Figure {
  readonly id: FigureId;
  readonly heading: string;
  readonly drawing: Drawing;
  /** What it shows and how it was made, in whole sentences. */
  readonly caption: string;
  /** The part of the drawing that is the seal, in the drawing's units, where there is more round it. */
  readonly seal?: Box;
  /** The scans were computed, and the drawing says so. */
  readonly simulated?: boolean;
}

export const figureIds = [
  'faces',
  'brokenEdge',
  'difference',
  'distribution',
  'wavelengths',
  'section',
  'cells',
  'constellation',
  'marks',
] as const;
export type FigureId = (typeof figureIds)[number];

/**
 * Numbers as captions print them: a true minus, a sign where it matters. Rounded first as the record rounds them, to four
 * decimals, so that a caption and a table never differ in the last digit.
 */
export const plain = (value: number, places = 2): string => Number(value.toFixed(4)).toFixed(places).replace('-', '−');
export const signed = (value: number, places = 2): string =>
  `${value > 0 ? '+' : ''}${plain(Math.abs(value) < 0.5 * 10 ** -places ? 0 : value, places)}`;
export const numeralMm = (value: number): string => `${Number(value.toPrecision(2))} mm`;
