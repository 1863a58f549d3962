import { clockDeg, type LitPicture, type Strip } from '../../read/index.ts';
import { type DrawnMark, line, words } from '../drawing/index.ts';
import { barLength, scaleBar } from '../figures/scaleBar.ts';
import { captionMarks } from './captionLines.ts';
import type { PlacedPicture } from './litDots.ts';
import type { PrintPlate } from './printPlate.ts';

/** One strip of a plate: what was laid out, how it is lit, and what stands above it. */
export interface StripRow {
  readonly name: string;
  /** Smaller, behind the name. */
  readonly note?: string | undefined;
  /** Its cells are the plate's dots. */
  readonly strip: Strip;
  readonly picture: Pick<LitPicture, 'grey'>;
  /** A row in register with the one above it needs no hours of its own. */
  readonly hours: boolean;
}

export interface StripPlateOptions {
  /** Dots per inch. */
  readonly dpi: number;
  readonly caption: string;
}

const pointsPerInch = 72;
/** Points: round the plate, above each strip for its name, between strips, under a strip for its hours, for the bar. */
const [margin, nameHigh, between, hoursHigh, barHigh] = [14, 13, 6, 20, 30];
/** Hours nearer than this, points, are numbered at the quarters alone. */
const leastApart = 24;

/**
 * Strips under one another, each with its name, the hours and degrees under them, and one scale bar: a dot is one cell of
 * the strip, so all rows have one pitch. Directions are those of the seal: clockwise from 12 o'clock on the impression about
 * the face's centre, whichever way a stretch of letters runs.
 */
export function stripPlate(rows: readonly StripRow[], { dpi, caption }: StripPlateOptions): PrintPlate {
  const dotsPerPoint = dpi / pointsPerInch;
  const left = Math.round(margin * dotsPerPoint);
  const { pitch } = rows[0].strip.grid;
  const marks: DrawnMark[] = [];
  const pictures: PlacedPicture[] = [];
  let y = margin;
  for (const { name, note, strip, picture, hours } of rows) {
    y += nameHigh;
    marks.push(words(margin, y - 4, note ? `${name}  ·  ${note}` : name, 8, 'ink'));
    const top = Math.round(y * dotsPerPoint);
    const { width, height, mask } = strip.grid;
    pictures.push({ left, top, width, height, grey: picture.grey, mask });
    y = (top + height) / dotsPerPoint;
    if (hours) {
      marks.push(...hourMarks(strip, left / dotsPerPoint, y, dotsPerPoint));
      y += hoursHigh;
    }
    y += between;
  }
  const across = Math.max(...rows.map(({ strip }) => strip.grid.width)) / dotsPerPoint;
  const width = Math.max(across, 200) + 2 * margin;
  const perMm = 1 / (pitch * dotsPerPoint);
  const barMm = barLength(Math.min(width - 2 * margin, 300) / perMm);
  marks.push(...scaleBar(margin + (barMm * perMm) / 2, y + 12, perMm, barMm));
  const lines = captionMarks(caption, margin, y + barHigh, width - 2 * margin);
  marks.push(...lines.marks);
  const height = y + barHigh + lines.height + margin;
  return { drawing: { width, height, title: caption, marks }, pictures, dpi, caption };
}

/** A tick at every hour, with hour and degrees under it. */
function hourMarks(strip: Strip, x: number, y: number, dotsPerPoint: number): DrawnMark[] {
  const ticks = hourColumns(strip);
  const apart = strip.roundMm / strip.grid.pitch / 12 / dotsPerPoint;
  return ticks.flatMap(({ column, hour }) => {
    const at = x + (column + 0.5) / dotsPerPoint;
    const numbered = apart >= leastApart || hour % 3 === 0;
    return [
      line([at, y + 1, at, y + (numbered ? 5 : 3.5)], 'ink', 0.6),
      ...(numbered
        ? [
            words(at, y + 12, `${hour} h`, 7, 'ink', { align: 'middle' }),
            words(at, y + 19, `${(hour * 30) % 360}°`, 6, 'soft', { align: 'middle' }),
          ]
        : []),
    ];
  });
}

/** Columns nearest to the whole clock hours, piece by piece: a column stands for the angle half a step to either side. */
export function hourColumns(strip: Pick<Strip, 'pieces' | 'x' | 'y'>): { column: number; hour: number }[] {
  const list: { column: number; hour: number }[] = [];
  const degAt = (column: number): number => clockDeg(strip.x[column], strip.y[column]);
  for (const { from, to } of strip.pieces)
    for (let c = from; c < to; c++) {
      const near = c + 1 < to ? c + 1 : c - 1;
      const half = Math.abs(((degAt(near) - degAt(c) + 540) % 360) - 180) / 2;
      const hour = Math.round(degAt(c) / 30);
      const off = degAt(c) - 30 * hour;
      const number = ((hour + 11) % 12) + 1;
      if (off >= -half && off < half && list.at(-1)?.hour !== number) list.push({ column: c, hour: number });
    }
  return list;
}
