import type { Chance } from './chance.ts';
import type { Drawing } from './drawing.ts';
import { randomSurface } from './lattice.ts';
import type { Section, Stroke } from './strokes.ts';

/**
 * The drawing as a copyist transfers it. Every letter and every stroke of the motif is put down (dx, dy) out of place,
 * each of dx and dy normal with standard deviation D/√2, so that the root mean square distance is D; border lines swerve
 * by as much over 3 mm. A smooth distortion of D/2 (over about the seal's width) comes besides. Widths and depths differ
 * by 8 and 12 %, and a third of the strokes meet another tool.
 */
export function copyByHand(drawing: Drawing, displacementMm: number, chance: Chance): Drawing {
  const extent = 1.2 * Math.max(drawing.outline.halfWidth, drawing.outline.halfHeight);
  const bowX = randomSurface(chance.branch('bow x'), extent, extent);
  const bowY = randomSurface(chance.branch('bow y'), extent, extent);
  const swerveX = randomSurface(chance.branch('swerve x'), 3, extent);
  const swerveY = randomSurface(chance.branch('swerve y'), 3, extent);
  const each = displacementMm / Math.SQRT2;
  const shifts = new Map<number, [number, number]>();
  const tools = new Map<number, Tool>();
  const shiftOf = (group: number, x: number, y: number): [number, number] => {
    if (group < 0) return [each * swerveX(x, y), each * swerveY(x, y)];
    const known = shifts.get(group) ?? [each * chance.gauss(), each * chance.gauss()];
    shifts.set(group, known);
    return known;
  };
  const move = (group: number, x: number, y: number): [number, number] => {
    const [dx, dy] = shiftOf(group, x, y);
    return [x + dx + (each / 2) * bowX(x, y), y + dy + (each / 2) * bowY(x, y)];
  };
  const copied = (stroke: Stroke): Stroke => {
    const tool = tools.get(stroke.group) ?? newTool(chance);
    tools.set(stroke.group, tool);
    const points = stroke.x.map((x, i) => move(stroke.group, x, stroke.y[i]));
    return {
      ...stroke,
      x: points.map(([x]) => x),
      y: points.map(([, y]) => y),
      half: stroke.half.map((h) => h * tool.half),
      depth: stroke.depth.map((d) => d * tool.depth),
      section: stroke.section === 'full' ? 'full' : (tool.section ?? stroke.section),
    };
  };
  return {
    ...drawing,
    legend: drawing.legend.map(copied),
    rest: drawing.rest.map(copied),
    letters: drawing.letters.map((letter, group) => {
      const [x, y] = move(group, letter.x, letter.y);
      return { ...letter, x, y };
    }),
  };
}

interface Tool {
  readonly half: number;
  readonly depth: number;
  readonly section: Section | null;
}

const newTool = (chance: Chance): Tool => ({
  half: Math.max(0.7, 1 + 0.08 * chance.gauss()),
  depth: Math.max(0.6, 1 + 0.12 * chance.gauss()),
  section: chance.yes(1 / 3) ? chance.choose(['v', 'round', 'flat'] as const) : null,
});

/** The motif drawn anew after a pattern: strokes off by `freedomMm`, proportions bent by as much. */
export function motifAnew(rest: readonly Stroke[], drawing: Drawing, freedomMm: number, chance: Chance): Stroke[] {
  return [...copyByHand({ ...drawing, rest, legend: [], letters: [] }, freedomMm, chance).rest].map((stroke) => {
    const grow = 1 + 0.1 * chance.gauss();
    const cx = mean(stroke.x);
    const cy = mean(stroke.y);
    return stroke.group < 0
      ? stroke
      : { ...stroke, x: stroke.x.map((x) => cx + grow * (x - cx)), y: stroke.y.map((y) => cy + grow * (y - cy)) };
  });
}

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
