import { skeletonOf } from './alphabet.ts';
import type { Chance } from './chance.ts';
import { motifs } from './motifs.ts';
import { type Course, courseOf, insetCurve, type Outline } from './outline.ts';
import { penInto } from './pen.ts';
import type { Section, Stroke } from './strokes.ts';
import type { BorderKind, TrueLetter } from './types.ts';
import { inventedLegend } from './words.ts';

/** How one engraver cuts letters. Lengths are shares of the letter's height. */
export interface LetterHand {
  readonly half: number;
  readonly depth: number;
  readonly section: Section;
  readonly serif: number;
  readonly slant: number;
  readonly swell: number;
  /** Letters that take their round form. */
  readonly round: ReadonlySet<string>;
}

/** A legend's place: distance of its foot inside the outline and the height of its letters, mm. */
export interface Ring {
  readonly footInset: number;
  readonly letterMm: number;
}

/** Everything that an engraver means to cut, in the design's plane, mm, impression's sense. */
export interface Drawing {
  readonly outline: Outline;
  readonly legend: readonly Stroke[];
  readonly letters: readonly TrueLetter[];
  /** Border and motif. */
  readonly rest: readonly Stroke[];
  readonly rings: readonly Ring[];
  readonly border: BorderKind;
  readonly motif: string;
}

export interface Layout {
  readonly outline: Outline;
  readonly rings: readonly Ring[];
  readonly border: BorderKind;
  readonly motif: string;
  /** Inset of the circle or curve that closes the legend inward, mm. */
  readonly fieldInset: number;
  readonly motifDepth: number;
}

export function layoutOf(outline: Outline, motif: string, chance: Chance): Layout {
  const size = 2 * outline.halfWidth;
  const letterMm = Math.min(5, Math.max(1, size * chance.range(0.075, 0.1)));
  const edge = Math.max(0.35, 0.025 * size);
  const border = chance.choose(['plain', 'beaded', 'cable', 'none'] as const);
  const two = size > 36 && chance.yes(0.3);
  const rings: Ring[] = [{ footInset: edge * 2 + letterMm, letterMm }];
  if (two) rings.push({ footInset: edge * 3.2 + letterMm * 1.85, letterMm: letterMm * 0.85 });
  const fieldInset = rings[rings.length - 1].footInset + edge * 1.1;
  return { outline, rings, border, motif, fieldInset, motifDepth: Math.max(0.4, size * chance.range(0.028, 0.045)) };
}

export function letterHand(chance: Chance): LetterHand {
  const round = new Set([...'ACEHMNT'].filter(() => chance.yes(0.45)));
  return {
    half: chance.range(0.06, 0.095),
    depth: chance.range(0.09, 0.15),
    section: chance.choose(['v', 'round', 'flat']),
    serif: chance.range(0.1, 0.22),
    slant: 0.04 * chance.gauss(),
    swell: chance.range(0, 0.5),
    round,
  };
}

/** Draws the design of one matrix. `chance` decides motif, borders and words; `hand` how letters look. */
export function draw(layout: Layout, hand: LetterHand, chance: Chance): Drawing {
  const rest: Stroke[] = [];
  drawBorder(rest, layout, chance.branch('border'));
  const inner = Math.min(layout.outline.halfWidth, layout.outline.halfHeight) - layout.fieldInset;
  const tall = (layout.outline.halfHeight - layout.fieldInset) / Math.max(inner, 0.1);
  const motif: Stroke[] = [];
  motifs[layout.motif](penInto(motif, 1000, inner * 0.92, layout.motifDepth), chance.branch('motif'));
  const stretch = Math.min(1.5, Math.max(1, tall));
  for (const stroke of motif) rest.push({ ...stroke, y: stroke.y.map((y) => y * stretch) });
  return { ...layout, rest, ...drawLegend(layout.rings, layout.outline, hand, chance.branch('legend')) };
}

/** Letters along the rings, clockwise from the top, tops outward; groups from 0. */
export function drawLegend(
  rings: readonly Ring[],
  outline: Outline,
  hand: LetterHand,
  chance: Chance,
): { legend: Stroke[]; letters: TrueLetter[] } {
  const legend: Stroke[] = [];
  const letters: TrueLetter[] = [];
  rings.forEach(({ footInset, letterMm }, ring) => {
    const course = courseOf(insetCurve(outline, footInset));
    const text = inventedLegend(chance, Math.floor(course.length / (letterMm * 0.86)), ring === 0);
    const gap = (course.length - letterMm * widthOf(text, hand)) / text.length;
    let s = 0;
    for (const letter of text) {
      const skeleton = skeletonOf(letter, hand.round.has(letter));
      const width = skeleton.width * letterMm;
      const group = letters.length;
      // The first letter stands in the middle of the top.
      if (group === 0 || s === 0) s = -width / 2;
      const { x, y, tx, ty } = course.at(s + width / 2 + 0.03 * letterMm * chance.gauss());
      const rise = letterMm * (1 + 0.03 * chance.gauss());
      letters.push({ letter, ring, x: x - (ty * rise) / 2, y: y + (tx * rise) / 2, heightMm: letterMm });
      for (const line of skeleton.strokes)
        cutLetterLine(legend, line, hand, { x, y, tx, ty }, letterMm, rise, skeleton.width, group);
      s += width + gap;
    }
  });
  return { legend, letters };
}

const widthOf = (text: string, hand: LetterHand): number =>
  [...text].reduce((sum, letter) => sum + skeletonOf(letter, hand.round.has(letter)).width, 0);

function cutLetterLine(
  out: Stroke[],
  line: readonly (readonly [number, number])[],
  hand: LetterHand,
  at: ReturnType<Course['at']>,
  letterMm: number,
  rise: number,
  width: number,
  group: number,
): void {
  // Outward is to the left of the clockwise direction: (−ty, tx).
  const place = ([u, v]: readonly [number, number]): [number, number] => {
    const along = (u + hand.slant * v - width / 2) * letterMm;
    const up = v * rise;
    return [at.x + along * at.tx - up * at.ty, at.y + along * at.ty + up * at.tx];
  };
  const points = line.map(place);
  const n = points.length;
  const half = Math.max(0.07, hand.half * letterMm);
  const depth = Math.max(0.12, hand.depth * letterMm);
  const swell = (i: number): number => 1 + hand.swell * Math.sin((Math.PI * i) / Math.max(1, n - 1)) * (n > 2 ? 1 : 0);
  const stroke = (p: [number, number][], h: (i: number) => number, section: Section): Stroke => ({
    x: p.map(([x]) => x),
    y: p.map(([, y]) => y),
    half: p.map((_, i) => h(i)),
    depth: p.map(() => depth),
    section,
    detail: false,
    group,
  });
  if (n === 1) {
    out.push(stroke(points, () => half * 1.3, 'round'));
    return;
  }
  out.push(stroke(points, (i) => half * swell(i), hand.section));
  // Serifs: a short blow of a flat punch across each end of a straight stroke.
  if (n > 2) return;
  for (const end of [0, n - 1]) {
    const [x, y] = points[end];
    const [ox, oy] = points[end === 0 ? 1 : n - 2];
    const run = Math.hypot(x - ox, y - oy) || 1;
    const sx = (-(y - oy) / run) * hand.serif * letterMm;
    const sy = ((x - ox) / run) * hand.serif * letterMm;
    out.push(
      stroke(
        [
          [x - sx, y - sy],
          [x + sx, y + sy],
        ],
        () => half * 0.75,
        'flat',
      ),
    );
  }
}

function drawBorder(out: Stroke[], { outline, border, rings, fieldInset }: Layout, chance: Chance): void {
  if (border === 'none') return;
  const edge = rings[0].footInset - rings[0].letterMm;
  const insets = [
    edge * 0.45,
    ...rings.slice(1).map((r) => r.footInset + r.letterMm + edge * 0.25),
    fieldInset - edge * 0.2,
  ];
  const half = Math.max(0.08, edge * 0.14);
  insets.forEach((inset, i) => {
    const kind = i === 0 || chance.yes(0.5) ? border : 'plain';
    const course = courseOf(insetCurve(outline, inset));
    if (kind === 'plain') line(out, course, half, half * 1.2);
    else if (kind === 'beaded') beads(out, course, half * 1.9, chance);
    else cable(out, course, half, chance);
  });
}

function line(out: Stroke[], course: Course, half: number, depth: number): void {
  const points = Array.from({ length: 181 }, (_, i) => course.at((course.length * i) / 180));
  out.push({
    x: points.map(({ x }) => x),
    y: points.map(({ y }) => y),
    half: points.map(() => half),
    depth: points.map(() => depth),
    section: 'v',
    detail: false,
    group: -1,
  });
}

function beads(out: Stroke[], course: Course, radius: number, chance: Chance): void {
  const count = Math.round(course.length / (radius * chance.range(2.3, 3)));
  for (let i = 0; i < count; i++) {
    const { x, y } = course.at((course.length * (i + 0.06 * chance.gauss())) / count);
    out.push({ x: [x], y: [y], half: [radius], depth: [radius * 0.8], section: 'round', detail: false, group: -1 });
  }
}

function cable(out: Stroke[], course: Course, half: number, chance: Chance): void {
  const count = Math.round(course.length / (half * chance.range(4.2, 5.5)));
  for (let i = 0; i < count; i++) {
    const { x, y, tx, ty } = course.at((course.length * (i + 0.05 * chance.gauss())) / count);
    const along = half * 1.6;
    const across = half * 1.7;
    out.push({
      x: [x - along * tx + across * ty, x + along * tx - across * ty],
      y: [y - along * ty - across * tx, y + along * ty + across * tx],
      half: [half, half],
      depth: [half * 1.3, half * 1.3],
      section: 'round',
      detail: false,
      group: -1,
    });
  }
}
