import type { Mark } from '../../condition/index.ts';
import { apply } from '../../geometry/index.ts';
import { type DrawnMark, line, type TextMark, words } from '../drawing/index.ts';
import type { ToPage } from './mapLayout.ts';
import type { Plates } from './plates.ts';

/** Paper and ink on a picture stay what they are, on a dark page too. */
export const onPicture = '#1d1a15';
export const halo = '#ffffff';

type Drawn = Pick<Mark, 'id' | 'outline' | 'at'>;
type Point = readonly [x: number, y: number];

/** The outlines of marks, or a cross where one has none, each with its name where no other words stand: `others` are on the page already. */
export function markedPlaces(
  marks: readonly Drawn[],
  plates: Plates,
  to: ToPage,
  others: readonly TextMark[],
): DrawnMark[] {
  const taken = [...others];
  return marks.flatMap((mark) => {
    const outline = toPlates(mark.outline, plates, to);
    const place = placeOf(mark, plates, to);
    const [drawn, beside] = outline.length < 6 ? [crossAt(place), [place]] : [outlined(outline), extremes(outline)];
    const name = nameBeside(mark.id, beside, taken);
    taken.push(name);
    return [...drawn, name];
  });
}

/** Points of the reference's face frame, x and y by turns, on the page. */
export function toPlates(points: Float64Array, { plateFromReference }: Plates, to: ToPage): Float64Array {
  const out = new Float64Array(points.length);
  for (let i = 0; i + 1 < points.length; i += 2) {
    const [x, y] = apply(plateFromReference, [points[i], points[i + 1], 0]);
    out[i] = to.x(x);
    out[i + 1] = to.y(y);
  }
  return out;
}

function placeOf({ at }: Drawn, { turnDeg }: Plates, to: ToPage): Point {
  const a = ((at.deg + turnDeg) * Math.PI) / 180;
  return [to.x(at.radiusMm * Math.sin(a)), to.y(at.radiusMm * Math.cos(a))];
}

function crossAt([x, y]: Point): DrawnMark[] {
  const cross = [line([x - 4, y, x + 4, y], onPicture, 1), line([x, y - 4, x, y + 4], onPicture, 1)];
  const rim = cross.map((stroke) => ({ ...stroke, tone: halo, width: 2.8 }) as const);
  return [...rim, ...cross];
}

const outlined = (outline: Float64Array): DrawnMark[] => [
  line(outline, halo, 2.6, { closed: true }),
  line(outline, onPicture, 1, { closed: true }),
];

/** Rightmost, leftmost, topmost and bottommost point, in this order. */
function extremes(points: Float64Array): Point[] {
  const of = (measure: (i: number) => number): Point => {
    let at = 0;
    for (let i = 2; i < points.length; i += 2) if (measure(i) > measure(at)) at = i;
    return [points[at], points[at + 1]];
  };
  return [of((i) => points[i]), of((i) => -points[i]), of((i) => -points[i + 1]), of((i) => points[i + 1])];
}

const nameSize = 10.5;

/** The name right and left of each point, above and below its height: the first that meets no other words, or the very first. */
function nameBeside(id: string, points: readonly Point[], taken: readonly TextMark[]): TextMark {
  const name = (x: number, y: number, align: 'start' | 'end'): TextMark =>
    words(x, y, id, nameSize, onPicture, { rim: halo, align });
  const tried = points.flatMap(([x, y]) => [
    name(x + 4, y - 4, 'start'),
    name(x - 4, y - 4, 'end'),
    name(x + 4, y + 4 + nameSize, 'start'),
    name(x - 4, y + 4 + nameSize, 'end'),
  ]);
  return tried.find((one) => taken.every((other) => !meet(one, other))) ?? tried[0];
}

/** Whether the boxes of two words meet; a letter taken as six tenths of its size wide. */
function meet(a: TextMark, b: TextMark): boolean {
  const [p, q] = [extentOf(a), extentOf(b)];
  return p.left < q.right && q.left < p.right && p.top < q.bottom && q.top < p.bottom;
}

function extentOf({ x, y, text, size, align }: TextMark) {
  const width = 0.6 * size * text.length;
  const left = align === 'end' ? x - width : align === 'middle' ? x - width / 2 : x;
  return { left, right: left + width, top: y - size, bottom: y + size / 4 };
}
