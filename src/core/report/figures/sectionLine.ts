import type { Difference, Line } from '../../compare/index.ts';
import type { Mark } from '../../condition/index.ts';
import type { Face } from '../../face/index.ts';
import { apply, invert, type Similarity, xOf, yOf } from '../../geometry/index.ts';
import { impressionSense } from './plates.ts';

/**
 * A line worth a section, in the reference's face frame, mm: across the largest mark at right angles to its length, or
 * else level through the greatest difference; from rim to rim. Runs left to right as the impression shows it.
 */
export function sectionLine(referenceFace: Face, marks: readonly Mark[], difference: Difference): Line {
  const plateFromFace = impressionSense(referenceFace);
  const { polygon } = referenceFace.outline;
  const mark = largestMark(marks);
  const [x, y] = mark ? meanPoint(mark.outline) : greatestDifference(difference, invert(plateFromFace));
  const [ux, uy] = mark ? acrossDirection(mark.outline, x, y) : [1, 0];
  const [from, to] = chord(polygon, x, y, ux, uy);
  const ends = [x + from * ux, y + from * uy, x + to * ux, y + to * uy] as const;
  const leftward = apply(plateFromFace, [ux, uy, 0])[0] < 0;
  return leftward ? [ends[2], ends[3], ends[0], ends[1]] : ends;
}

function largestMark(marks: readonly Mark[]): Mark | undefined {
  const weight = (mark: Mark): number => (mark.outline.length < 6 ? 0 : mark.areaMm2 * Math.abs(mark.depthMm) || 0);
  return marks.reduce<Mark | undefined>(
    (best, mark) => (weight(mark) > (best ? weight(best) : 0) ? mark : best),
    undefined,
  );
}

function meanPoint(outline: Float64Array): [number, number] {
  let [x, y] = [0, 0];
  for (let i = 0; i < outline.length; i += 2) {
    x += outline[i];
    y += outline[i + 1];
  }
  return [(2 * x) / outline.length, (2 * y) / outline.length];
}

/** Unit direction in which the outline is narrowest: the smaller axis of its second moments. */
function acrossDirection(outline: Float64Array, x: number, y: number): [number, number] {
  let [xx, xy, yy] = [0, 0, 0];
  for (let i = 0; i < outline.length; i += 2) {
    const [dx, dy] = [outline[i] - x, outline[i + 1] - y];
    xx += dx * dx;
    xy += dx * dy;
    yy += dy * dy;
  }
  const along = 0.5 * Math.atan2(2 * xy, xx - yy);
  return [-Math.sin(along), Math.cos(along)];
}

/** Place of the greatest mean difference over 5 × 5 cells, so that no single spike is chosen. */
function greatestDifference({ map }: Difference, faceFromPlate: Similarity): [number, number] {
  const { width, height, z, mask } = map;
  let best = 0;
  let at = Math.floor(z.length / 2);
  for (let row = 2; row < height - 2; row += 2)
    for (let col = 2; col < width - 2; col += 2) {
      let [sum, count] = [0, 0];
      for (let r = row - 2; r <= row + 2; r++)
        for (let i = r * width + col - 2, end = i + 5; i < end; i++)
          if (mask[i]) {
            sum += z[i];
            count++;
          }
      if (count < 25 || Math.abs(sum) <= best) continue;
      best = Math.abs(sum);
      at = row * width + col;
    }
  const [x, y] = apply(faceFromPlate, [xOf(map, at % width), yOf(map, Math.floor(at / width)), 0]);
  return [x, y];
}

/** Where the line through (x, y) along (ux, uy) meets the rim, before and behind; the whole face where it does not. */
function chord(rim: Float64Array, x: number, y: number, ux: number, uy: number): [number, number] {
  let [from, to] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  let reach = 0;
  for (let i = 0; i < rim.length; i += 2) {
    const j = (i + 2) % rim.length;
    const a = (rim[i] - x) * uy - (rim[i + 1] - y) * ux;
    const b = (rim[j] - x) * uy - (rim[j + 1] - y) * ux;
    const alongA = (rim[i] - x) * ux + (rim[i + 1] - y) * uy;
    const alongB = (rim[j] - x) * ux + (rim[j + 1] - y) * uy;
    reach = Math.max(reach, Math.abs(alongA));
    if (a > 0 === b > 0) continue;
    const t = alongA + (a / (a - b)) * (alongB - alongA);
    if (t <= 0) from = Math.max(from, t);
    else to = Math.min(to, t);
  }
  return [Number.isFinite(from) ? from : -reach, Number.isFinite(to) ? to : reach];
}
