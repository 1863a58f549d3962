import { differenceScale, hex } from '../../core/compare/index.ts';
import type { Vec2 } from '../../core/geometry/index.ts';
import { number } from '../look/numbers.ts';
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

function outlines({ plate, view, marks }: FigureInput): Item[] {
  if (!view.outlines) return [];
  return plate.pictures.flatMap(({ projection, mirror }) =>
    marks
      .filter((mark) => mark.outline.length > 2)
      .flatMap((mark): Item[] => {
        const points = mark.outline.map(([x, y]) => toPixels(projection, mirror ? -x : x, y));
        const top = points.reduce((a, b) => (b[1] < a[1] ? b : a));
        return [
          { is: 'line', points, closed: true, colour: ink, width: 1.2 },
          text(top[0], top[1] - 5, `${mark.number}`, 'middle', false, 14),
        ];
      }),
  );
}

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

function colourScale({ width, rangeMm }: FigureInput, y: number): Item[] {
  const colours = differenceScale(10).map(hex);
  const step = 11;
  const left = width / 2 - (colours.length * step) / 2;
  return [
    ...colours.map((colour, i): Item => ({ is: 'bar', x: left + i * step, y, width: step, height: 12, colour })),
    text(left - 10, y + 11, `lacks height −${number(rangeMm, 2)}`, 'end', false, 14),
    text(
      left + colours.length * step + 10,
      y + 11,
      `+${number(rangeMm, 2)} mm stands higher; grey: not measurable`,
      'start',
      false,
      14,
    ),
  ];
}
