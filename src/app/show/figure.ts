import { differenceScale, hex, levelGrey } from '../../core/compare/index.ts';
import type { Vec2 } from '../../core/geometry/index.ts';
import { legendOf } from '../frame/differenceWords.ts';
import { number } from '../look/numbers.ts';
import { carries, placedLabels } from '../plate/Outlines.tsx';
import { scaleBarMm, toPixels } from '../plate/project.ts';
import type { PlateState } from '../plate/usePlate.ts';
import type { PlateView } from '../state/document.ts';
import type { ShownMark } from '../state/marks.ts';

/** What a figure is made of: drawn alike on a canvas and in SVG. Pixels. */
export type Item =
  | {
      readonly is: 'line';
      readonly points: readonly Vec2[];
      readonly closed: boolean;
      readonly colour: string;
      readonly width: number;
    }
  | {
      readonly is: 'bar';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly colour: string;
    }
  | {
      readonly is: 'text';
      readonly x: number;
      readonly y: number;
      readonly words: string;
      readonly size: number;
      readonly align: 'start' | 'middle' | 'end';
      readonly italic: boolean;
      readonly colour: string;
    };

export interface Figure {
  readonly width: number;
  readonly height: number;
  readonly paper: string;
  readonly seals: HTMLCanvasElement;
  readonly sealsHeight: number;
  readonly items: readonly Item[];
}

export interface FigureInput {
  readonly plate: PlateState;
  readonly view: PlateView;
  readonly marks: readonly ShownMark[];
  readonly captions: readonly string[];
  readonly rangeMm: number;
  readonly seals: HTMLCanvasElement;
  readonly width: number;
  readonly height: number;
}

const ink = '#241f19';
const accent = '#8a2d1b';
const lineHeight = 24;

/** The plate as a figure: seals, outlines, section, scale bar, light and caption. */
export function figureOf(input: FigureInput): Figure {
  const { width, height, captions, view } = input;
  const light = `Light from ${Math.round(view.lamp.azimuthDeg)}°, ${Math.round(view.lamp.heightDeg)}° above the face.`;
  const lines = [...captions, light];
  const scale = view.look === 'difference' ? colourScale(input, height + 18) : [];
  const top = height + (scale.length > 0 ? 52 : 18);
  return {
    width,
    height: top + lines.length * lineHeight + 12,
    paper: '#fbf8f1',
    seals: input.seals,
    sealsHeight: height,
    items: [
      ...outlines(input),
      ...section(input),
      ...scaleBar(input),
      ...scale,
      ...lines.map((words, i) => text(width / 2, top + 8 + i * lineHeight, words, 'middle', i === lines.length - 1)),
    ],
  };
}

const text = (
  x: number,
  y: number,
  words: string,
  align: 'start' | 'middle' | 'end',
  italic = false,
  size = 16,
): Item => ({
  ...{ is: 'text', x, y, words, align, italic, size, colour: ink },
});

/** The pointers of marks as on the plate: from outside the relief, full where the object carries it, empty where not. */
function outlines({ plate, view, marks }: FigureInput): Item[] {
  if (!view.outlines) return [];
  const shown = marks.filter((mark) => mark.outline.length > 2);
  return plate.pictures.flatMap((picture) =>
    placedLabels(shown, picture).flatMap(({ mark, label, foot }): Item[] => [
      { is: 'line', points: [label, foot], closed: false, colour: ink, width: 0.9 },
      { is: 'line', points: ringAt(foot, carries(mark, picture) ? 1.2 : 4), closed: true, colour: ink, width: 1.4 },
      text(label[0], label[1] + 5, `${mark.number}`, 'middle', false, 14),
    ]),
  );
}

const ringAt = ([x, y]: Vec2, r: number): Vec2[] =>
  Array.from({ length: 16 }, (_, i) => [x + r * Math.cos((i * Math.PI) / 8), y + r * Math.sin((i * Math.PI) / 8)]);

function section({ plate, view }: FigureInput): Item[] {
  const line = view.section;
  if (!line) return [];
  return plate.pictures.flatMap(({ projection, mirror }): Item[] => {
    const sign = mirror ? -1 : 1;
    const a = toPixels(projection, sign * line[0], line[1]);
    const b = toPixels(projection, sign * line[2], line[3]);
    return [
      { is: 'line', points: [a, b], closed: false, colour: accent, width: 1.4 },
      text(a[0], a[1] - 6, 'A', 'middle'),
      text(b[0], b[1] - 6, 'B', 'middle'),
    ];
  });
}

function scaleBar({ plate, height }: FigureInput): Item[] {
  const first = plate.pictures[0];
  if (!first) return [];
  const { pxPerMm } = first.projection;
  const mm = scaleBarMm(pxPerMm, 130);
  const [x, y] = [20, height - 14];
  const end = x + mm * pxPerMm;
  const bar = [
    [x, y - 5],
    [x, y],
    [end, y],
    [end, y - 5],
  ] as const;
  return [
    { is: 'line', points: bar, closed: false, colour: ink, width: 1.4 },
    text((x + end) / 2, y - 8, `${mm} mm`, 'middle', false, 14),
  ];
}

/** The legend of depth differences with its grey zone, zero, unit and ends. */
function colourScale({ plate, width, rangeMm }: FigureInput, y: number): Item[] {
  const level = plate.comparison?.difference?.levelOfDetectionMm ?? 0;
  const words = legendOf(rangeMm, level);
  const bars = 40;
  const step = 5.5;
  const [scale, left] = [differenceScale(bars / 2).map(hex), width / 2 - (bars * step) / 2];
  const end = left + bars * step;
  const bar = (i: number): Item => {
    const mm = ((i + 0.5) / bars - 0.5) * 2 * rangeMm;
    const colour = Math.abs(mm) < level ? hex(levelGrey) : scale[Math.round((i / (bars - 1)) * (scale.length - 1))];
    return { is: 'bar', x: left + i * step, y, width: step + 0.3, height: 12, colour };
  };
  return [
    ...Array.from({ length: bars }, (_, i) => bar(i)),
    text(left - 10, y + 11, words.low, 'end', false, 14),
    text(end + 10, y + 11, `${words.high}; ${words.grey}; hatched: not compared`, 'start', false, 14),
    text(left, y + 25, `−${number(rangeMm, 2)}`, 'middle', false, 12),
    text(width / 2, y + 25, '0', 'middle', false, 12),
    text(end, y + 25, `+${number(rangeMm, 2)} mm`, 'middle', false, 12),
  ];
}
