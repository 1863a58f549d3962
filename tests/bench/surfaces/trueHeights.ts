import { subSeed } from '../../../sample-scans/generator/chance.ts';
import { filedFace } from '../../../sample-scans/generator/die.ts';
import { heightAt } from '../../../sample-scans/generator/field.ts';
import type { GeneratedPair } from '../../../sample-scans/generator/index.ts';
import { handOf } from '../../../sample-scans/generator/node.ts';
import { scannedPair } from '../../../sample-scans/generator/pair.ts';
import { bit, mmPerUnit } from '../../../sample-scans/generator/types.ts';
import { apply, quantile } from '../../../src/core/geometry/index.ts';
import { conditionCode, type MadePair, type PairRecipe } from '../../populations/index.ts';
import { valueAt } from '../../populations/lattice.ts';
import { conditionAt } from '../../populations/made.ts';
import { storyOf } from '../../populations/makePair.ts';
import { type FoundFrame, NearPoints } from './places.ts';
import { eachSecondVertex, type SecondFrames } from './secondPairs.ts';
import type { MadePoint } from './trueZones.ts';

/** From so much on a surface lies lower, mm: what the first generator calls touched. */
export const leastDropMm = 0.02;

/** Heights of both as made, mm, and whether the reference has its face there: no lip, no break. */
interface Heights {
  readonly made: number;
  readonly left: number;
  readonly onFace: boolean;
}

/**
 * Height of the reference's surface and of the subject's at the same material point for each vertex of the subject's scan: as both were made, without
 * bending, shrinkage and noise, whatever lowered it. Of one design on one lattice.
 */
export function trueHeights(seed: number, recipe: PairRecipe, { subject }: MadePair): (vertex: number) => Heights {
  const story = storyOf(seed, recipe);
  const [a, b] = [story.reference.made, story.subject.made];
  const none = new Set((['lost', 'lip', 'body'] as const).map((name) => conditionCode[name]));
  return (vertex) => {
    const [x, y] = [subject.designPlace[2 * vertex], subject.designPlace[2 * vertex + 1]];
    return {
      made: valueAt(a.lattice, a.z, x, y),
      left: valueAt(b.lattice, b.z, x, y),
      onFace: !none.has(conditionAt(a, x, y)),
    };
  };
}

/** The same of the first generator, over the face as it was filed, at the places of the subject's face. */
export function madePoints({ recipe, subject: file }: GeneratedPair, { fromSubjectFile }: FoundFrame): MadePoint[] {
  if (!fromSubjectFile) return [];
  const { reference, subject } = scannedPair(recipe, handOf);
  const { clean, bits } = subject.shell;
  const filed = filedFace(reference.design.sizeMm, subSeed(recipe.seed, 'hand'));
  const k = mmPerUnit[file.unit];
  const points: MadePoint[] = [];
  for (let i = 0; i < bits.length; i++) {
    if (!(bits[i] & bit.face) || bits[i] & bit.spike) continue;
    const [x, y] = apply(fromSubjectFile, [
      file.positions[3 * i] * k,
      file.positions[3 * i + 1] * k,
      file.positions[3 * i + 2] * k,
    ]);
    const ground = filed(clean[3 * i], clean[3 * i + 1]);
    const made = heightAt(reference.made.relief.field, clean[3 * i], clean[3 * i + 1]);
    points.push({ x, y, made: made - ground, left: clean[3 * i + 2] - ground });
  }
  return points;
}

/** How far the two surfaces as made lie apart, mm, at the places of a mark (x, y pairs): what 3 % of the subject's vertices there exceed. */
export function differsMm(
  points: Float64Array,
  { subject }: MadePair,
  { fromSubject }: SecondFrames,
  heights: (vertex: number) => Heights,
): number {
  const near = new NearPoints(0.15);
  for (let i = 0; i < points.length; i += 2) near.add(points[i], points[i + 1]);
  const apart: number[] = [];
  if (fromSubject)
    eachSecondVertex(subject, fromSubject, (x, y, _, vertex) => {
      if (!near.has(x, y)) return;
      const { made, left, onFace } = heights(vertex);
      if (onFace) apart.push(Math.abs(left - made));
    });
  return apart.length > 0 ? quantile(Float32Array.from(apart), 0.97) : 0;
}
