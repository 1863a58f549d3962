import { encode } from 'fast-png';
import { blankCanvas, type Canvas, type Rgb, rgbOf } from './canvas.ts';
import { type Drawing, type DrawnMark, type LineMark, paperTones, type TextMark, type Tone } from './drawing.ts';
import { fillArea } from './fill.ts';
import { letterStrokes } from './lettering.ts';
import { drawPicture } from './paste.ts';
import { strokeLines } from './stroke.ts';

/**
 * The drawing as PNG on paper, red, green and blue. Words are set in letters of a single stroke, since there is no
 * typeface here. `caption` stands inside the file as its description.
 */
export function toPng(drawing: Drawing, pixelsAcross = 900, caption = drawing.title): Uint8Array {
  const { width, height, rgb } = toCanvas(drawing, pixelsAcross);
  const text = { Description: plainLatin(caption) };
  return encode({ width, height, channels: 3, depth: 8, data: rgb, text }, { zlib: { level: 1 } });
}

/** The drawing's pixels. */
export function toCanvas(drawing: Drawing, pixelsAcross: number): Canvas {
  const scale = pixelsAcross / drawing.width;
  const canvas = blankCanvas(pixelsAcross, Math.max(1, Math.round(drawing.height * scale)), colourOf('paper'));
  for (const mark of drawing.marks) paintMark(canvas, mark, scale);
  return canvas;
}

const colourOf = (tone: Tone): Rgb => rgbOf(tone.startsWith('#') ? tone : paperTones[tone]);

function paintMark(canvas: Canvas, mark: DrawnMark, s: number): void {
  if (mark.kind === 'picture')
    drawPicture(canvas, mark.picture, mark.x * s, mark.y * s, mark.width * s, mark.height * s);
  else if (mark.kind === 'area')
    fillArea(
      canvas,
      Float64Array.from(mark.points, (value) => value * s),
      colourOf(mark.tone),
      mark.opacity,
    );
  else if (mark.kind === 'line') paintLine(canvas, mark, s);
  else paintText(canvas, mark, s);
}

function paintLine(canvas: Canvas, mark: LineMark, s: number): void {
  const points = Array.from(mark.points, (value) => value * s);
  if (mark.closed) points.push(points[0], points[1]);
  const lines = mark.dash ? dashes(points, mark.dash[0] * s, mark.dash[1] * s) : [points];
  strokeLines(canvas, lines, mark.width * s, colourOf(mark.tone));
}

/** A line cut into strokes of `on` with gaps of `off` between them. */
function dashes(points: readonly number[], on: number, off: number): number[][] {
  const out: number[][] = [];
  let walked = 0;
  for (let i = 0; i + 3 < points.length; i += 2) {
    const [ax, ay, bx, by] = [points[i], points[i + 1], points[i + 2], points[i + 3]];
    const length = Math.hypot(bx - ax, by - ay);
    for (let k = Math.floor(walked / (on + off)); k * (on + off) < walked + length; k++) {
      const from = Math.max(0, k * (on + off) - walked) / length;
      const to = Math.min(length, k * (on + off) + on - walked) / length;
      if (to > from) out.push([ax + from * (bx - ax), ay + from * (by - ay), ax + to * (bx - ax), ay + to * (by - ay)]);
    }
    walked += length;
  }
  return out;
}

function paintText(canvas: Canvas, mark: TextMark, s: number): void {
  const { face, align = 'start', upward } = mark;
  const setting = { size: mark.size * s, italic: face === 'italic', smallCapitals: face === 'capitals' };
  const { strokes, width } = letterStrokes(mark.text, setting);
  const shift = align === 'start' ? 0 : align === 'middle' ? -width / 2 : -width;
  const placed = strokes.map((stroke) =>
    stroke.map((_, i) => {
      const along = stroke[i - (i % 2)] + shift;
      const across = stroke[i - (i % 2) + 1];
      if (upward) return i % 2 === 0 ? mark.x * s + across : mark.y * s - along;
      return i % 2 === 0 ? mark.x * s + along : mark.y * s + across;
    }),
  );
  const weight = setting.size * 0.07;
  if (mark.rim) for (const stroke of placed) strokeLines(canvas, [stroke], weight + 2.6 * s, colourOf(mark.rim));
  for (const stroke of placed) strokeLines(canvas, [stroke], weight, colourOf(mark.tone));
}

/** A PNG's text is ISO 8859-1 of at most one paragraph. */
const plainLatin = (text: string): string =>
  text
    .replaceAll('−', '-')
    .replaceAll(/[–—]/g, '-')
    .replaceAll(/[“”]/g, '"')
    .replaceAll('’', "'")
    .replaceAll('\u202f', ' ')
    .replaceAll(/[^\x20-\x7e\xa0-\xff]/g, '?');
