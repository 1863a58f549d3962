import { letterShapes } from './letterShapes.ts';

/** Height of the capitals in the shapes' own units, and the share of a typeface's size that it stands for. */
const capitals = 14;
const capitalShare = 0.68;
/** Added after every letter, in the shapes' units. */
const spacing = 0.8;
/** Short lines between two points of a curve. */
const piecesPerSpan = 5;

/** How letters are set: size as of a typeface, capitals 0.68 of it. */
export interface Setting {
  readonly size: number;
  readonly italic?: boolean;
  /** All letters as small capitals. */
  readonly smallCapitals?: boolean;
}

interface Shape {
  readonly advance: number;
  /** x, y pairs per stroke. */
  readonly strokes: readonly (readonly number[])[];
}

const known = new Map<string, Shape>();

/** "~z 1,2 3,4" → points, curves already broken into short lines. */
function strokeOf(drawn: string): number[] {
  const [how, ...pairs] = drawn.split(' ');
  const points = pairs.map((pair) => pair.split(',').map(Number));
  return how.startsWith('~') ? smooth(points, how.endsWith('z')) : points.flat();
}

/**
 * The curve of Catmull and Rom through the points: between p₁ and p₂, with t from 0 to 1,
 * ½ (2p₁ + (p₂ − p₀) t + (2p₀ − 5p₁ + 4p₂ − p₃) t² + (3p₁ − p₀ − 3p₂ + p₃) t³). An open curve repeats its ends.
 */
function smooth(points: readonly (readonly number[])[], closed: boolean): number[] {
  const count = points.length;
  const at = (i: number): readonly number[] =>
    closed ? points[(i + count) % count] : points[Math.min(count - 1, Math.max(0, i))];
  const out: number[] = [];
  const spans = closed ? count : count - 1;
  for (let i = 0; i < spans; i++)
    for (let k = 0; k < piecesPerSpan; k++)
      out.push(...between(at(i - 1), at(i), at(i + 1), at(i + 2), k / piecesPerSpan));
  out.push(...at(closed ? 0 : count - 1));
  return out;
}

type Point = readonly number[];

const between = (p0: Point, p1: Point, p2: Point, p3: Point, t: number): number[] =>
  [0, 1].map(
    (k) =>
      (2 * p1[k] +
        (p2[k] - p0[k]) * t +
        (2 * p0[k] - 5 * p1[k] + 4 * p2[k] - p3[k]) * t ** 2 +
        (3 * p1[k] - p0[k] - 3 * p2[k] + p3[k]) * t ** 3) /
      2,
  );

/** A letter's shape: accents are dropped, and what has no shape becomes a question mark. */
function shapeOf(letter: string): Shape {
  let shape = known.get(letter);
  if (!shape) {
    const [advance, drawn] = letterShapes[letter] ?? letterShapes[letter.normalize('NFD')[0]] ?? letterShapes['?'];
    shape = { advance, strokes: drawn === '' ? [] : drawn.split('|').map(strokeOf) };
    known.set(letter, shape);
  }
  return shape;
}

/**
 * The strokes of a line of words, x, y pairs, x to the right from 0 and y down from the base line, and its width.
 */
export function letterStrokes(text: string, setting: Setting): { strokes: number[][]; width: number } {
  const scale = (setting.size * capitalShare) / capitals;
  const strokes: number[][] = [];
  let x = 0;
  for (const letter of text) {
    const small = setting.smallCapitals === true && /[a-z]/i.test(letter);
    const shape = shapeOf(small ? letter.toUpperCase() : letter);
    const size = scale * (small ? 0.74 : 1);
    for (const stroke of shape.strokes) strokes.push(placeStroke(stroke, x, size, setting.italic === true));
    x += (shape.advance + spacing) * size + (small ? 0.06 * setting.size : 0);
  }
  return { strokes, width: x };
}

const slant = 0.2;

function placeStroke(stroke: readonly number[], x: number, size: number, italic: boolean): number[] {
  const out: number[] = [];
  for (let i = 0; i < stroke.length; i += 2) {
    const lean = italic ? slant * stroke[i + 1] : 0;
    out.push(x + (stroke[i] + lean) * size, -stroke[i + 1] * size);
  }
  return out;
}
