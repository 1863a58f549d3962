import { differenceColour, hex, levelGrey } from '../../compare/index.ts';
import { type DrawnMark, line, rectangle, words } from '../drawing/index.ts';
import { plain, signed } from './figure.ts';

const barHeight = 236;
const barSteps = 59;

/** What stands beside the scale. */
export const pairLegend = {
  title: 'depth difference, mm',
  higher: 'subject stands higher',
  none: 'grey: no measurable',
  noneMore: 'difference',
  lower: 'subject lacks height',
  outline: 'mark, with its name in the table',
};

/** The colour scale and what the other signs mean, from (0, 0) downward. */
export function differenceLegend(
  endMm: number,
  levelMm: number,
  hasMarks: boolean,
  hasSection: boolean,
  says: typeof pairLegend = pairLegend,
): DrawnMark[] {
  const y = (mm: number): number => 24 + ((endMm - mm) / (2 * endMm)) * barHeight;
  const step = barHeight / barSteps;
  const bars = Array.from({ length: barSteps }, (_, i) => {
    const mm = endMm - ((i + 0.5) / barSteps) * 2 * endMm;
    const colour = Math.abs(mm) <= levelMm ? levelGrey : differenceColour(mm, endMm);
    return rectangle(0, 24 + i * step, 15, step + 0.3, hex(colour));
  });
  const places = endMm < 0.1 ? 3 : 2;
  const ticks = [1, 0.5, 0, -0.5, -1].flatMap((share) => {
    const mm = share * endMm;
    const at = y(mm);
    return [line([15, at, 19, at], 'soft', 0.7), words(24, at + 3.5, share === 0 ? '0' : signed(mm, places), 10.5)];
  });
  const beside = 76;
  const below = y(-endMm) + 44;
  const keys: DrawnMark[] = [...hatchKey(below), words(beside - 46, below + 9, 'not compared', 10.5)];
  if (hasMarks)
    keys.push(
      line([0, below + 20, 18, below + 20, 18, below + 32, 0, below + 32], 'ink', 1, { closed: true }),
      words(beside - 46, below + 30, says.outline, 10.5),
    );
  const last = below + (hasMarks ? 22 : 0);
  if (hasSection)
    keys.push(
      line([0, last + 26, 18, last + 26], 'ink', 1, { dash: [7, 4] }),
      words(beside - 46, last + 30, 'line of the section', 10.5),
    );
  return [
    words(0, 0, says.title, 11.5, 'ink', { face: 'italic' }),
    ...bars,
    ...ticks,
    words(beside, y(endMm) + 3.5, says.higher, 10.5, 'soft'),
    words(beside, y(0) - 4, says.none, 10.5, 'soft'),
    words(beside, y(0) + 10, `${says.noneMore} (± ${plain(levelMm, 3)})`, 10.5, 'soft'),
    words(beside, y(-endMm) + 3.5, says.lower, 10.5, 'soft'),
    ...keys,
  ];
}

function hatchKey(y: number): DrawnMark[] {
  const strokes = [4, 10, 16, 22].map((x) => {
    const from = Math.min(18, x);
    const low = x - from;
    return line([from, y + low, Math.max(0, x - 12), y + Math.min(12, x)], '#767676', 1);
  });
  return [rectangle(0, y, 18, 12, '#d6d6d6'), ...strokes];
}
