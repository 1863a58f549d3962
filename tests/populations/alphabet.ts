/**
 * Skeletons of capitals, drawn for these populations: strokes as polylines in a box one unit high, with the letter's
 * width. Several letters have a second, rounder form, as seals of one time mix them.
 */
export interface Skeleton {
  readonly width: number;
  readonly strokes: readonly (readonly [number, number][])[];
}

type Line = [number, number][];

const line = (...numbers: number[]): Line => {
  const points: Line = [];
  for (let i = 0; i < numbers.length; i += 2) points.push([numbers[i], numbers[i + 1]]);
  return points;
};

/** Part of an ellipse from one angle to another, degrees anticlockwise from the right. */
const bow = (cx: number, cy: number, rx: number, ry: number, from: number, to: number): Line => {
  const parts = Math.max(3, Math.ceil(Math.abs(to - from) / 24));
  return Array.from({ length: parts + 1 }, (_, i) => {
    const angle = ((from + ((to - from) * i) / parts) * Math.PI) / 180;
    return [cx + rx * Math.cos(angle), cy + ry * Math.sin(angle)];
  });
};

const letter = (width: number, ...strokes: Line[]): Skeleton => ({ width, strokes });

const capitals: Readonly<Record<string, readonly Skeleton[]>> = {
  A: [
    letter(0.74, line(0.02, 0, 0.36, 1), line(0.36, 1, 0.72, 0), line(0.14, 0.36, 0.6, 0.36)),
    letter(
      0.74,
      line(0.04, 0, 0.3, 1),
      line(0.16, 1, 0.5, 1),
      line(0.36, 1, 0.7, 0),
      line(0.14, 0.42, 0.36, 0.26, 0.58, 0.42),
    ),
  ],
  B: [letter(0.6, line(0.1, 0, 0.1, 1), bow(0.1, 0.76, 0.38, 0.24, 90, -90), bow(0.1, 0.26, 0.47, 0.26, 90, -90))],
  C: [
    letter(0.7, bow(0.42, 0.5, 0.38, 0.5, 50, 310)),
    letter(0.7, bow(0.42, 0.5, 0.38, 0.5, 70, 290), line(0.62, 0.92, 0.62, 0.08)),
  ],
  D: [letter(0.7, line(0.1, 0, 0.1, 1), bow(0.1, 0.5, 0.55, 0.5, 90, -90))],
  E: [
    letter(0.56, line(0.1, 0, 0.1, 1), line(0.1, 1, 0.52, 1), line(0.1, 0.52, 0.44, 0.52), line(0.1, 0, 0.54, 0)),
    letter(0.66, bow(0.42, 0.5, 0.38, 0.5, 75, 285), line(0.06, 0.5, 0.56, 0.5), line(0.58, 0.9, 0.58, 0.1)),
  ],
  F: [letter(0.54, line(0.1, 0, 0.1, 1), line(0.1, 1, 0.52, 1), line(0.1, 0.54, 0.42, 0.54))],
  G: [letter(0.74, bow(0.42, 0.5, 0.38, 0.5, 50, 330), line(0.72, 0.3, 0.72, 0.46, 0.5, 0.46))],
  H: [
    letter(0.7, line(0.1, 0, 0.1, 1), line(0.6, 0, 0.6, 1), line(0.1, 0.5, 0.6, 0.5)),
    letter(0.62, line(0.1, 0, 0.1, 1), line(0.1, 0.5, 0.3, 0.62, 0.5, 0.52, 0.55, 0.26, 0.46, -0.06)),
  ],
  I: [letter(0.2, line(0.1, 0, 0.1, 1))],
  J: [letter(0.36, line(0.26, 1, 0.26, 0.16, 0.16, -0.02, 0.02, 0.06))],
  K: [letter(0.64, line(0.1, 0, 0.1, 1), line(0.1, 0.42, 0.56, 1), line(0.24, 0.58, 0.62, 0))],
  L: [letter(0.54, line(0.1, 1, 0.1, 0), line(0.1, 0, 0.52, 0))],
  M: [
    letter(0.86, line(0.08, 0, 0.12, 1), line(0.12, 1, 0.43, 0.22), line(0.43, 0.22, 0.74, 1), line(0.74, 1, 0.78, 0)),
    letter(
      0.84,
      bow(0.26, 0.5, 0.2, 0.5, 90, 290),
      line(0.42, 1, 0.42, 0),
      line(0.26, 1, 0.6, 1),
      line(0.6, 1, 0.74, 0.7, 0.76, 0),
    ),
  ],
  N: [
    letter(0.72, line(0.1, 0, 0.1, 1), line(0.1, 1, 0.62, 0), line(0.62, 0, 0.62, 1)),
    letter(0.62, line(0.1, 0, 0.1, 1), line(0.1, 0.84, 0.3, 1, 0.48, 0.9, 0.52, 0.6, 0.5, 0.1, 0.58, 0)),
  ],
  O: [letter(0.8, bow(0.4, 0.5, 0.36, 0.5, 90, 450))],
  P: [letter(0.56, line(0.1, 0, 0.1, 1), bow(0.1, 0.73, 0.42, 0.27, 90, -90))],
  Q: [letter(0.82, bow(0.4, 0.5, 0.36, 0.5, 90, 450), line(0.46, 0.22, 0.6, 0.04, 0.8, -0.1))],
  R: [letter(0.64, line(0.1, 0, 0.1, 1), bow(0.1, 0.75, 0.4, 0.25, 90, -90), line(0.26, 0.5, 0.62, 0))],
  S: [letter(0.56, [...bow(0.28, 0.74, 0.22, 0.26, 30, 270), ...bow(0.28, 0.24, 0.24, 0.24, 90, -150)])],
  T: [
    letter(0.66, line(0.33, 0, 0.33, 1), line(0.02, 1, 0.64, 1)),
    letter(0.66, bow(0.42, 0.44, 0.34, 0.44, 110, 300), line(0.04, 0.96, 0.3, 1, 0.64, 0.94)),
  ],
  U: [letter(0.7, line(0.1, 1, 0.1, 0.3, 0.2, 0.05, 0.35, 0, 0.5, 0.05, 0.6, 0.3, 0.6, 1))],
  V: [letter(0.72, line(0.02, 1, 0.36, 0), line(0.36, 0, 0.7, 1))],
  W: [letter(1, line(0.02, 1, 0.26, 0), line(0.26, 0, 0.5, 0.9), line(0.5, 0.9, 0.74, 0), line(0.74, 0, 0.98, 1))],
  X: [letter(0.68, line(0.04, 0, 0.64, 1), line(0.04, 1, 0.64, 0))],
  Y: [letter(0.7, line(0.35, 0, 0.35, 0.46), line(0.35, 0.46, 0.04, 1), line(0.35, 0.46, 0.66, 1))],
  Z: [letter(0.62, line(0.04, 1, 0.58, 1), line(0.58, 1, 0.04, 0), line(0.04, 0, 0.6, 0))],
  '+': [letter(0.7, line(0.35, 0.06, 0.35, 0.94), line(0.02, 0.5, 0.68, 0.5))],
  ':': [letter(0.2, line(0.1, 0.26), line(0.1, 0.74))],
};

/** The letters that have a skeleton. */
export const drawnLetters = Object.keys(capitals);

/** A letter's skeleton; `round` takes its second form where it has one. */
export function skeletonOf(letter: string, round: boolean): Skeleton {
  const forms = capitals[letter];
  if (!forms) throw new Error(`No skeleton is drawn for “${letter}”.`);
  return forms[round ? forms.length - 1 : 0];
}
