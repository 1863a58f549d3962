import { type HeightGrid, median, sigmaFromMad } from '../../../geometry/index.ts';
import type { Chain } from './chains.ts';
import { type LineCourse, type LineSurface, lineCourse } from './lineCourse.ts';
import { lineLevel } from './lineLevel.ts';
import { lineProfiles } from './lineProfiles.ts';
import { lineReading } from './lineReading.ts';
import type { LineNumbers, LineSection } from './lineTypes.ts';
import { lineVerdict } from './lineVerdict.ts';
import { meanSection } from './meanSection.ts';

/** Section of a line mark and the verdict on it: cut, crack or scratch, as far as the numbers tell. Parameters as for `lineNumbers`. */
export function lineSection(...line: Parameters<typeof lineNumbers>): LineSection {
  const measured = lineNumbers(...line);
  const verdict = lineVerdict(measured);
  return { ...verdict, ridge: line[3] === 1, measured, reading: lineReading(measured, verdict, line[3]) };
}

/**
 * Section and way of a line on a surface; null where there are not enough data on it. `chain`: where the line runs, in cells of `grid`;
 * `sign`: 1 for a ridge, −1 for a groove; `widthMm`: about how wide it is.
 */
export function lineNumbers(
  surface: LineSurface,
  chain: Chain,
  grid: Pick<HeightGrid, 'width' | 'pitch' | 'left' | 'top'>,
  sign: 1 | -1,
  widthMm: number,
): LineNumbers | null {
  const course = lineCourse(surface, chain, grid, sign, widthMm);
  const seen = course.nodes.filter((node) => node.seen).length;
  if (seen < 3) return null;
  const profiles = lineProfiles(surface, chain, course, sign, widthMm);
  const section = meanSection(profiles, surface.pitchMm);
  if (!section) return null;
  return {
    section,
    level: lineLevel(profiles, sign),
    lengthMm: (course.nodes.length - 1) * course.spacingMm,
    strayMm: residual(course, 1),
    wanderMm: residual(course, 2),
    seen: seen / course.nodes.length,
    pitchMm: surface.pitchMm,
  };
}

/** Nodes farther off than so many standard deviations (from the median) were pulled aside by a form beside the line. */
const farOff = 3;

/** Root mean square of what a polynomial of the degree leaves of the nodes that were seen, those far off left out, mm. */
function residual({ nodes }: LineCourse, degree: 1 | 2): number {
  let kept = nodes.filter((node) => node.seen);
  for (let round = 0; ; round++) {
    const rest = leftBy(kept, degree);
    const limit = farOff * sigmaFromMad * median(rest.map(Math.abs));
    const next = kept.filter((_, k) => Math.abs(rest[k]) <= limit);
    if (round === 3 || next.length === kept.length || next.length < 0.7 * kept.length)
      return Math.sqrt(dot(rest, rest) / rest.length);
    kept = next;
  }
}

function leftBy(nodes: LineCourse['nodes'], degree: number): number[] {
  const middle = (nodes[0].along + nodes[nodes.length - 1].along) / 2;
  const half = (nodes[nodes.length - 1].along - nodes[0].along) / 2 || 1;
  const t = nodes.map(({ along }) => (along - middle) / half);
  // Orthogonal over these nodes: each power less what the lower ones hold of it (Gram and Schmidt).
  const basis: number[][] = [];
  for (let power = 0; power <= degree; power++) {
    const values = t.map((value) => value ** power);
    basis.push(without(values, basis));
  }
  const aside = nodes.map((node) => node.aside);
  return without(aside, basis);
}

function without(values: number[], basis: readonly number[][]): number[] {
  let rest = values;
  for (const one of basis) {
    const norm = dot(one, one);
    const share = norm > 1e-12 ? dot(rest, one) / norm : 0;
    rest = rest.map((value, k) => value - share * one[k]);
  }
  return rest;
}

const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, value, k) => sum + value * b[k], 0);
