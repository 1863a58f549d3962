import type { HeightGrid } from '../../geometry/index.ts';
import { type Box, type DrawnMark, moved, type Picture } from '../drawing/index.ts';
import { barLength, scaleBar } from './scaleBar.ts';

const pageWidth = 720;
const widest = 450;
/** Room round the map for the hours. */
const edge = 18;
const legendWidth = 208;
const legendGap = 34;

/** From millimetres of the plates' frame to page units. */
export interface ToPage {
  readonly x: (x: number) => number;
  readonly y: (y: number) => number;
}

/** Where a map of a face and its legend stand on a page figure. */
export interface MapLayout {
  readonly to: ToPage;
  /** The whole figure, page units. */
  readonly width: number;
  readonly height: number;
  /** The map with the room for its hours. */
  readonly seal: Box;
  map(picture: Picture): DrawnMark;
  bar(): DrawnMark[];
  /** A legend drawn from its own corner, put beside the map. */
  legend(marks: readonly DrawnMark[]): DrawnMark[];
}

/** A map of `grid`, at most `tallest` page units high, in the middle of the page with a legend on its right. */
export function mapLayout({ width, height, pitch, left, top }: HeightGrid, tallest: number): MapLayout {
  const perCell = Math.min(widest / width, tallest / height);
  const [wide, high] = [width * perCell, height * perCell];
  const start = (pageWidth - wide - 2 * edge - legendGap - legendWidth) / 2 + edge;
  const perMm = perCell / pitch;
  return {
    to: {
      x: (x) => start + (x - left + pitch / 2) * perMm,
      y: (y) => edge + (top + pitch / 2 - y) * perMm,
    },
    width: pageWidth,
    height: high + 2 * edge + 26,
    seal: { x: start - edge, y: 0, width: wide + 2 * edge, height: high + 2 * edge },
    map: (picture) => ({ kind: 'picture', x: start, y: edge, width: wide, height: high, picture }),
    bar: () => scaleBar(start + wide / 2, edge + high + 22, perMm, barLength(width * pitch)),
    legend: (marks) => moved(marks, start + wide + edge + legendGap, edge + 14),
  };
}
