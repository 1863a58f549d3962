/**
 * A figure as a list of marks on paper, drawn once and painted twice: as SVG and as pixels. Units are those of the
 * page, 720 to the full width of the text; x to the right, y down.
 */
export interface Drawing {
  readonly width: number;
  readonly height: number;
  /** What is seen, in one sentence, for those who cannot see it. */
  readonly title: string;
  readonly marks: readonly DrawnMark[];
}

/** A part of a drawing, in its units. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A colour by its part on the page, which the dark page changes, or a fixed one (`#rrggbb`) on a picture. */
export type Tone = 'ink' | 'soft' | 'rule' | 'accent' | 'paper' | `#${string}`;

/** The tones of printed paper, used where no page says otherwise. */
export const paperTones: Readonly<Record<string, string>> = {
  ink: '#25211b',
  soft: '#6b6254',
  rule: '#c9bfab',
  accent: '#8a2f1c',
  paper: '#fbf8f1',
};

export type DrawnMark = PictureMark | LineMark | AreaMark | TextMark;

/** Pixels: grey and opacity (2) or red, green, blue and opacity (4); row 0 at the top. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly channels: 2 | 4;
  readonly data: Uint8Array;
}

export interface PictureMark {
  readonly kind: 'picture';
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly picture: Picture;
}

export interface LineMark {
  readonly kind: 'line';
  /** x, y pairs. */
  readonly points: ArrayLike<number>;
  readonly closed?: boolean;
  readonly tone: Tone;
  readonly width: number;
  /** Lengths of stroke and gap. */
  readonly dash?: readonly [number, number];
}

/** A filled polygon, even-odd. */
export interface AreaMark {
  readonly kind: 'area';
  readonly points: ArrayLike<number>;
  readonly tone: Tone;
  /** 1 unless stated. */
  readonly opacity?: number;
}

export interface TextMark {
  readonly kind: 'text';
  readonly x: number;
  /** Of the base line. */
  readonly y: number;
  readonly text: string;
  readonly size: number;
  readonly tone: Tone;
  readonly align?: 'start' | 'middle' | 'end';
  readonly face?: 'plain' | 'italic' | 'capitals';
  /** A rim in this colour, so that words stay readable on a picture. */
  readonly rim?: Tone;
  /** Turned a quarter, to be read from the right. */
  readonly upward?: boolean;
}

export const line = (points: ArrayLike<number>, tone: Tone, width: number, more: Partial<LineMark> = {}): LineMark => ({
  kind: 'line',
  points,
  tone,
  width,
  ...more,
});

export const rectangle = (x: number, y: number, width: number, height: number, tone: Tone, opacity = 1): AreaMark => ({
  kind: 'area',
  points: [x, y, x + width, y, x + width, y + height, x, y + height],
  tone,
  opacity,
});

export const words = (
  x: number,
  y: number,
  text: string,
  size: number,
  tone: Tone = 'ink',
  more: Partial<TextMark> = {},
): TextMark => ({ kind: 'text', x, y, text, size, tone, ...more });

/** The marks moved by (dx, dy). */
export const moved = (marks: readonly DrawnMark[], dx: number, dy: number): DrawnMark[] =>
  marks.map((mark) =>
    'points' in mark
      ? { ...mark, points: Array.from(mark.points, (value, i) => value + (i % 2 === 0 ? dx : dy)) }
      : { ...mark, x: mark.x + dx, y: mark.y + dy },
  );
