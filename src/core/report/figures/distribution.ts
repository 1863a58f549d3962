import { ticks } from 'd3-array';
import type { Difference } from '../../compare/index.ts';
import { differenceColour, hex, levelGrey } from '../../compare/index.ts';
import { type DrawnMark, line, rectangle, words } from '../drawing/index.ts';
import { along, bottomAxis, leftAxis, numeral, type Scale } from './axes.ts';
import { type Figure, numeralMm, plain, signed } from './figure.ts';

const width = 350;
const height = 214;
const bins = 50;

/** How much of the compared image lies at each depth difference. */
export function distributionFigure(difference: Difference, endMm: number): Figure {
  const shares = histogram(difference, endMm);
  const x: Scale = { from: -endMm, to: endMm, start: 34, end: width - 8 };
  const y: Scale = { from: 0, to: Math.max(...shares, 0.01) * 1.08, start: height - 38, end: 16 };
  const marks: DrawnMark[] = [
    ...leftAxis(y, x.start, x.end, ticks(0, y.to, 4), (share) => `${numeral(100 * share)} %`),
    ...shares.map((share, i) => bar(share, i, endMm, x, y, difference.levelOfDetectionMm)),
    ...bottomAxis(x, y.start, ticks(-endMm, endMm, 6), 'depth difference, mm'),
    ...medianLine(difference.whole.medianMm, endMm, x, y),
  ];
  const title = `Histogram of the depth differences from −${endMm} to +${endMm} mm`;
  const caption = `Share of the compared image by depth difference, in steps of ${numeralMm((2 * endMm) / bins)}; the outermost bars hold everything beyond. Colours as in the map, grey within the median level of detection. Median ${signed(difference.whole.medianMm, 3)} mm (stroke), median absolute deviation ${plain(difference.whole.madMm, 3)} mm; 95 % lie within ± ${plain(difference.whole.p95Mm, 3)} mm.`;
  return { id: 'distribution', drawing: { width, height, title, marks }, heading: 'Distribution', caption };
}

/** Shares of the map's cells in equal steps from −endMm to +endMm; values beyond count in the outermost steps. */
export function histogram({ map }: Difference, endMm: number): number[] {
  const counts = new Array<number>(bins).fill(0);
  let total = 0;
  for (let i = 0; i < map.z.length; i++) {
    if (!map.mask[i]) continue;
    const at = Math.floor(((map.z[i] + endMm) / (2 * endMm)) * bins);
    counts[Math.min(bins - 1, Math.max(0, at))]++;
    total++;
  }
  return counts.map((count) => (total > 0 ? count / total : 0));
}

function bar(share: number, i: number, endMm: number, x: Scale, y: Scale, levelMm: number): DrawnMark {
  const step = (2 * endMm) / bins;
  const from = -endMm + i * step;
  const middle = from + step / 2;
  const colour = Math.abs(middle) <= levelMm ? levelGrey : differenceColour(middle, endMm);
  const left = along(x, from);
  const top = along(y, share);
  return rectangle(left, top, along(x, from + step) - left + 0.2, y.start - top, hex(colour));
}

function medianLine(medianMm: number, endMm: number, x: Scale, y: Scale): DrawnMark[] {
  if (!(Math.abs(medianMm) <= endMm)) return [];
  const at = along(x, medianMm);
  return [
    line([at, y.start, at, y.end - 2], 'ink', 0.9),
    words(at + 4, y.end + 4, `median ${signed(medianMm, 3)}`, 10, 'ink', { rim: 'paper' }),
  ];
}
